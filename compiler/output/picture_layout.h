// Where the cards and lines of a drawing of places go: pieces that hang together are laid out by the library and
// then set in rows. Must not know: SVG, plumbing.
#pragma once

#include "output/layout.h"

#include <map>
#include <vector>

namespace curbstop::output {

/// What has been laid out before: parting a drawing tries the same pieces again and again, and the library takes long.
class KnownLayouts {
  public:
    [[nodiscard]] const LayoutResult& of(const LayoutGraph& graph);

  private:
    std::map<std::vector<double>, LayoutResult> known_; ///< by all that a graph says, as numbers
};

/// Rows are filled up to `width`, if no piece is wider than that by itself.
[[nodiscard]] LayoutResult lay_out_in_rows(const LayoutGraph& graph, double width, KnownLayouts& known);

} // namespace curbstop::output
