#include "output/valve_ways.h"

#include "output/passage.h"

#include <algorithm>
#include <bit>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_ports = 3;

bool shows(const Way& way) {
    return way.kind == WayKind::two_way || way.kind == WayKind::one_way || way.kind == WayKind::fall;
}

void add(NodeId port, std::vector<NodeId>& ports) {
    if (std::ranges::find(ports, port) == ports.end()) {
        ports.push_back(port);
    }
}

} // namespace

std::optional<ValveForm> valve_form(const System& system, PartId part) {
    ValveForm form;
    for (const Way& way : system.ways) {
        if (way.part != part) {
            continue;
        }
        if (!shows(way)) { // a pump, a plug that is screwed out, a vent
            return std::nullopt;
        }
        add(way.from, form.ports);
        if (way.kind == WayKind::fall) {
            form.lets_out = true;
        } else {
            add(way.to, form.ports);
        }
    }
    if (form.ports.empty() || form.ports.size() > most_ports ||
        std::ranges::any_of(form.ports, [&](NodeId port) { return system[port].kind != NodeKind::port; })) {
        return std::nullopt;
    }
    return form;
}

std::vector<PictureWay> valve_ways(const System& system, PartId part, const ValveForm& form, ValueSet values,
                                   std::vector<ValueSet> standing) {
    standing.resize(system.variables.size(), ~ValueSet{0});
    standing[system[part].variable.value] = values;
    const auto index = [&form](NodeId port) {
        return static_cast<std::size_t>(std::ranges::find(form.ports, port) - form.ports.begin());
    };
    std::vector<PictureWay> ways;
    for (const Way& way : system.ways) {
        if (way.part != part) {
            continue;
        }
        const Possibility open = may_be(system, way.condition, standing);
        if (open.can_hold) {
            ways.push_back({index(way.from), way.kind == WayKind::fall ? std::nullopt : std::optional(index(way.to)),
                            way.kind == WayKind::one_way,
                            !open.can_fail || std::has_single_bit(values)}); // not there in every variant
        }
    }
    return ways;
}

bool takes_sides(std::size_t ports, std::span<const std::vector<PictureWay>> stands) {
    const auto sided = [](const std::vector<PictureWay>& ways) {
        return std::ranges::any_of(ways, [](const PictureWay& way) { return way.one_way || !way.to; });
    };
    return ports > 2 || (ports == 2 && std::ranges::any_of(stands, sided));
}

} // namespace curbstop::output
