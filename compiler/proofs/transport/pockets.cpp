#include "proofs/transport/pockets.h"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

namespace curbstop::proofs {

using namespace meaning;

namespace {

/// From this bore on, mm, a pipe runs out though no air is let in above. Common practice, no source.
constexpr double self_venting_bore = 50;

} // namespace

double pipe_volume(double bore, double length) {
    return std::numbers::pi / 4 * bore * bore * length;
}

Pockets::Pockets(const System& system) {
    for (std::uint32_t i = 0; i < system.runs.size(); ++i) {
        const Run& run = system.runs[i];
        Pocket pocket{.kind = PocketKind::run, .index = i, .exists = run.exists};
        if (run.bore) {
            pocket.volume = pipe_volume(to_double(*run.bore, Unit::m), to_double(run.length, Unit::m));
        }
        pocket.label = fmt::format("pipe from {} to {}", system[run.from].label, system[run.to].label);
        pockets_.push_back(std::move(pocket));
    }
    for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
        const Chamber& chamber = system.chambers[i];
        of_chamber_.push_back(size());
        Pocket pocket{.kind = chamber.vessel ? PocketKind::vessel : PocketKind::chamber, .index = i};
        if (chamber.volume) {
            pocket.volume = to_double(*chamber.volume, Unit::m3);
        }
        pocket.label = chamber.label;
        pocket.vented = system.is_always_vented(ChamberId(i));
        pocket.part = chamber.part;
        if (chamber.part.valid()) {
            pocket.exists = system[chamber.part].exists;
        }
        pockets_.push_back(std::move(pocket));
    }
    of_body_.assign(system.parts.size(), no_pocket);
    for (std::uint32_t i = 0; i < system.parts.size(); ++i) {
        const Part& part = system.parts[i];
        if (!part.body) {
            continue;
        }
        of_body_[i] = size();
        Pocket pocket{.kind = PocketKind::body, .index = i, .label = part.label, .part = PartId(i)};
        pocket.volume = to_double(*part.body, Unit::m3);
        pocket.exists = part.exists;
        pocket.stores = std::ranges::any_of(system.sources, [&](const Source& source) {
            return source.kind == SourceKind::store && source.part == PartId(i);
        });
        const bool only_ends = !part.nodes.empty() && std::ranges::all_of(part.nodes, [&](NodeId node) {
            return system[node].kind == meaning::NodeKind::end;
        });
        for (const NodeId node : part.nodes) {
            if (only_ends) {
                pocket.loose.push_back(system[node].end);
            }
        }
        pockets_.push_back(std::move(pocket));
    }
    find_runs_out(system);
}

