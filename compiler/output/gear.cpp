#include "output/gear.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

bool is_gear(const System& system, PartId part) {
    if (!part || system[part].parent) {
        return false;
    }
    const auto is_of_it = [&](NodeId node) { return std::ranges::count(system[part].nodes, node) > 0; };
    const bool piped =
        std::ranges::any_of(system.runs, [&](const Run& run) { return is_of_it(run.from) || is_of_it(run.to); });
    const auto ends =
        std::ranges::count_if(system[part].nodes, [&](NodeId node) { return system[node].kind == NodeKind::end; });
    const bool gives_air = std::ranges::any_of(system.sources, [&](const Source& source) {
        return source.part == part && source.fluid && system[source.fluid].gas;
    });
    return !piped && (ends > 1 || gives_air);
}

} // namespace curbstop::output
