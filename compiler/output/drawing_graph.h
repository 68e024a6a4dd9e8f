// Which cards and lines a drawing of a system has, before anything is placed.
// Must not know: the layout library, SVG.
#pragma once

#include "meaning/system.h"
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
};

struct Card {
    Symbol symbol = Symbol::plain;
    std::string label;
    std::string detail; ///< how it stands, or under which option it is there; may be empty
    std::string title;  ///< in full
    std::optional<meaning::ZoneId> zone;
    bool optional = false; ///< there in some variants only
};

enum class Stroke : std::uint8_t { pipe, inside, fall };

struct Line2d {
    std::size_t from = 0, to = 0; ///< cards
    Stroke stroke = Stroke::pipe;
    bool optional = false;
    bool pressurised = false;
    int falls = 0; ///< 1: towards `to`; -1: towards `from`
    std::string title;
    double length = 0; ///< of the pipe, in metres; 0 inside an assembly
};

struct DrawingGraph {
    std::vector<Card> cards;
    std::vector<Line2d> lines;
};

[[nodiscard]] DrawingGraph drawing_graph(const Words& words, const proofs::StepReport* state);

} // namespace curbstop::output
