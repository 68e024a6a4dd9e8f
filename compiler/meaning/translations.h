// Which texts of an author are given in which languages: what is missing of those that the sheets are to be given in,
// and what is given twice. Must not know: what a sheet says itself.
#pragma once

#include "meaning/modules.h"

namespace curbstop::meaning {

/// Missing texts that are told one by one; the rest is counted.
inline constexpr std::size_t most_missing_texts_told = 20;

/// Complains of texts that are given twice in one language, and warns of those that a sheet may print and that are
/// missing in one of `wanted`.
void check_translations(const Declarations& declarations, Languages wanted, text::DiagnosticSink& sink);

} // namespace curbstop::meaning
