// The signs on the cards of a drawing. Must not know: models, layout.
#pragma once

#include "output/drawing_graph.h"

#include <string_view>

namespace curbstop::output {

/// Width and height of every sign, in points.
inline constexpr double symbol_width = 36;
inline constexpr double symbol_height = 28;

/// SVG elements in a box of that size, drawn with the stroke that is set around them. Empty for a plain part.
[[nodiscard]] std::string_view symbol_svg(Symbol symbol);

} // namespace curbstop::output
