// "Did you mean": the name nearest to one that was not found.
// Must not know: what the names name.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <ranges>
#include <string_view>

namespace curbstop::text {

/// Optimal string alignment distance: least number of insertions, deletions, substitutions and swaps of neighbours,
/// no part edited twice. Gives up early and returns `limit + 1` where it is above `limit`. Counts bytes: names are
/// ASCII.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit);

/// How far a name may be from what was written and still be offered.
[[nodiscard]] constexpr std::size_t nearness_limit(std::string_view written) {
    return written.size() / 3 + 1;
}

/// The candidate nearest to `written` within its nearness_limit; of several equally near ones the first. Never
/// `written` itself.
template <std::ranges::input_range Range>
[[nodiscard]] std::optional<std::string_view> nearest(std::string_view written, const Range& candidates) {
    std::optional<std::string_view> best;
    std::size_t limit = nearness_limit(written);
    for (const auto& candidate : candidates) {
        const std::string_view name = candidate;
        // Replacing every letter is no likeness.
        const std::size_t distance = edit_distance(written, name, limit);
        if (distance == 0 || distance > limit || distance >= std::max(written.size(), name.size())) {
            continue;
        }
        best = name;
        limit = distance - 1;
    }
    return best;
}

} // namespace curbstop::text
