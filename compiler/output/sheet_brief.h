// What a step's title cannot carry, in as few words as tell it to those who have done it before: figures, waits, what
// has to be seen to go on, what is filled in. How things are put, the full sheet says.
// Must not know: HTML, Markdown, proofs, how the pocket form is laid out.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

#include <vector>

namespace curbstop::output {

/// `conditions`: those that the step stands under already. `quantities`: what was worked out; null where nothing was.
/// `dosed`: a disinfectant is in the system, which runs clear from the first drop: the author's words tell what to go
/// by.
[[nodiscard]] Brief brief_words(const Words& words, const meaning::Step& step, const std::vector<Wording>& conditions,
                                const quantities::Quantities* quantities, bool dosed);

// The same of what steps stand under.
[[nodiscard]] Phrase brief_case(const Words& words, const meaning::InCaseSteps& steps);
[[nodiscard]] Phrase brief_repeat(const Words& words, const meaning::RepeatSteps& steps);
[[nodiscard]] Phrase brief_meanwhile(const Words& words, const meaning::MeanwhileSteps& steps,
                                     const quantities::Quantities* quantities);

} // namespace curbstop::output
