// Which cards of a place are drawn together where one drawing of all of them would be too large to be read: what hangs
// together, and what hangs together but for one pipe. Must not know: layout, SVG.
#pragma once

#include "output/drawing_graph.h"

#include <cstddef>
#include <functional>
#include <vector>

namespace curbstop::output {

using CardGroup = std::vector<std::size_t>; ///< indices of cards

/// Pieces that `fits` says yes to, or that cannot be parted any further. What an assembly is made of stays together.
[[nodiscard]] std::vector<CardGroup> parted(const DrawingGraph& graph, const CardGroup& group,
                                            const std::function<bool(const CardGroup&)>& fits);

/// Joints alone are nothing that anybody looks for: pieces of nothing else go with those that they have most pipes to,
/// of those with which they fit, and where there are none, even so.
[[nodiscard]] std::vector<CardGroup> joints_joined(const DrawingGraph& graph, std::vector<CardGroup> pieces,
                                                   const std::function<bool(const CardGroup&)>& fits);

} // namespace curbstop::output
