#include "output/drawing_graph.h"

#include "output/applies.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

/// What the ways, sources and chambers of one part have between them.
struct Traits {
    bool lift = false, supply = false, store = false, chamber = false, heated = false;
    bool two_way = false, one_way = false, fall = false, breach = false, limits = false, above = false;
};

std::vector<Traits> traits_of(const System& system) {
    std::vector<Traits> all(system.parts.size());
    for (const Way& way : system.ways) {
        if (!way.part) {
            continue;
        }
        Traits& traits = all[way.part.value];
        traits.two_way |= way.kind == WayKind::two_way;
        traits.one_way |= way.kind == WayKind::one_way;
        traits.fall |= way.kind == WayKind::fall;
        traits.breach |= way.kind == WayKind::breach;
        traits.limits |= way.limits.has_value();
        traits.above |= way.above.has_value();
    }
    for (const Source& source : system.sources) {
        if (source.heats && system[source.heats].part) {
            all[system[source.heats].part.value].heated = true;
        }
        if (source.part) {
            Traits& traits = all[source.part.value];
            traits.lift |= source.kind == SourceKind::lift;
            traits.supply |= source.kind == SourceKind::supply;
            traits.store |= source.kind == SourceKind::store;
        }
    }
    for (const Chamber& chamber : system.chambers) {
        if (chamber.part) {
            all[chamber.part.value].chamber = true;
        }
    }
    return all;
}

Symbol symbol_of(const Part& part, const Traits& traits) {
    if (traits.lift) {
        return Symbol::pump;
    }
    if (traits.supply) {
        return Symbol::supply;
    }
    if (traits.store) {
        return Symbol::store;
    }
    if (traits.chamber) {
        return traits.heated ? Symbol::heated_tank : Symbol::tank;
    }
    if (traits.above) {
        return Symbol::relief;
    }
    if (traits.limits) {
        return Symbol::reducer;
    }
    if (traits.fall) {
        return Symbol::tap;
    }
    if (traits.breach) {
        return Symbol::opening;
    }
    if (part.variable) {
        return part.nodes.size() >= 3 ? Symbol::three_way : Symbol::valve;
    }
    return traits.one_way && !traits.two_way ? Symbol::check_valve : Symbol::plain;
}

/// Of a valve or tap some way of which is open in one of its positions and shut in another.
void know_valve(const System& system, Card& card) {
    const VariableId variable = system[card.part].variable;
    const bool is_valve =
        card.symbol == Symbol::valve || card.symbol == Symbol::three_way || card.symbol == Symbol::tap;
    std::optional<ValveForm> form = variable && is_valve ? valve_form(system, card.part) : std::nullopt;
    if (!form) {
        return;
    }
    std::vector<std::vector<PictureWay>> stands;
    for (std::size_t value = 0; value < system[variable].values.size(); ++value) {
        stands.push_back(valve_ways(system, card.part, *form, ValueSet{1} << value, {}));
    }
    if (std::ranges::all_of(stands, [&](const auto& ways) { return ways == stands.front(); })) {
        return;
    }
    card.numbered = takes_sides(form->ports.size(), stands);
    card.valve = std::move(form);
}

class Builder {
  public:
    Builder(const Words& words, const proofs::StepReport* state)
        : words_(&words)
        , state_(state)
        , card_of_node_(words.system().nodes.size())
        , pressurised_(words.system().nodes.size()) {
        if (state != nullptr) {
            for (const NodeId node : state->pressurised) {
                pressurised_[node.value] = true;
            }
        }
    }

    DrawingGraph build() {
        add_parts();
        add_free_nodes();
        add_runs();
        add_inner_ways();
        place_unplaced();
        return std::move(graph_);
    }

