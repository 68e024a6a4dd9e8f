// How everything stands after each step, for the script that keeps the drawings of a sheet up to date: what to write
// where, from step to step. Must not know: HTML, the script.
#pragma once

#include "meaning/system.h"
#include "output/sheet_info.h"
#include "output/words.h"
#include "proofs/report.h"

#include <vector>

namespace curbstop::output {

/// `states` is JSON in which no `<` occurs:
///   {"steps": [[ID, TEXT, PRESSED, ID, ...], ...], "texts": [...], "valves": [[ID, SIGN, ID, ...], ...],
///    "signs": [[RINGS, DISCS, PIPES, ARROWS, DOUBT], ...], "captions": [AT_THE_START, AFTER]}
/// A step lists only what differs from the one before, and so does `valves` step by step; step 0 is the start, of which
/// only positions are known. ID is place_id() of drawing_svg.h, TEXT an index into `texts`, PRESSED 0 or 1, SIGN an
/// index into `signs`, which hold what card_sign() of drawing_svg.h gives. `{step}` in AFTER stands for the number.
/// `key` tells what the letters in the texts stand for.
struct LiveStates {
    std::string states;
    std::vector<SheetKey> key;
};
[[nodiscard]] LiveStates live_states(const Words& words, const proofs::ProcedureReport& report,
                                     const std::vector<meaning::ValueSet>& before);

/// How something stands, in one line, as far as `standing` tells: what a card has room for.
[[nodiscard]] std::string stands_words(const Words& words, meaning::VariableId variable,
                                       const std::vector<meaning::ValueSet>& standing);

} // namespace curbstop::output
