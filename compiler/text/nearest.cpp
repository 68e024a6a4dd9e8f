#include "text/nearest.h"

#include <vector>

namespace curbstop::text {

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
    const std::size_t difference = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
    if (difference > limit) {
        return limit + 1;
    }
    // Three rows of the usual table: the current one and the two above it (a swap reaches two back).
    std::vector<std::size_t> above2(b.size() + 1);
    std::vector<std::size_t> above(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) {
        above[j] = j;
    }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        std::size_t least = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t substitution = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, substitution});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = std::min(row[j], above2[j - 2] + 1);
            }
            least = std::min(least, row[j]);
        }
        // A swap may still come from the row above, hence both.
        if (least > limit && *std::min_element(above.begin(), above.end()) > limit) {
            return limit + 1;
        }
        above2.swap(above);
        above.swap(row);
    }
    return std::min(above[b.size()], limit + 1);
}

} // namespace curbstop::text