// Basin and gutter pipes: open above into a vented chamber, falling on into another over what is always open.
void Pockets::find_runs_out(const System& system) {
    const auto vented = [&](NodeId node) {
        return system[node].level_of.valid() && system.is_always_vented(system[system[node].level_of].chamber);
    };
    const auto is_vented_chamber = [&](NodeId node) {
        return system[node].kind == meaning::NodeKind::chamber && system.is_always_vented(system[node].chamber);
    };
    std::vector<std::vector<std::uint32_t>> ways_at(system.nodes.size());
    for (std::uint32_t i = 0; i < system.ways.size(); ++i) {
        ways_at[system.ways[i].from.value].push_back(i);
        if (system.ways[i].to.valid()) {
            ways_at[system.ways[i].to.value].push_back(i);
        }
    }
    // Open whatever stands how, in every variant in which there is what is asked about.
    const auto is_open = [&](const Way& way, ExpressionId there) {
        return way.condition == Expressions::always() || (way.condition == way.exists && way.exists == there);
    };
    const auto is_there_with = [](const Run& run, ExpressionId there) {
        return run.exists == Expressions::always() || run.exists == there;
    };
    // Down from a node, as gravity would.
    const auto leads_into_vented = [&](NodeId from, ExpressionId there, NodeId except = {}) {
        std::vector<char> seen(system.nodes.size(), 0);
        std::vector<NodeId> queue{from};
        seen[from.value] = 1;
        for (std::size_t i = 0; i < queue.size(); ++i) {
            const NodeId node = queue[i];
            if (node == except) {
                continue;
            }
            if (is_vented_chamber(node)) {
                return true;
            }
            for (const std::uint32_t index : ways_at[node.value]) {
                const Way& way = system.ways[index];
                const bool open = is_open(way, there);
                const bool passes =
                    way.kind == WayKind::two_way || way.kind == WayKind::one_way || way.kind == WayKind::fall;
                if (!open || !passes || !way.to.valid()) {
                    continue;
                }
                NodeId to;
                if (way.run != UINT32_MAX) {
                    const Run& run = system.runs[way.run];
                    to = run.falls_to.valid() && run.falls_to != node ? run.falls_to : NodeId{};
                } else {
                    to = way.from == node ? way.to : way.kind == WayKind::two_way ? way.from : NodeId{};
                }
                if (to.valid() && seen[to.value] == 0) {
                    seen[to.value] = 1;
                    queue.push_back(to);
                }
            }
        }
        return false;
    };
    for (Pocket& pocket : pockets_) {
        if (pocket.kind == PocketKind::chamber && pocket.vented) {
            const NodeId body = system.chambers[pocket.index].node;
            const ExpressionId there = system[system.chambers[pocket.index].part].exists;
            for (std::uint32_t i = 0; i < system.nodes.size(); ++i) {
                const meaning::Node& port = system.nodes[i];
                pocket.runs_out = pocket.runs_out || (port.level_of == body && port.level == Level::low &&
                                                      leads_into_vented(NodeId(i), there, body));
            }
            // What is written at the chamber itself leaves it at the bottom.
            for (const std::uint32_t index : ways_at[body.value]) {
                const Way& way = system.ways[index];
                const bool open = is_open(way, there);
                const bool leaves = way.kind == WayKind::two_way || way.from == body;
                const NodeId other = way.from == body ? way.to : way.from;
                pocket.runs_out =
                    pocket.runs_out || (open && leaves && way.kind != WayKind::lift && other.valid() &&
                                        system[other].level_of != body && leads_into_vented(other, there, body));
            }
        }
    }
    for (Pocket& pocket : pockets_) {
        if (pocket.kind != PocketKind::run || !system.runs[pocket.index].falls_to.valid()) {
            continue;
        }
        const Run& run = system.runs[pocket.index];
        const NodeId upper = run.falls_to == run.from ? run.to : run.from;
        // From above: a vented chamber's own port, an open vent, or so wide a pipe that air rises past the water.
        const bool wide = run.bore && to_double(*run.bore, Unit::mm) >= self_venting_bore;
        const bool air_above = wide || vented(upper) || std::ranges::any_of(system.ways, [&](const Way& way) {
                                   return way.kind == WayKind::vent && way.from == upper && is_open(way, run.exists);
                               });
        pocket.runs_out = air_above && leads_into_vented(run.falls_to, run.exists);
    }
    // The body of a vacuum breaker above such a pipe.
    for (Pocket& pocket : pockets_) {
        if (pocket.kind != PocketKind::body) {
            continue;
        }
        for (const Way& way : system.ways) {
            if (way.kind == WayKind::vent && way.part == pocket.part && way.condition == way.exists) {
                pocket.runs_out =
                    pocket.runs_out || std::ranges::any_of(pockets_, [&](const Pocket& run) {
                        return run.kind == PocketKind::run && run.runs_out &&
                               is_there_with(system.runs[run.index], way.exists) &&
                               (system.runs[run.index].from == way.from || system.runs[run.index].to == way.from) &&
                               system.runs[run.index].falls_to != way.from;
                    });
            }
        }
    }
    // What lies between two pipes that run out: again until none is added.
    for (bool added = true; added;) {
        added = false;
        for (Pocket& pocket : pockets_) {
            if (pocket.kind != PocketKind::run || pocket.runs_out || !system.runs[pocket.index].falls_to.valid()) {
                continue;
            }
            const Run& run = system.runs[pocket.index];
            const NodeId upper = run.falls_to == run.from ? run.to : run.from;
            for (const Pocket& above : pockets_) {
                if (above.kind != PocketKind::run || !above.runs_out ||
                    !is_there_with(system.runs[above.index], run.exists)) {
                    continue;
                }
                const NodeId foot = system.runs[above.index].falls_to;
                const bool through_trap =
                    system[foot].level_of.valid() && system[foot].level_of == system[upper].level_of;
                if ((foot == upper || through_trap) && leads_into_vented(run.falls_to, run.exists)) {
                    pocket.runs_out = added = true;
                    break;
                }
            }
        }
    }
}

} // namespace curbstop::proofs
