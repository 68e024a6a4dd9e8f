// A tree as text, for tests and for looking at what the parser made.
// Must not know: what any node means.
#pragma once

#include "syntax/tree.h"

#include <string>

namespace curbstop::syntax {

/// `(kind child child)` on one line. Leaves are their text; doc comments and words have their kind before it.
std::string dump(Node node);

/// The same with each child of the first `levels` levels on a line of its own, indented.
std::string dump(Node node, int levels);

} // namespace curbstop::syntax
