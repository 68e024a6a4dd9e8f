// What the picture of one step shows, before anything is placed: what the step moves, what is joined to that by one
// pipe, what is under pressure, what holds what, where liquid comes out.
// Must not know: SVG, the layout library.
#pragma once

#include "output/drawing_graph.h"
#include "output/moves.h"
#include "output/passage.h"
#include "output/step_state.h"
#include "output/words.h"
#include "proofs/report.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

struct PictureCard {
    Symbol symbol = Symbol::plain;
    std::optional<Passage> passage; ///< of what can stand in several ways and lets through
    std::string label;
    std::vector<std::string> moves;  ///< "shut → open"; none: a neighbour
    std::vector<std::size_t> holds;  ///< indices into Picture::key
    std::vector<std::string> beyond; ///< of a tee: the parts that its other pipes lead to
    bool moved = false;
    bool optional = false; ///< there in some variants only
    bool pressure = false;
    meaning::PartId part; ///< or
    meaning::NodeId node; ///< or
    meaning::VariableId variable;
};

enum class PipeKind : std::uint8_t { pipe, inside, coupled, falls };

struct PicturePipe {
    std::size_t from = 0, to = 0;
    PipeKind kind = PipeKind::pipe;
    std::optional<std::size_t> holds; ///< index into Picture::key
    bool optional = false;
    bool pressure = false;
    bool shut_from = false, shut_to = false; ///< goes no further there
};

/// Where liquid may come out, or into an open tank. What did so before the step already is left out, unless it is among
/// the cards.
struct PictureOut {
    std::optional<std::size_t> card; ///< none: it is shown for nothing else
    std::string at;                  ///< label of what it comes out of or into
    std::string into;                ///< empty: nobody knows, or the ground
    bool fills = false;
};

struct KeyEntry {
    std::optional<meaning::FluidId> pattern; ///< of its chief fluid; none: air
    Content filling;
    std::string words;
};

struct Picture {
    std::uint32_t step = 0;
    std::vector<PictureCard> cards;
    std::vector<PicturePipe> pipes;
    std::vector<PictureOut> outs;
    std::vector<KeyEntry> key;

    [[nodiscard]] bool empty() const { return cards.empty(); }
};

/// Empty of a step that moves nothing. `graph`: the whole system's, without state. `before`: how all stood when the
/// step began.
[[nodiscard]] Picture compose_picture(const Words& words, const DrawingGraph& graph, const proofs::StepReport& step,
                                      std::vector<meaning::ValueSet> before);

} // namespace curbstop::output
