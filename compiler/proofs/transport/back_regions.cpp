// What could be reached against the arrows, kept only where it could matter: where there is a supply of drinking water,
// a fluid that spoils it, and a way from the one to the other.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;

namespace {

constexpr int first_harmful = harmless_category + 1;

// For each category that some way keeps back and some liquid exceeds: the fluids above it pass what those below do not.
std::vector<int> levels_of(const System& system) {
    int greatest = 0;
    for (const Fluid& fluid : system.fluids) {
        greatest = fluid.gas ? greatest : std::max(greatest, fluid.category);
    }
    std::vector<int> levels;
    for (int level = first_harmful; level <= greatest; ++level) {
        const bool tells =
            level == first_harmful || std::ranges::any_of(system.ways, [&](const Way& way) {
                return (way.kind == WayKind::one_way || way.kind == WayKind::lift) && way.protects == level - 1;
            });
        if (tells) {
            levels.push_back(level);
        }
    }
    return levels;
}

} // namespace

void Transport::build_back_regions() {
    std::vector<SourceId> supplies;
    for (std::uint32_t i = 0; i < system_.sources.size(); ++i) {
        if (supplies_drinking_water(system_, SourceId(i))) {
            supplies.emplace_back(i);
        }
    }
    // All that any supply is joined to, whatever stands how and whichever way the arrows point.
    std::vector<char> joined(network_.vertex_count(), 0);
    std::vector<Vertex> queue;
    const auto add = [&](Vertex vertex) {
        if (joined[vertex] == 0 && vertex != network_.air()) {
            joined[vertex] = 1;
            queue.push_back(vertex);
        }
    };
    for (const SourceId supply : supplies) {
        add(network_.arrival(system_[supply].node));
    }
    while (!queue.empty()) {
        const Vertex vertex = queue.back();
        queue.pop_back();
        for (const EdgeIndex index : network_.into(vertex)) {
            if ((network_.edge(index).classes & (pass | back | gas_fall | settle)) != 0) {
                add(network_.edge(index).from);
            }
        }
    }
    const auto make = [&](SourceId source, ChamberId chamber, int level, ReachSpec spec) {
        if (!std::ranges::any_of(spec.starts, [&](Vertex start) { return joined[start] != 0; })) {
            return;
        }
        spec.not_kept_back = level;
        back_regions_.push_back({source, chamber, level, std::make_unique<Region>(network_, system_, std::move(spec))});
    };
    for (const int level : supplies.empty() ? std::vector<int>() : levels_of(system_)) {
        for (std::uint32_t i = 0; i < system_.sources.size(); ++i) {
            const Source& source = system_.sources[i];
            const bool alone = supplies.size() == 1 && supplies.front() == SourceId(i);
            if ((source.kind == SourceKind::supply || source.kind == SourceKind::lift) && !alone) {
                const bool gas = source.fluid.valid() && system_[source.fluid].gas;
                make(SourceId(i), {}, level,
                     {.starts = {network_.source_vertex(source.node)},
                      .classes = static_cast<std::uint8_t>(pass | back | (gas ? gas_fall : 0))});
            }
        }
        for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
            if (system_.chambers[i].vessel) {
                continue;
            }
            ReachSpec spec = gravity_[i]->reach().spec();
            spec.classes = static_cast<std::uint8_t>(pass | back | gas_fall | settle);
            make({}, ChamberId(i), level, std::move(spec));
        }
    }
}

} // namespace curbstop::proofs
