// What the signs and the kinds of lines in one drawing mean: those that are in it and no others.
// Must not know: layout, files.
#pragma once

#include "output/drawing_graph.h"
#include "output/tongue.h"

#include <string>
#include <vector>

namespace curbstop::output {

struct DrawingSign {
    std::string svg; ///< an svg element, in the ink of what is around it
    std::string words;
};

[[nodiscard]] std::vector<DrawingSign> drawing_key(const DrawingGraph& graph, const Tongue& tongue);

} // namespace curbstop::output
