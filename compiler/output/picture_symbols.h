// What all pictures of steps share: signs and hatchings, drawn once per document, and what the signs mean.
// Must not know: models, layout.
#pragma once

#include "output/drawing_graph.h"
#include "output/tongue.h"

#include <cstddef>
#include <string>

namespace curbstop::output {

/// Ids `h1` to `h8` are hatched chips, `h0` is a blank one.
inline constexpr std::size_t hatching_count = 8;
[[nodiscard]] std::string symbol_id(Symbol symbol);

/// An svg element that shows nothing and holds the signs and hatchings that the pictures refer to.
[[nodiscard]] std::string picture_symbols();

/// A list that says what the signs on the pictures mean.
[[nodiscard]] std::string picture_legend(const Tongue& tongue);

} // namespace curbstop::output
