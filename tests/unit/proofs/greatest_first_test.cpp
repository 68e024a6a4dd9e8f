#include "proofs/transport/greatest_first.h"

#include <catch2/catch.hpp>

#include <iterator>
#include <random>
#include <set>

using curbstop::proofs::GreatestFirst;

// The expected order is that of the standard library's ordered set (ISO C++, [associative.reqmts]).
TEST_CASE("numbers that wait come out each once, the greatest first") {
    std::mt19937 random(20260901);
    for (const std::uint32_t limit : {1U, 63U, 64U, 65U, 4096U, 4097U, 300'000U}) {
        CAPTURE(limit);
        GreatestFirst waiting(limit);
        std::set<std::uint32_t> expected;
        std::uniform_int_distribution<std::uint32_t> number(0, limit - 1);
        for (int turn = 0; turn < 2000; ++turn) {
            if (random() % 3 != 0) {
                const std::uint32_t one = number(random);
                waiting.insert(one);
                expected.insert(one);
            } else if (!expected.empty()) {
                REQUIRE(waiting.take() == *expected.rbegin());
                expected.erase(std::prev(expected.end()));
            }
            REQUIRE(waiting.empty() == expected.empty());
        }
        while (!expected.empty()) {
            REQUIRE(waiting.take() == *expected.rbegin());
            expected.erase(std::prev(expected.end()));
        }
        CHECK(waiting.empty());
    }
    CHECK(GreatestFirst().empty());
    CHECK(GreatestFirst(0).empty());
}
