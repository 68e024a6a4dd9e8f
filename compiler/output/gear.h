// What one carries along: hoses, a compressor. It belongs to no place, and what is in it at the end is not in the
// system. Must not know: words, the procedure.
#pragma once

#include "meaning/system.h"

namespace curbstop::output {

/// Nothing of it is piped to anything, and it has two ends or gives air. What has one end and gives or takes water
/// belongs to the place where it is.
[[nodiscard]] bool is_gear(const meaning::System& system, meaning::PartId part);

} // namespace curbstop::output
