#include "proofs/story.h"

#include <algorithm>
#include <bit>
#include <deque>

#include <fmt/format.h>

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

void Findings::add(Finding finding) {
    if (!said_.emplace(finding.slug, finding.span, finding.severity).second) {
        return;
    }
    if (step_ != nullptr && !step_->title.empty()) {
        finding.notes.push_back(fmt::format("in step {}, `{}`", number_, step_->title));
    }
    errors_ += finding.severity == text::Severity::error;
    sink_.add({.slug = finding.slug,
               .severity = finding.severity,
               .span = finding.span,
               .message = std::move(finding.message),
               .labels = std::move(finding.labels),
               .notes = std::move(finding.notes),
               .remedies = std::move(finding.remedies)});
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string text;
    for (const std::string& word : words) {
        if (!text.empty()) {
            text += between;
        }
        text += word;
    }
    return text;
}

std::string joined(const std::vector<Text>& labels, std::string_view between) {
    return joined(std::vector<std::string>(labels.begin(), labels.end()), between);
}

std::optional<Proposal> verify_that_settles(Engine& engine, Set wrong) {
    instants::Knowledge& knowledge = engine.knowledge();
    instants::Diagrams& diagrams = engine.diagrams();
    for (const VariableId variable : knowledge.unknown_at_start()) {
        if (knowledge.standing(variable).moved) {
            continue;
        }
        const Set absent = diagrams.complement(knowledge.truth(engine.system()[variable].exists));
        for (std::uint32_t value = 0; value < engine.system()[variable].values.size(); ++value) {
            const Set stands = knowledge.stands(variable, ValueSet{1} << value);
            if (stands == nothing) {
                continue;
            }
            const Set seen = diagrams.either(stands, absent);
            if (diagrams.disjoint(wrong, seen) &&
                !diagrams.disjoint(engine.possible(), diagrams.without(stands, absent))) {
                return Proposal{variable, value};
            }
        }
    }
    return std::nullopt;
}

std::string verify_text(const System& system, const Proposal& proposal) {
    const Variable& variable = system[proposal.variable];
    const Value& value = variable.values[proposal.value];
    std::string how = value.name;
    if (variable.kind == VariableKind::end && value.partner.valid()) {
        how = system[value.partner].end.valid() ? fmt::format("coupled to {}", system[value.partner].name)
                                                : fmt::format("in {}", system[value.partner].name);
    } else if (value.setting) {
        how = value.label;
    }
    return fmt::format("verify {} is {}", variable.name, how);
}

void add_or_ask(Engine& engine, Findings& findings, Set wrong, Finding finding) {
    if (const auto proposal = verify_that_settles(engine, wrong)) {
        const Variable& variable = engine.system()[proposal->variable];
        finding.notes.insert(finding.notes.begin(),
                             fmt::format("nobody has looked how `{}` stands, and the safety of this hangs on it ({})",
                                         variable.label, finding.slug));
        finding.slug = "needs-verify";
        finding.remedies.insert(finding.remedies.begin(),
                                fmt::format("look first: `{}`", verify_text(engine.system(), *proposal)));
    }
    findings.add(std::move(finding));
}

std::string part_standing(const Engine& engine, VariableId variable, std::uint32_t value) {
    const Variable& part = engine.system()[variable];
    return fmt::format("{} ({})", part.label, part.values[value].label);
}

std::string origin_label(const System& system, const Origin& origin) {
    return origin.chamber.valid() ? system[origin.chamber].label : system[origin.supply].label;
}

std::string outlet_label(const System& system, OutletId outlet) {
    return system[outlet].label;
}

namespace {

/// So much of what is particular about a configuration is told.
constexpr std::size_t most_circumstances = 6;

} // namespace

std::vector<std::string> circumstances(Engine& engine, Set set) {
    const System& system = engine.system();
    const instants::Example example = engine.knowledge().example(set);
    std::vector<std::string> words;
    std::size_t left_out = 0;
    const auto add = [&](std::string text) {
        if (words.size() < most_circumstances) {
            words.push_back(std::move(text));
        } else {
            ++left_out;
        }
    };
    for (const auto& [option, taken] : example.options) {
        add(fmt::format("{} {}", taken ? "with" : "without", system[option].label));
    }
    for (const auto& [variable, value] : example.unknowns) {
        // A coupling is told once, for the end that is named first.
        const meaning::NodeId partner = system[variable].values[value].partner;
        const bool told = partner.valid() && system[partner].end.valid() && system[partner].end < variable &&
                          std::ranges::any_of(example.unknowns,
                                              [&](const auto& other) { return other.first == system[partner].end; });
        if (!told) {
            add(fmt::format("if `{}` stood at `{}` at the start", system[variable].label,
                            system[variable].values[value].label));
        }
    }
    if (left_out != 0) {
        words.push_back(fmt::format("and {} more", left_out));
    }
    return words;
}

