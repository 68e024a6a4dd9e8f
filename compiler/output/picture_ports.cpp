#include "output/picture_ports.h"

#include "output/passage.h"
#include "output/sheet_picture.h"

#include <algorithm>
#include <optional>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_names = 2;

class Namer {
  public:
    Namer(const Words& words, const DrawingGraph& graph, PartId part, std::span<const NodeId> ports)
        : words_(&words)
        , graph_(&graph)
        , part_(part)
        , ports_(ports) {}

    /// What a port may be called, the best name first.
    [[nodiscard]] std::vector<std::string> candidates(NodeId port) const {
        const Beyond beyond = look_beyond(port);
        std::vector<std::string> names;
        if (beyond.things.size() == 1) {
            names.push_back(beyond.things.front().label);
            names.push_back(words_->node(beyond.things.front().node));
        } else if (beyond.things.size() == most_names && !reads_like_more(beyond.things)) {
            names.push_back(names_words({beyond.things[0].label, beyond.things[1].label}, words_->tongue()));
        }
        if (!beyond.boundary.empty()) { // "hot line", of the set that the valve is part of
            names.push_back(beyond.boundary);
        }
        if (const auto position = only_position(port)) {
            names.push_back(*position);
        }
        names.push_back(port_name(*words_, port));
        return names;
    }

  private:
    struct Thing {
        std::string label;
        NodeId node;
    };
    struct Beyond {
        std::vector<Thing> things;
        std::string boundary;
    };

    [[nodiscard]] const System& system() const { return words_->system(); }

    [[nodiscard]] bool holds_this(PartId other) const {
        for (PartId at = system()[part_].parent; at; at = system()[at].parent) {
            if (at == other) {
                return true;
            }
        }
        return false;
    }

    // Over tees, and out through the ports of what the valve is built into.
    [[nodiscard]] Beyond look_beyond(NodeId port) const {
        Beyond beyond;
        std::vector<NodeId> queue{port};
        for (std::size_t at = 0; at < queue.size(); ++at) {
            for (const Line2d& line : graph_->lines) {
                if (line.stroke == Stroke::fall || (line.from_node != queue[at] && line.to_node != queue[at])) {
                    continue;
                }
                const bool forwards = line.from_node == queue[at];
                const NodeId node = forwards ? line.to_node : line.from_node;
                const Card& card = graph_->cards[forwards ? line.to : line.from];
                const bool boundary = card.part && holds_this(card.part);
                if (card.part == part_ && card.part) {
                    continue;
                }
                if (boundary || card.symbol == Symbol::tee) {
                    if (std::ranges::find(queue, node) == queue.end()) {
                        queue.push_back(node);
                        if (boundary) {
                            beyond.boundary = port_name(*words_, node);
                        }
                    }
                } else if (std::ranges::find(beyond.things, card.label, &Thing::label) == beyond.things.end()) {
                    beyond.things.push_back({card.label, node});
                }
            }
        }
        return beyond;
    }

    // "Low drain, cold and Low drain, hot" would be read as three or four.
    static bool reads_like_more(const std::vector<Thing>& things) {
        return std::ranges::any_of(things,
                                   [](const Thing& thing) { return thing.label.find(',') != std::string::npos; });
    }

    // Of a valve that joins one port to this or to that: the position that joins it to this port, as its owner says it.
    [[nodiscard]] std::optional<std::string> only_position(NodeId port) const {
        const VariableId variable = system()[part_].variable;
        if (!variable || ports_.size() < 3) {
            return std::nullopt;
        }
        std::optional<std::uint32_t> only;
        std::vector<ValueSet> standing(system().variables.size(), ~ValueSet{0});
        for (std::uint32_t value = 0; value < system()[variable].values.size(); ++value) {
            standing[variable.value] = ValueSet{1} << value;
            std::vector<NodeId> joined;
            for (const Way& way : system().ways) {
                if (way.part == part_ && may_be(system(), way.condition, standing).can_hold) {
                    joined.push_back(way.from);
                    joined.push_back(way.to);
                }
            }
            if (std::ranges::find(joined, port) == joined.end()) {
                continue;
            }
            if (only || joined.size() != 2) {
                return std::nullopt;
            }
            only = value;
        }
        return only ? std::optional<std::string>(words_->value(variable, *only)) : std::nullopt;
    }

    const Words* words_;
    const DrawingGraph* graph_;
    PartId part_;
    std::span<const NodeId> ports_;
};

} // namespace

// A port is labelled "Galley tap (cold)" where its part was written down (meaning/part_builder.cpp).
std::string port_name(const Words& words, NodeId port) {
    const System& system = words.system();
    const std::string label = words.named(system[port]);
    const std::string whole = std::string(words.named(system[system[port].part])) + " (";
    return label.starts_with(whole) && label.ends_with(')')
               ? label.substr(whole.size(), label.size() - whole.size() - 1)
               : label;
}

std::vector<std::string> port_words(const Words& words, const DrawingGraph& graph, PartId part,
                                    std::span<const NodeId> ports) {
    const Namer namer(words, graph, part, ports);
    std::vector<std::vector<std::string>> candidates;
    for (const NodeId port : ports) {
        candidates.push_back(namer.candidates(port));
    }
    std::vector<std::string> result;
    for (std::size_t i = 0; i < ports.size(); ++i) {
        const auto others_may_be_called = [&](const std::string& name) {
            for (std::size_t j = 0; j < ports.size(); ++j) {
                if (j != i && std::ranges::find(candidates[j], name) != candidates[j].end()) {
                    return true;
                }
            }
            return false;
        };
        const auto best = std::ranges::find_if_not(candidates[i], others_may_be_called);
        result.push_back(best == candidates[i].end() ? std::string() : *best);
    }
    return result;
}

} // namespace curbstop::output