  private:
    [[nodiscard]] const System& system() const { return words_->system(); }

    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }
    /// What is there in some variants only, with which.
    [[nodiscard]] std::string only(const std::string& what, const std::string& condition) const {
        return plain(tongue().say<Saying::drawing_only>(in<"what">(what), in<"condition">(condition)));
    }

    std::size_t add(Card card) {
        graph_.cards.push_back(std::move(card));
        return graph_.cards.size() - 1;
    }

    void add_parts() {
        const std::vector<Traits> traits = traits_of(system());
        for (std::size_t i = 0; i < system().parts.size(); ++i) {
            const Part& part = system().parts[i];
            if (part.nodes.empty()) {
                continue; // a switch or a heating element: no water passes
            }
            Card card;
            card.part = PartId(i);
            card.symbol = symbol_of(part, traits[i]);
            card.label = words_->part(PartId(i));
            card.title = card.label;
            know_valve(system(), card);
            const std::string condition = only_where(*words_, part.exists, {});
            card.optional = !condition.empty();
            card.when = Applies::under(system(), part.exists).postfix();
            if (state_ != nullptr && part.variable && part.variable.value < state_->standing.size()) {
                card.detail = words_->values(part.variable, state_->standing[part.variable.value]);
                card.title =
                    plain(tongue().say<Saying::drawing_stands>(in<"what">(card.title), in<"how">(card.detail)));
                if (card.valve) {
                    card.stands = stands_in(system(), card, state_->standing);
                }
            } else {
                card.detail = condition;
            }
            if (!condition.empty()) {
                card.title = only(card.title, condition);
            }
            const auto places = part.variable ? words_->places(part.variable) : part.places;
            if (!places.empty() && places.front().zone) {
                card.zone = places.front().zone;
            }
            const std::size_t index = add(std::move(card));
            for (const NodeId node : part.nodes) {
                card_of_node_[node.value] = index;
            }
        }
    }

    void add_free_nodes() {
        std::vector<bool> used(system().nodes.size());
        for (const Outlet& outlet : system().outlets) {
            if (outlet.lands) {
                used[outlet.lands.value] = true;
            }
        }
        for (const Run& run : system().runs) {
            used[run.from.value] = used[run.to.value] = true;
        }
        for (std::size_t i = 0; i < system().nodes.size(); ++i) {
            const Node& node = system().nodes[i];
            const bool ground = node.kind == NodeKind::place && node.name == "ground";
            if (card_of_node_[i] || node.part || node.kind == NodeKind::vessel || ground ||
                (node.kind == NodeKind::place && !used[i])) {
                continue;
            }
            Card card;
            card.node = NodeId(i);
            card.symbol = node.kind == NodeKind::tee     ? Symbol::tee
                          : node.kind == NodeKind::end   ? Symbol::end
                          : node.kind == NodeKind::place ? Symbol::place
                                                         : Symbol::plain;
            card.label = words_->node(NodeId(i));
            card.title = card.label;
            for (const Place& place : system().places) {
                if (place.node == NodeId(i) && place.zone) {
                    card.zone = place.zone;
                }
            }
            card_of_node_[i] = add(std::move(card));
        }
    }

    void line(NodeId from, NodeId to, Line2d made) {
        const auto a = card_of_node_[from.value];
        const auto b = card_of_node_[to.value];
        if (!a || !b || *a == *b) {
            return;
        }
        made.from = *a;
        made.to = *b;
        made.from_node = from;
        made.to_node = to;
        made.pressurised = pressurised_[from.value] && pressurised_[to.value];
        if (made.pressurised) {
            made.title = plain(tongue().say<Saying::drawing_stands>(in<"what">(made.title),
                                                                    in<"how">(tongue().text(Saying::may_be_pressed))));
        }
        graph_.lines.push_back(std::move(made));
    }

    void add_runs() {
        for (std::size_t i = 0; i < system().runs.size(); ++i) {
            const Run& run = system().runs[i];
            Line2d made;
            made.run = static_cast<std::uint32_t>(i);
            made.optional = run.exists != Expressions::always();
            made.when = Applies::under(system(), run.exists).postfix();
            made.falls = !run.falls_to ? 0 : run.falls_to == run.to ? 1 : run.falls_to == run.from ? -1 : 0;
            const std::string condition = only_where(*words_, run.exists, {});
            made.title = plain(tongue().say<Saying::drawing_pipe>(in<"pipe">(words_->named({"", run.pipe, "", {}})),
                                                                  in<"length">(quantity_words(run.length, tongue()))));
            if (!condition.empty()) {
                made.title = only(made.title, condition);
            }
            made.length = to_double(run.length, Unit::m);
            line(run.from, run.to, std::move(made));
        }
    }

    // Inside assemblies, and falls from one thing into another.
    void add_inner_ways() {
        std::vector<std::pair<std::size_t, std::size_t>> drawn;
        for (const Way& way : system().ways) {
            const bool fall = way.kind == WayKind::fall;
            if (way.run != UINT32_MAX || !way.to || !way.from || way.kind == WayKind::open_end) {
                continue;
            }
            const auto a = card_of_node_[way.from.value];
            const auto b = card_of_node_[way.to.value];
            if (!a || !b || *a == *b || std::find(drawn.begin(), drawn.end(), std::pair(*a, *b)) != drawn.end()) {
                continue;
            }
            // Couplings that might be made are no plumbing yet.
            const bool coupling = system()[way.from].kind == NodeKind::end && system()[way.to].kind == NodeKind::end;
            if (coupling || (!way.part && !fall)) {
                continue;
            }
            drawn.emplace_back(*a, *b);
            Line2d made;
            made.stroke = fall ? Stroke::fall : Stroke::inside;
            made.falls = fall ? 1 : 0;
            made.optional = way.exists != Expressions::always();
            made.when = Applies::under(system(), way.exists).postfix();
            made.title = plain(
                tongue().say<Saying::pipe_ends>(in<"from">(graph_.cards[*a].label), in<"to">(graph_.cards[*b].label)));
            line(way.from, way.to, std::move(made));
        }
    }

    // What has no place of its own, a tee mostly, is drawn with the nearest thing that has.
    void place_unplaced() {
        for (;;) {
            const Line2d* nearest = nullptr;
            for (const Line2d& each : graph_.lines) {
                const bool settles_one =
                    graph_.cards[each.from].zone.has_value() != graph_.cards[each.to].zone.has_value();
                if (settles_one && (nearest == nullptr || each.length < nearest->length)) {
                    nearest = &each;
                }
            }
            if (nearest == nullptr) {
                return;
            }
            Card& a = graph_.cards[nearest->from];
            Card& b = graph_.cards[nearest->to];
            (a.zone ? b : a).zone = a.zone ? a.zone : b.zone;
        }
    }

    const Words* words_;
    const proofs::StepReport* state_;
    std::vector<std::optional<std::size_t>> card_of_node_;
    std::vector<bool> pressurised_;
    DrawingGraph graph_;
};

} // namespace

std::vector<PictureWay> stands_in(const System& system, const Card& card, const std::vector<ValueSet>& standing) {
    const VariableId variable = system[card.part].variable;
    return valve_ways(system, card.part, *card.valve,
                      variable.value < standing.size() ? standing[variable.value] : ~ValueSet{0}, standing);
}

void parts_beyond(const DrawingGraph& graph, std::size_t tee, std::vector<bool>& passed,
                  std::vector<std::string>& found) {
    std::vector<std::size_t> queue{tee};
    for (std::size_t at = 0; at < queue.size(); ++at) {
        for (const Line2d& line : graph.lines) {
            if (line.from != queue[at] && line.to != queue[at]) {
                continue;
            }
            const std::size_t other = line.from == queue[at] ? line.to : line.from;
            if (passed[other]) {
                continue;
            }
            passed[other] = true;
            if (graph.cards[other].symbol == Symbol::tee) {
                queue.push_back(other);
            } else {
                found.push_back(graph.cards[other].label);
            }
        }
    }
}

DrawingGraph drawing_graph(const Words& words, const proofs::StepReport* state) {
    return Builder(words, state).build();
}

} // namespace curbstop::output
