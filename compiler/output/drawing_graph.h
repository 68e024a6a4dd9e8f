// Which cards and lines a drawing of a system has, before anything is placed.
// Must not know: the layout library, SVG.
#pragma once

#include "meaning/system.h"
#include "output/valve_ways.h"
#include "output/words.h"
#include "proofs/report.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

/// What a card's sign tells, read off the ways of its part: the compiler knows no kinds by name.
enum class Symbol : std::uint8_t {
    plain,
    valve,
    three_way,
    check_valve,
    reducer,
    relief,
    tap,     ///< fluid leaves by a free fall
    opening, ///< can be opened to the air by hand
    pump,
    supply,
    tank,
    heated_tank,
    store,
    end,
    place,
    tee,
    control, ///< a switch: no water passes
    cover,
    vessel, ///< that is carried about
    onward, ///< where a pipe leads that leaves the drawing
    zone,   ///< a place with all that is in it
    remark, ///< words on a line
};

struct Card {
    Symbol symbol = Symbol::plain;
    std::string label;
    std::string detail; ///< how it stands, or under which option it is there; may be empty
    std::string title;  ///< in full
    std::optional<meaning::ZoneId> zone;
    bool optional = false; ///< there in some variants only
    std::string when = {}; ///< in which, for a script (output/applies.h)
    meaning::PartId part;  ///< what it is of: a part, or
    meaning::NodeId node;  ///< a tee, an end, a place
    std::string mark = {}; ///< of `onward`: the letter that the other end of the same pipe has in its drawing, or `…`
    std::string over;      ///< its label and where what leaves it falls, when that is in another drawing
    /// Of a drawing that a script keeps up to date: room for so many letters that say how it stands and what it holds.
    std::size_t live_columns = 0;
    std::string at_start = {};           ///< of such a drawing: how it stands at first
    std::optional<ValveForm> valve = {}; ///< of a valve or tap that is turned
    bool numbered = false;               ///< its ports are told apart by numbers, as in the pictures of steps
    /// How it stands, where that is shown: the sign of its kind gives way to that of valve_sign.h.
    std::optional<std::vector<PictureWay>> stands = {};
};

enum class Stroke : std::uint8_t { pipe, inside, fall };

struct Line2d {
    std::size_t from = 0, to = 0; ///< cards
    Stroke stroke = Stroke::pipe;
    bool optional = false;
    std::string when = {};
    bool pressurised = false;
    int falls = 0; ///< 1: towards `to`; -1: towards `from`
    std::string title;
    std::string word = {}; ///< what runs in it, where the network tells: "cold", "waste"
    double length = 0;     ///< of the pipe, in metres; 0 inside an assembly
    std::uint32_t run = UINT32_MAX;
    meaning::NodeId from_node, to_node;
};

struct DrawingGraph {
    std::vector<Card> cards;
    std::vector<Line2d> lines;
};

/// How the valve of a card stands, as far as `standing` tells.
[[nodiscard]] std::vector<PictureWay> stands_in(const meaning::System& system, const Card& card,
                                                const std::vector<meaning::ValueSet>& standing);

/// Labels of what a tee's pipes lead to over further tees, nearest first, but not where `passed` is set already.
void parts_beyond(const DrawingGraph& graph, std::size_t tee, std::vector<bool>& passed,
                  std::vector<std::string>& found);

[[nodiscard]] DrawingGraph drawing_graph(const Words& words, const proofs::StepReport* state);

} // namespace curbstop::output
