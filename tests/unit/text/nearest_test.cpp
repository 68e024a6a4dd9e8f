#include "text/nearest.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace curbstop::text;

namespace {

// The same distance by its definition, without a bound: slow, and nothing to get wrong.
std::size_t plain_distance(std::string_view a, std::string_view b) {
    if (a.empty() || b.empty()) {
        return a.size() + b.size();
    }
    const std::string_view x = a.substr(0, a.size() - 1);
    const std::string_view y = b.substr(0, b.size() - 1);
    std::size_t best = std::min(
        {plain_distance(x, b) + 1, plain_distance(a, y) + 1, plain_distance(x, y) + (a.back() == b.back() ? 0U : 1U)});
    if (a.size() > 1 && b.size() > 1 && a.back() == b[b.size() - 2] && b.back() == a[a.size() - 2]) {
        best = std::min(best, plain_distance(a.substr(0, a.size() - 2), b.substr(0, b.size() - 2)) + 1);
    }
    return best;
}

} // namespace

TEST_CASE("edit distance") {
    CHECK(edit_distance("drain", "drain", 3) == 0);
    CHECK(edit_distance("drain", "drian", 3) == 1); // a swap is one edit
    CHECK(edit_distance("drain", "rain", 3) == 1);
    CHECK(edit_distance("drain", "train", 3) == 1);
    CHECK(edit_distance("", "tap", 3) == 3);
    CHECK(edit_distance("kitten", "sitting", 5) == 3);
    CHECK(edit_distance("kitten", "sitting", 2) == 3);     // above the limit
    CHECK(edit_distance("tap", "tapestry_valve", 3) == 4); // told by the lengths alone
}

TEST_CASE("the bounded distance agrees with its definition on all short words of three letters") {
    std::vector<std::string> words{""};
    for (std::size_t i = 0; words[i].size() < 4; ++i) {
        for (const char c : {'a', 'b', 'c'}) {
            words.push_back(words[i] + c);
        }
    }
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < words.size(); ++i) {
        for (std::size_t j = i % 3; j < words.size(); j += 3) {
            const std::size_t truth = plain_distance(words[i], words[j]);
            for (std::size_t limit = 0; limit < 5; ++limit) {
                wrong += edit_distance(words[i], words[j], limit) == std::min(truth, limit + 1) ? 0U : 1U;
            }
        }
    }
    CHECK(wrong == 0);
}

TEST_CASE("the nearest name is offered, and nothing far away") {
    const std::array<std::string_view, 4> names{"kitchen_tap", "shower_tap", "drain_valve", "on"};
    CHECK(nearest("kichen_tap", names) == "kitchen_tap");
    CHECK(nearest("drain_vlave", names) == "drain_valve");
    CHECK_FALSE(nearest("boiler", names));
    CHECK_FALSE(nearest("xy", names)); // "on" is as far from it as any two letters
    CHECK_FALSE(nearest("kitchen_tap", std::array<std::string_view, 1>{"kitchen_tap"}));
}

TEST_CASE("of equally near names the first is offered") {
    CHECK(nearest("tap3", std::array<std::string_view, 3>{"tap1", "tap2", "cap3"}) == "tap1");
}
