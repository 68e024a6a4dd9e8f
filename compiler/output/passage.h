// Whether anything can pass through a part as things may stand. A look at the ways of one part; no proof.
// Must not know: proofs, drawing.
#pragma once

#include "meaning/possibility.h"

#include <cstdint>
#include <span>

namespace curbstop::output {

enum class Passage : std::uint8_t {
    open,
    shut,   ///< however it may stand
    either, ///< that is not known, or some of it is open
};

/// Whether `condition` may hold, and may fail to; what `standing` does not name may stand in any way.
[[nodiscard]] meaning::Possibility may_be(const meaning::System& system, meaning::ExpressionId condition,
                                          std::span<const meaning::ValueSet> standing);

/// Of all ways of the part together: shut where none of them may be open.
[[nodiscard]] Passage passage_of(const meaning::System& system, meaning::PartId part,
                                 std::span<const meaning::ValueSet> standing);

/// Whether what comes to this port goes no further: it has ways, and none of them may be open.
[[nodiscard]] bool is_shut_at(const meaning::System& system, meaning::NodeId port,
                              std::span<const meaning::ValueSet> standing);

} // namespace curbstop::output
