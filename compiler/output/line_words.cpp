#include "output/line_words.h"

#include "output/picture_ports.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Nodes that pipes and joints alone join, which no valve parts.
class Nets {
  public:
    Nets(const System& system, const DrawingGraph& graph)
        : root_(system.nodes.size()) {
        std::iota(root_.begin(), root_.end(), std::size_t{0});
        for (const Line2d& line : graph.lines) {
            if (line.stroke != Stroke::fall) {
                root_[of(line.from_node)] = of(line.to_node);
            }
        }
    }
    [[nodiscard]] std::size_t of(NodeId node) {
        std::size_t at = node.value;
        while (root_[at] != at) {
            at = root_[at] = root_[root_[at]];
        }
        return at;
    }

  private:
    std::vector<std::size_t> root_;
};

bool mixes(const Card& card) {
    return card.valve && card.valve->lets_out && card.valve->ports.size() == 2;
}

/// Per net, what taps call it; nothing where they do not agree.
std::vector<std::optional<std::string>> names_by_taps(const Words& words, const DrawingGraph& graph, Nets& nets) {
    std::vector<std::optional<std::string>> names(words.system().nodes.size());
    for (const Card& card : graph.cards) {
        for (std::size_t i = 0; mixes(card) && i < 2; ++i) {
            const std::string name = port_name(words, card.valve->ports[i]);
            std::optional<std::string>& known = names[nets.of(card.valve->ports[i])];
            known = known && *known != name ? std::string() : name;
        }
    }
    return names;
}

/// What leads on from what taps run into; nothing at all where that comes back to what they draw from.
std::vector<bool> waste_nodes(const System& system, const DrawingGraph& graph) {
    std::vector<bool> waste(system.nodes.size());
    std::vector<NodeId> queue;
    const auto reach = [&](NodeId node) {
        if (node && system[node].kind != NodeKind::place && !waste[node.value]) {
            waste[node.value] = true;
            queue.push_back(node);
        }
    };
    for (const Line2d& line : graph.lines) {
        if (line.stroke == Stroke::fall && graph.cards[line.to].part) {
            reach(line.to_node);
        }
    }
    for (std::size_t at = 0; at < queue.size(); ++at) {
        for (const Way& way : system.ways) {
            if (way.kind != WayKind::two_way && way.kind != WayKind::one_way) {
                continue;
            }
            if (way.from == queue[at]) {
                reach(way.to);
            } else if (way.to == queue[at] && way.kind == WayKind::two_way) {
                reach(way.from);
            }
        }
    }
    const bool comes_back = std::ranges::any_of(graph.cards, [&](const Card& card) {
        return (mixes(card) && waste[card.valve->ports[0].value]) ||
               (card.part && (card.symbol == Symbol::supply || card.symbol == Symbol::store) &&
                std::ranges::any_of(system[card.part].nodes, [&](NodeId node) { return waste[node.value]; }));
    });
    return comes_back ? std::vector<bool>(system.nodes.size()) : waste;
}

} // namespace

void name_lines(const Words& words, DrawingGraph& graph) {
    Nets nets(words.system(), graph);
    const auto names = names_by_taps(words, graph, nets);
    const std::vector<bool> waste = waste_nodes(words.system(), graph);
    for (Line2d& line : graph.lines) {
        if (line.stroke == Stroke::fall) {
            continue;
        }
        if (const auto& name = names[nets.of(line.from_node)]) {
            line.word = *name;
        } else if (waste[line.from_node.value] && waste[line.to_node.value]) {
            line.word = words.tongue().text(Saying::drawing_waste);
        }
    }
}

} // namespace curbstop::output
