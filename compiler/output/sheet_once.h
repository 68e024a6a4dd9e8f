// What a sheet need not say twice, and names that are longer than a line.
// Must not know: models, HTML, Markdown.
#pragma once

#include "output/sheet.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

/// Drops a place that the line before has named, `named` for the first. Returns the one that was named last.
std::string say_places_once(std::vector<Line>& lines, std::string named);

/// Where several steps wait for the same sight, the first says what it means; the others, only the author's words for
/// it. `said` collects what has been said.
void say_meanings_once(std::vector<Line>& lines, std::vector<Phrase>& said);

/// A caution that was said in full.
struct SaidCaution {
    Caution caution;
    std::optional<meaning::Setting> puts; ///< what the action did that it was about
    Phrase action;
    std::uint32_t step = 0;
    std::vector<std::string> read_if; ///< by those for whom this holds (output/applies.h)
};

/// A safety message that stands in an earlier step in full becomes a reference to it; one that can kill or maim
/// (DANGER, WARNING) only where that step was about the same action. `said`: of the stage; grows.
void say_cautions_once(std::vector<Line>& lines, std::uint32_t step, std::vector<std::string> read_if,
                       std::vector<SaidCaution>& said);

/// Who helps is named before anything is done.
void helpers_first(std::vector<Line>& lines);
[[nodiscard]] bool has_helper(const std::vector<Line>& lines);

/// So much of a name as fits in the head of a page beside another; what is cut off is marked.
[[nodiscard]] std::string shortened(const std::string& name);

} // namespace curbstop::output
