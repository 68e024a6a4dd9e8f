// The pocket form: a step in as few words as tell it to those who have done it before, and what stands around the
// steps. Must not know: HTML, Markdown, proofs.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

namespace curbstop::output {

/// What is moved, where to, what runs, until when, how much and how long; the notes where a step does nothing of that.
/// `conditions`: those that the step stands under already. `quantities`: what was worked out; null where nothing was.
[[nodiscard]] Phrase brief_words(const Words& words, const meaning::Step& step, const std::vector<Wording>& conditions,
                                 const quantities::Quantities* quantities);

/// Of a sheet that is composed otherwise.
[[nodiscard]] Pocket compose_pocket(const Sheet& sheet);

} // namespace curbstop::output
