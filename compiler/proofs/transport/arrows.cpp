#include "proofs/transport/arrows.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

Arrows::Arrows(const System& system, const Pockets& pockets, const std::vector<PocketIndex>& passed,
               instants::Knowledge& knowledge, FunctionRef<Set(const Way&)> open)
    : nodes_(system.nodes.size())
    , arrows_(nodes_ + pockets.size()) {
    for (std::size_t i = 0; i < system.ways.size(); ++i) {
        add(system, system.ways[i], passed[i], pockets, open(system.ways[i]));
    }
    for (const Source& source : system.sources) { // what only stores, and what gives, is the body of its part
        const bool gives = source.kind == SourceKind::supply || source.kind == SourceKind::store;
        const PocketIndex body = gives ? pockets.of_body(source.part) : no_pocket;
        if (body != no_pocket) {
            join(at(source.node), at(body), knowledge.truth(system[source.part].exists));
        }
    }
}

void Arrows::spread(std::vector<Set>& found, instants::Diagrams& sets, const std::vector<Set>& stops) const {
    std::vector<std::size_t> queue;
    for (std::size_t i = 0; i < found.size(); ++i) {
        if (found[i] != nothing) {
            queue.push_back(i);
        }
    }
    while (!queue.empty()) {
        const std::size_t from = queue.back();
        queue.pop_back();
        for (const Arrow& arrow : arrows_[from]) {
            const Set comes = sets.without(sets.both(found[from], arrow.when), stops[arrow.to]);
            const Set now = sets.either(found[arrow.to], comes);
            if (now != found[arrow.to]) {
                found[arrow.to] = now;
                queue.push_back(arrow.to);
            }
        }
    }
}

void Arrows::add(const System& system, const Way& way, PocketIndex passed, const Pockets& pockets, Set when) {
    const auto is = [&](NodeId node, meaning::NodeKind kind) { return node.valid() && system[node].kind == kind; };
    if (way.kind == WayKind::open_end) {
        return;
    }
    if (way.kind == WayKind::breach || way.kind == WayKind::vent) { // only the body behind it
        passed = way.part.valid() ? pockets.of_body(way.part) : no_pocket;
    }
    const bool onward = way.to.valid() && way.kind != WayKind::breach && way.kind != WayKind::vent &&
                        !is(way.to, meaning::NodeKind::place) && !is(way.to, meaning::NodeKind::vessel) &&
                        !(way.kind == WayKind::fall && is(way.to, meaning::NodeKind::chamber));
    lead(at(way.from), passed, onward ? std::optional(at(way.to)) : std::nullopt, when);
    if (way.kind == WayKind::two_way && way.to.valid()) {
        const bool back = !is(way.from, meaning::NodeKind::vessel);
        lead(at(way.to), passed, back ? std::optional(at(way.from)) : std::nullopt, when);
    }
}

void Arrows::lead(std::size_t from, PocketIndex passed, std::optional<std::size_t> to, Set when) {
    if (passed != no_pocket) {
        join(from, at(passed), when);
        from = at(passed);
    }
    if (to) {
        join(from, *to, when);
    }
}

void Arrows::join(std::size_t from, std::size_t to, Set when) {
    if (when != nothing) {
        arrows_[from].push_back({to, when});
    }
}

} // namespace curbstop::proofs
