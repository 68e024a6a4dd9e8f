// Where to put the cards of a drawing and how to lead the lines between them. The library that works this out is
// loaded when it is first asked, so that no other command pays for it.
// Must not know: plumbing, SVG.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace curbstop::output {

struct Point {
    double x = 0;
    double y = 0;
};

/// What is to be laid out. All lengths in points, the y axis downwards.
struct LayoutGraph {
    struct Vertex {
        double width = 0;
        double height = 0;
        std::optional<std::size_t> cluster = {}; ///< those of one cluster are kept together
        bool bar = false; ///< lies across the edges: where they lead to the right, its width and height are exchanged
    };
    std::vector<Vertex> vertices;
    std::vector<std::pair<std::size_t, std::size_t>> edges; ///< indices of vertices
    std::size_t clusters = 0;
    double cluster_margin = 0; ///< room between a cluster's frame and what is in it
    bool downwards = false;    ///< edges lead down rather than to the right, where they can
    double rank_gap = 50;      ///< between one and the next along an edge
    double side_gap = 29;      ///< between neighbours that no edge joins
};

struct Layout {
    struct Box {
        Point least;
        Point most;
    };
    double width = 0;
    double height = 0;
    std::vector<Point> vertices;              ///< centres
    std::vector<std::vector<Point>> edges;    ///< cubic Bézier curves: a start, then three points for each piece
    std::vector<std::optional<Box>> clusters; ///< nothing for one without vertices
};

/// The layout, or in `error` why there is none (the library is not installed, or cannot do it). The same graph gives
/// the same layout with the same version of the library.
struct LayoutResult {
    std::optional<Layout> layout;
    std::string error;
};
[[nodiscard]] LayoutResult lay_out(const LayoutGraph& graph);

} // namespace curbstop::output