namespace {

// Variables that the edge depends on directly: the position of its part, how an end stands.
std::optional<VariableId> variable_of(const System& system, const Edge& edge) {
    if (!edge.way.valid()) {
        return std::nullopt;
    }
    const Way& way = system[edge.way];
    if (way.from.valid() && system[way.from].kind == NodeKind::end && way.part.valid() &&
        (way.kind == WayKind::open_end ||
         (way.to.valid() && (system[way.to].kind == NodeKind::end || system[way.to].kind == NodeKind::vessel)))) {
        return system[way.from].end;
    }
    if (way.part.valid() && system[way.part].variable.valid()) {
        return system[way.part].variable;
    }
    return std::nullopt;
}

} // namespace

Route route(Engine& engine, const Reach& reach, Vertex to, const std::vector<bool>& configuration) {
    const System& system = engine.system();
    instants::Diagrams& diagrams = engine.diagrams();
    Route route;
    const auto path = reach.path(to, [&](const Edge& edge) { return diagrams.contains(edge.open, configuration); });
    for (const EdgeIndex index : path) {
        const Edge& edge = engine.network().edge(index);
        if (!edge.way.valid() || !system[edge.way].part.valid()) {
            continue;
        }
        const PartId part = system[edge.way].part;
        std::string station = system[part].label;
        if (const auto variable = variable_of(system, edge)) {
            station = part_standing(engine, *variable, engine.knowledge().value_in(*variable, configuration));
        }
        if (route.stations.empty() || route.stations.back() != station) {
            route.stations.push_back(std::move(station));
        }
    }
    for (auto index = path.rbegin(); index != path.rend() && !route.closes; ++index) {
        const Edge& edge = engine.network().edge(*index);
        const auto variable = variable_of(system, edge);
        if (!variable || system[*variable].kind != VariableKind::position) {
            continue;
        }
        // A value in which no way of the part that this edge uses is open.
        const instants::Standing& standing = engine.knowledge().standing(*variable);
        const Expression& condition = system[system[edge.way].condition];
        ValueSet open = 0;
        std::vector<ExpressionId> parts =
            condition.kind == ExpressionKind::all ? condition.operands : std::vector{system[edge.way].condition};
        for (const ExpressionId operand : parts) {
            if (system[operand].kind == ExpressionKind::stands && system[operand].variable == *variable) {
                open = system[operand].values;
            }
        }
        for (std::uint32_t value = 0; open != 0 && value < system[*variable].values.size(); ++value) {
            if ((open >> value & 1) == 0 && value != standing.value) {
                route.closes = Proposal{*variable, value};
                break;
            }
        }
    }
    return route;
}

std::vector<std::string> closed_on_the_way(Engine& engine, const Reach& reach, std::span<const Vertex> to,
                                           const std::vector<bool>& configuration) {
    const System& system = engine.system();
    const Network& network = engine.network();
    instants::Diagrams& diagrams = engine.diagrams();
    // Breadth first by number of shut ways: a shut way costs one, an open one nothing.
    std::vector<std::uint32_t> cost(network.vertex_count(), none);
    std::vector<EdgeIndex> parent(network.vertex_count(), none);
    std::deque<Vertex> queue;
    for (const Vertex start : reach.spec().starts) {
        cost[start] = 0;
        queue.push_back(start);
    }
    const bool forward = reach.spec().direction == Direction::forward;
    while (!queue.empty()) {
        const Vertex at = queue.front();
        queue.pop_front();
        for (const EdgeIndex index : forward ? network.out_of(at) : network.into(at)) {
            const Edge& edge = network.edge(index);
            const Vertex next = forward ? edge.to : edge.from;
            if (!reach.uses(edge)) {
                continue;
            }
            const bool open = diagrams.contains(edge.open, configuration);
            // What the variant lacks cannot be opened.
            if (!open && (!edge.way.valid() ||
                          !diagrams.contains(engine.knowledge().truth(system[edge.way].exists), configuration))) {
                continue;
            }
            const std::uint32_t through = cost[at] + (open ? 0 : 1);
            if (through < cost[next]) {
                cost[next] = through;
                parent[next] = index;
                if (open) {
                    queue.push_front(next);
                } else {
                    queue.push_back(next);
                }
            }
        }
    }
    std::vector<std::string> closed;
    Vertex best = none;
    for (const Vertex target : to) {
        if (cost[target] != none && (best == none || cost[target] < cost[best])) {
            best = target;
        }
    }
    for (Vertex at = best; at != none && parent[at] != none;) {
        const Edge& edge = network.edge(parent[at]);
        if (!diagrams.contains(edge.open, configuration)) {
            if (const auto variable = variable_of(system, edge)) {
                const Way& way = system[edge.way];
                const bool coupling = way.kind == WayKind::two_way && system[*variable].kind == VariableKind::end;
                const std::string station =
                    coupling ? fmt::format("{} is not joined to {}", system[way.from].label, system[way.to].label)
                             : part_standing(engine, *variable, engine.knowledge().value_in(*variable, configuration));
                if (std::ranges::find(closed, station) == closed.end()) {
                    closed.push_back(station);
                }
            }
        }
        at = forward ? edge.from : edge.to;
    }
    std::ranges::reverse(closed);
    return closed;
}

} // namespace curbstop::proofs
