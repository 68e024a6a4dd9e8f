// What the picture of one step shows, before anything is placed: of each valve that the step turns, what it joins, and
// which of its ways are open before, while and after it is worked on. What such a picture would not show better than
// the words beside it (a cap, a switch, a hose, many things at once) has none. Must not know: SVG.
#pragma once

#include "output/drawing_graph.h"
#include "output/moves.h"
#include "output/valve_ways.h"
#include "output/words.h"
#include "proofs/report.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

/// How a part stands at one time.
struct PictureFrame {
    std::string stands; ///< "shut"
    std::vector<PictureWay> ways;
};

struct PicturePart {
    std::string label;
    std::vector<std::string> ports; ///< of each, what it leads to or is called; empty where nothing tells it apart
    bool lets_out = false;          ///< some way of it leads out
    std::vector<PictureFrame> frames;
    std::string out_to = {}; ///< where what it lets out lands in this step: a vessel where one is placed there

    /// Whether its ports have to be told apart (valve_ways.h).
    [[nodiscard]] bool numbered() const;
};

struct Picture {
    std::uint32_t step = 0;
    std::vector<PicturePart> parts;

    [[nodiscard]] bool empty() const { return parts.empty(); }
};

/// `graph`: the whole system's, without state. `before`: how all stood when the step began.
[[nodiscard]] Picture compose_picture(const Words& words, const DrawingGraph& graph, const proofs::StepReport& step,
                                      std::vector<meaning::ValueSet> before);

} // namespace curbstop::output
