// What is written at the ports of a valve in a picture: per port the one thing, at most two, that lies beyond it, or
// what the port is called; and no words twice. Must not know: SVG, how anything stands.
#pragma once

#include "output/drawing_graph.h"
#include "output/words.h"

#include <span>
#include <string>
#include <vector>

namespace curbstop::output {

/// Of each of `ports`, which are all of `part`. `graph`: the whole system's, without state. A port of which nothing can
/// be said that tells it from the others has empty words.
[[nodiscard]] std::vector<std::string> port_words(const Words& words, const DrawingGraph& graph, meaning::PartId part,
                                                  std::span<const meaning::NodeId> ports);

/// What its part calls a port: "cold".
[[nodiscard]] std::string port_name(const Words& words, meaning::NodeId port);

} // namespace curbstop::output
