// What a sheet need not say twice, and names that are longer than a line.
// Must not know: models, HTML, Markdown.
#pragma once

#include "output/sheet.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// Drops a place that the line before has named, `named` for the first. Returns the one that was named last.
std::string say_places_once(std::vector<Line>& lines, std::string named);

/// Where several steps wait for the same sight, the first says what it means; the others, only the author's words for
/// it. `said` collects what has been said.
void say_meanings_once(std::vector<Line>& lines, std::vector<Phrase>& said);

/// So much of a name as fits in the head of a page beside another; what is cut off is marked.
[[nodiscard]] std::string shortened(const std::string& name);

} // namespace curbstop::output
