// What a picture of a step and a drawing by place say, in words: on them, and in the text alternative of a picture,
// which says the same. Must not know: SVG.
#pragma once

#include "output/words.h"

#include <string>
#include <vector>

namespace curbstop::output {

struct Content;
struct Picture;
struct PictureFrame;
struct PicturePart;

/// "Drinking water or Hot water, at most 10 % full", "Air".
[[nodiscard]] Wording filling_words(const Words& words, const Content& filling);

/// Of a tee: "to Galley tap, Shower and 2 more"; empty where it leads nowhere.
[[nodiscard]] std::string beyond_words(const std::vector<std::string>& beyond, const Tongue& tongue);

/// "Galley tap, Shower and 2 more".
[[nodiscard]] std::string names_words(const std::vector<std::string>& found, const Tongue& tongue);

/// "to Galley: Galley tap": where a pipe leads that leaves a drawing by place; `zone` is empty where it stays in it.
[[nodiscard]] std::string onward_words(const std::string& zone, const std::string& what, const Tongue& tongue);

/// Below a frame in which a check valve is at work, "only 1 → 2"; empty below any other.
[[nodiscard]] std::string frame_sides(const PicturePart& part, const PictureFrame& frame, const Tongue& tongue);

/// All that the picture shows, cut by nothing, as sentences: its text alternative.
[[nodiscard]] std::string picture_words(const Picture& picture, const Tongue& tongue);

/// What the signs on the pictures mean, each with what it is called in picture_svg.cpp.
struct PictureSign {
    enum class Kind { shut, open, side_shut, in_doubt, one_way, out } kind;
    std::string words;
};
[[nodiscard]] std::vector<PictureSign> picture_signs(const Tongue& tongue);

} // namespace curbstop::output
