// A label broken into lines for a drawing. Must not know: SVG, layout.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// Breaks a label at spaces and after hyphens, or where it must, into lines of at most `columns` (small letters; broad
/// ones take more); what does not fit into `most_lines` is cut with `…`, so whoever cuts says the whole elsewhere.
[[nodiscard]] std::vector<std::string> label_lines(std::string_view label, std::size_t columns, std::size_t most_lines);

/// Columns of the widest.
[[nodiscard]] std::size_t widest(const std::vector<std::string>& lines);

} // namespace curbstop::output
