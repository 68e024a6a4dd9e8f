#include "instants/diagrams.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <random>

using namespace curbstop::instants;

namespace {

constexpr std::uint32_t levels = 5;
constexpr std::uint32_t rows = 1U << levels;

// A set written out: one bit per assignment of five levels. Dumb and obviously right.
using TruthTable = std::uint32_t;

TruthTable table_of(const Diagrams& diagrams, Set set) {
    TruthTable table = 0;
    for (std::uint32_t row = 0; row < rows; ++row) {
        std::vector<bool> assignment(levels);
        for (std::uint32_t level = 0; level < levels; ++level) {
            assignment[level] = (row >> level & 1) != 0;
        }
        table |= diagrams.contains(set, assignment) ? TruthTable{1} << row : 0;
    }
    return table;
}

TruthTable level_table(std::uint32_t level) {
    TruthTable table = 0;
    for (std::uint32_t row = 0; row < rows; ++row) {
        table |= (row >> level & 1) != 0 ? TruthTable{1} << row : 0;
    }
    return table;
}

} // namespace

TEST_CASE("operations agree with truth tables") {
    Diagrams diagrams(1'000'000);
    std::mt19937 random(1);
    std::vector<std::pair<Set, TruthTable>> made{{nothing, 0}, {everything, ~TruthTable{0}}};
    for (std::uint32_t level = 0; level < levels; ++level) {
        made.emplace_back(diagrams.level(level), level_table(level));
    }
    for (int round = 0; round < 3000; ++round) {
        const auto any = [&] { return made[random() % made.size()]; };
        const auto [a, table_a] = any();
        const auto [b, table_b] = any();
        const auto [c, table_c] = any();
        const Set set = diagrams.if_then_else(a, b, c);
        const TruthTable table = (table_a & table_b) | (~table_a & table_c);
        REQUIRE(table_of(diagrams, set) == table);
        CHECK(diagrams.disjoint(a, b) == ((table_a & table_b) == 0));
        CHECK(diagrams.within(a, b) == ((table_a & ~table_b) == 0));
        made.emplace_back(set, table);
    }
    // Canonical: equal sets have equal references.
    for (const auto& [a, table_a] : made) {
        for (std::size_t i = 0; i < 20; ++i) {
            const auto& [b, table_b] = made[random() % made.size()];
            CHECK((a == b) == (table_a == table_b));
        }
    }
}

TEST_CASE("quantifying a level away keeps what some value of it allows") {
    Diagrams diagrams(10'000);
    const Set a = diagrams.level(0);
    const Set b = diagrams.level(1);
    CHECK(diagrams.exists(diagrams.both(a, b), {true, false}) == b);
    CHECK(diagrams.exists(diagrams.both(a, diagrams.complement(a)), {true, true}) == nothing);
}

TEST_CASE("a picked assignment is in the set, and a support names the levels that matter") {
    Diagrams diagrams(10'000);
    const Set set = diagrams.both(diagrams.level(3), diagrams.complement(diagrams.level(1)));
    const auto choice = diagrams.pick(set, levels);
    CHECK(choice[3] == true);
    CHECK(choice[1] == false);
    CHECK_FALSE(choice[0].has_value());
    CHECK(diagrams.support(set, levels) == std::vector<bool>{false, true, false, true, false});
}

TEST_CASE("a spent budget is said, not passed over") {
    Diagrams diagrams(50);
    CHECK_THROWS_AS(
        [&] {
            // Equality of two halves in the worst order: exponential in the number of levels.
            Set set = everything;
            for (std::uint32_t i = 0; i < 10; ++i) {
                const Set a = diagrams.level(i);
                const Set b = diagrams.level(i + 10);
                set = diagrams.both(set, diagrams.if_then_else(a, b, diagrams.complement(b)));
            }
        }(),
        BudgetSpent);
}
