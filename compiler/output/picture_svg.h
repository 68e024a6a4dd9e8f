// Pictures of steps as SVG to stand in an HTML sheet. Their look is in pictures.css, and what they share is drawn once
// per document, so that one is small. They take the ink and the ground of the page, so that they read the same in a
// dark theme and on paper. Must not know: models, files.
#pragma once

#include "output/picture.h"

#include <string>

namespace curbstop::output {

/// An svg element, or in `error` why there is none. Its text alternative is picture_words().
struct PictureSvg {
    std::string svg;
    std::string error;
};
[[nodiscard]] PictureSvg picture_svg(const Picture& picture, const Tongue& tongue);

} // namespace curbstop::output
