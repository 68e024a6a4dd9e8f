#include "output/picture_layout.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace curbstop::output {
namespace {

constexpr double gap = 10; // between pieces

std::vector<std::vector<std::size_t>> pieces_of(const LayoutGraph& graph) {
    std::vector<std::size_t> root(graph.vertices.size());
    std::iota(root.begin(), root.end(), std::size_t{0});
    const auto find = [&root](std::size_t at) {
        while (root[at] != at) {
            at = root[at] = root[root[at]];
        }
        return at;
    };
    for (const auto& [a, b] : graph.edges) {
        const std::size_t first = find(a);
        const std::size_t second = find(b);
        root[std::max(first, second)] = std::min(first, second);
    }
    std::vector<std::vector<std::size_t>> pieces(root.size());
    for (std::size_t i = 0; i < root.size(); ++i) {
        pieces[find(i)].push_back(i);
    }
    std::erase_if(pieces, [](const auto& piece) { return piece.empty(); });
    return pieces;
}

// The way down or the way across, whichever keeps within the width; of two that do, the lower.
const LayoutResult& best_of(LayoutGraph graph, double width, KnownLayouts& known) {
    graph.downwards = true;
    const LayoutResult& down = known.of(graph);
    if (!down.layout || graph.vertices.size() == 1) {
        return down;
    }
    graph.downwards = false;
    const LayoutResult& across = known.of(graph);
    if (!across.layout) {
        return down;
    }
    const auto badness = [width](const Layout& layout) {
        return std::pair(std::max(0.0, layout.width - width), layout.height);
    };
    return badness(*across.layout) < badness(*down.layout) ? across : down;
}

} // namespace

const LayoutResult& KnownLayouts::of(const LayoutGraph& graph) {
    std::vector<double> key{graph.downwards ? 1.0 : 0.0,
                            graph.rank_gap,
                            graph.side_gap,
                            graph.cluster_margin,
                            static_cast<double>(graph.clusters),
                            static_cast<double>(graph.vertices.size())};
    for (const LayoutGraph::Vertex& vertex : graph.vertices) {
        key.insert(key.end(), {vertex.width, vertex.height,
                               vertex.cluster ? static_cast<double>(*vertex.cluster) : -1.0, vertex.bar ? 1.0 : 0.0});
    }
    for (const auto& [from, to] : graph.edges) {
        key.insert(key.end(), {static_cast<double>(from), static_cast<double>(to)});
    }
    const auto found = known_.find(key);
    return found != known_.end() ? found->second : known_.emplace(std::move(key), lay_out(graph)).first->second;
}

LayoutResult lay_out_in_rows(const LayoutGraph& graph, double width, KnownLayouts& known) {
    Layout packed;
    packed.vertices.resize(graph.vertices.size());
    packed.edges.resize(graph.edges.size());
    double x = 0;
    double y = 0;
    double row = 0;
    for (const std::vector<std::size_t>& vertices : pieces_of(graph)) {
        LayoutGraph piece;
        piece.rank_gap = graph.rank_gap;
        piece.side_gap = graph.side_gap;
        std::vector<std::size_t> local(graph.vertices.size());
        for (std::size_t i = 0; i < vertices.size(); ++i) {
            local[vertices[i]] = i;
            piece.vertices.push_back(graph.vertices[vertices[i]]);
        }
        std::vector<std::size_t> edges;
        for (std::size_t i = 0; i < graph.edges.size(); ++i) {
            if (std::ranges::binary_search(vertices, graph.edges[i].first)) {
                edges.push_back(i);
                piece.edges.emplace_back(local[graph.edges[i].first], local[graph.edges[i].second]);
            }
        }
        const LayoutResult& placed = best_of(std::move(piece), width, known);
        if (!placed.layout) {
            return placed;
        }
        const Layout& layout = *placed.layout;
        if (x > 0 && x + layout.width > width) {
            x = 0;
            y += row + gap;
            row = 0;
        }
        for (std::size_t i = 0; i < vertices.size(); ++i) {
            packed.vertices[vertices[i]] = {layout.vertices[i].x + x, layout.vertices[i].y + y};
        }
        for (std::size_t i = 0; i < edges.size(); ++i) {
            for (const Point& point : layout.edges[i]) {
                packed.edges[edges[i]].push_back({point.x + x, point.y + y});
            }
        }
        packed.width = std::max(packed.width, x + layout.width);
        packed.height = std::max(packed.height, y + layout.height);
        row = std::max(row, layout.height);
        x += layout.width + gap;
    }
    return {std::move(packed), {}};
}

} // namespace curbstop::output
