// Text to tree. Reports every independent syntax error of a file and goes on after each.
// Must not know: what any name means.
#pragma once

#include "syntax/tree.h"
#include "text/diagnostic.h"
#include "text/source.h"

namespace curbstop::syntax {

/// Braces and parentheses may nest so deep (people write five levels; the limit keeps a hostile file from the stack).
inline constexpr int max_nesting = 64;
/// Digits of a number, the sign and the point aside: what exact arithmetic on 128 bits carries through a conversion.
inline constexpr int max_number_digits = 18;

/// Parses one file. The tree holds what could be understood; `sink` has an error for everything else.
/// `source` must outlive the tree.
Tree parse(const text::SourceSet& sources, text::SourceId source, text::DiagnosticSink& sink);

} // namespace curbstop::syntax
