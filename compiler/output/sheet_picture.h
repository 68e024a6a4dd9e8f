// What a picture of a step says, in words: on it, and in its text alternative, which says the same.
// Must not know: SVG.
#pragma once

#include "output/moves.h"
#include "output/words.h"

#include <string>
#include <vector>

namespace curbstop::output {

struct Picture;
struct PictureOut;

/// "shut → open"; with the variable's own words before it where they are not those of the card: "front: open → capped".
[[nodiscard]] std::string move_words(const Words& words, const Moved& moved, const std::string& card);

/// Of a tee: "to Galley tap, Shower and 2 more"; empty where it leads nowhere.
[[nodiscard]] std::string beyond_words(const std::vector<std::string>& beyond);

/// "Galley tap, Shower and 2 more".
[[nodiscard]] std::string names_words(const std::vector<std::string>& found);

// Of the drawings by place.
[[nodiscard]] std::string onward_words(const std::string& zone, const std::string& what); ///< "to Galley: Galley tap"
[[nodiscard]] std::string come_from_words(const std::string& zone, const std::string& what);
[[nodiscard]] std::string over_words(const std::string& place); ///< after the label of what lets fall into it
[[nodiscard]] std::string elsewhere_words();                    ///< heads what has no place
[[nodiscard]] std::string one_of_words(const std::string& name, std::size_t number, std::size_t count);
[[nodiscard]] std::string parts_words(std::size_t count);
[[nodiscard]] std::string pipes_words(std::size_t count);
[[nodiscard]] std::string overview_words();
[[nodiscard]] std::string at_the_start_words();
[[nodiscard]] std::string after_step_words(); ///< `{}` stands for the number

/// "may run out into Gully", "may run in".
[[nodiscard]] std::string out_words(const PictureOut& out);

/// All that the picture shows, cut by nothing, as sentences: its text alternative.
[[nodiscard]] std::string picture_words(const Picture& picture);

/// What the signs on the pictures mean, each with what it is called in pictures.css and picture_svg.cpp.
struct PictureSign {
    enum class Kind { pressure, shut_valve, open_valve, bar, falls, moved, optional } kind;
    std::string words;
};
[[nodiscard]] std::vector<PictureSign> picture_signs();

} // namespace curbstop::output
