// Photographs as an author names them. Must not know: files, what a photograph holds.
#pragma once

#include <optional>
#include <string>

#include "meaning/context.h"
#include "meaning/system.h"
#include "syntax/tree.h"

namespace curbstop::meaning {

/// The photograph of a `photo`, one id for each that is named so with these words; nothing, and a message, where it has
/// no words or its path leads elsewhere. `words`: the alternative text, names in it written out.
std::optional<PhotoId> photo_from(Context& context, System& system, syntax::Node node, Text words);

} // namespace curbstop::meaning
