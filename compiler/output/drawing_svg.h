// Cards, lines and frames of a drawing, once they have their places, as SVG.
// Must not know: how they were placed, how anything was proved.
#pragma once

#include "output/drawing_graph.h"
#include "output/layout.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// The words of a card, broken into lines, and the room that it takes.
struct CardText {
    std::vector<std::string> lines;  ///< of the label
    std::vector<std::string> detail; ///< in italics below
    double width = 0;
    double height = 0;
};
/// `columns`: of a line of the label.
inline constexpr std::size_t label_columns = 20;
[[nodiscard]] CardText measure(const Card& card, std::size_t columns = label_columns);

/// What a script finds a card or a pipe by: "p12" a part, "n3" a node, "r7" a pipe.
[[nodiscard]] std::string place_id(const Card& card);
[[nodiscard]] std::string place_id(const Line2d& line);

/// The sign of a valve on a card, as it stands, as path data, for a script that draws it anew: rings, discs, pipes,
/// arrows, and "?" where how it stands is not laid down.
[[nodiscard]] std::array<std::string, 5> card_sign(const Card& card);

/// Room between a frame and its cards: for the name of the place.
inline constexpr double frame_margin = 22;

struct DrawnGraph {
    const DrawingGraph* graph = nullptr;
    const std::vector<CardText>* texts = nullptr;
    const Layout* layout = nullptr;
    std::vector<std::string> frames = {}; ///< names of the layout's clusters
    std::vector<std::string> legend = {}; ///< lines below
    std::string_view language = {};       ///< of a drawing that is a file of its own
    bool live = false;                    ///< with attributes that a script finds parts and pipes by
};

[[nodiscard]] std::string drawing_svg(const DrawnGraph& drawn, std::string_view name);

} // namespace curbstop::output
