// Pictures of steps as SVG to stand in an HTML sheet. Their look is in pictures.css. They take the ink and the ground
// of the page, so that they read the same in a dark theme and on paper, and are as large as its letters. Must not know:
// models, files.
#pragma once

#include "output/picture.h"

#include <string>

namespace curbstop::output {

/// An svg element; its text alternative is picture_words().
[[nodiscard]] std::string picture_svg(const Picture& picture, const Tongue& tongue);

/// A list that says what the signs on the pictures mean.
[[nodiscard]] std::string picture_legend(const Tongue& tongue);

} // namespace curbstop::output
