// The messages of the script that makes a sheet work on screen, which has no words of its own: they are in the
// catalogue like all others. Must not know: HTML, how any of it works.
#pragma once

#include "output/sayings.h"

#include <span>
#include <string_view>

namespace curbstop::output {

/// A message by the name under which the script asks for it. What stands in {braces} the script fills in.
struct ScriptText {
    std::string_view name;
    Saying saying;
};
[[nodiscard]] std::span<const ScriptText> script_texts();

} // namespace curbstop::output
