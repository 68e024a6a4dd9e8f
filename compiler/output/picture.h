// What the picture of one step shows, before anything is placed: of each valve that the step turns, what it joins, and
// which of its ways are open before, while and after it is worked on. What such a picture would not show better than
// the words beside it (a cap, a switch, a hose, many things at once) has none. Must not know: SVG.
#pragma once

#include "output/drawing_graph.h"
#include "output/moves.h"
#include "output/words.h"
#include "proofs/report.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

/// A way through a part that may be open.
struct PictureWay {
    std::size_t from = 0;          ///< index into PicturePart::ports
    std::optional<std::size_t> to; ///< none: out, by a free fall or into the open
    bool one_way = false;
    bool surely = false;

    bool operator==(const PictureWay&) const = default;
};

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

    /// Whether its ports have to be told apart. A tap on one pipe, or a valve in a line that is open or shut as a
    /// whole, is plain without it.
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
