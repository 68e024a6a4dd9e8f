#include "proofs/transport/region.h"

#include <algorithm>
#include <array>

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

/// So many sets of open ways are told apart on the way to one target.
constexpr std::size_t most_classes = 16;

} // namespace

Region::Region(const Network& network, const meaning::System& system, ReachSpec spec)
    : network_(network)
    , reach_(network, system, std::move(spec))
    , local_(network.vertex_count(), none) {}

void Region::update(std::span<const EdgeIndex> changed) {
    reach_.update(changed);
    bool inside = false;
    for (const EdgeIndex index : changed) {
        const Edge& edge = network_.edge(index);
        inside = inside || (reach_.possible(near(edge)) && !network_.outlet_at(far(edge)).valid() && reach_.uses(edge));
        if (settled_version_ != 0 && blocks_.has(index)) {
            waiting_.push_back(index);
        }
    }
    version_ += inside ? 1 : 0;
}

// Most regions are never asked, so nothing is made before the first question.
void Region::start() {
    std::vector<LiveBlocks::Arrow> edges;
    for (EdgeIndex i = 0; i < network_.edges().size(); ++i) {
        const Edge& edge = network_.edge(i);
        if (!network_.outlet_at(far(edge)).valid() && reach_.uses(edge)) {
            edges.push_back({near(edge), far(edge), i});
        }
    }
    blocks_ = LiveBlocks(static_cast<std::uint32_t>(network_.vertex_count()), edges,
                         static_cast<std::uint32_t>(network_.edges().size()), reach_.spec().starts);
    blocks_.rebuild([&](EdgeIndex edge) { return network_.edge(edge).possible; });
    reach_.keep_changes();
    inside_.assign(network_.vertex_count(), nothing);
    for (Vertex vertex = 0; vertex < network_.vertex_count(); ++vertex) {
        if (reach_.possible(vertex) && !reach_.definite(vertex) && !network_.outlet_at(vertex).valid()) {
            unsure_.push_back(vertex);
        }
    }
}

void Region::settle(instants::Knowledge& knowledge) {
    if (settled_version_ == version_) {
        return;
    }
    if (settled_version_ == 0) {
        start();
    } else {
        blocks_.update(waiting_, [&](EdgeIndex edge) { return network_.edge(edge).possible; });
    }
    waiting_.clear();
    settled_version_ = version_;
    std::erase_if(unsure_, [&](Vertex v) { return !reach_.possible(v) || reach_.definite(v); });
    for (const Vertex vertex : reach_.take_changed()) {
        if (network_.outlet_at(vertex).valid()) {
            continue;
        }
        if (blocks_.reached(vertex)) {
            moved_.push_back(blocks_.home(vertex));
        }
        if (reach_.possible(vertex) && !reach_.definite(vertex)) {
            inside_[vertex] = nothing;
            unsure_.push_back(vertex);
        }
    }
    std::ranges::sort(unsure_);
    unsure_.erase(std::unique(unsure_.begin(), unsure_.end()), unsure_.end());
    reach_.exact_everywhere(unsure_, knowledge);
    for (const Vertex vertex : unsure_) {
        const Set now = reach_.exact(vertex, knowledge);
        if (now != inside_[vertex] && blocks_.reached(vertex)) {
            moved_.push_back(blocks_.home(vertex));
        }
        inside_[vertex] = now;
    }
}

std::vector<Block> Region::take_changed() {
    std::vector<Block> blocks = blocks_.take_changed();
    blocks.insert(blocks.end(), moved_.begin(), moved_.end());
    moved_.clear();
    return blocks;
}

const std::vector<Passage>& Region::chains_to(Vertex target, Set where, instants::Knowledge& knowledge) {
    Found& found = found_[target];
    const std::uint64_t into_target = network_.version_into(target);
    if (found.version != version_ || found.into_target != into_target || found.where != where) {
        found = {version_, into_target, where, passages(target, std::array{target}, where, knowledge, false)};
    }
    return found.passages;
}

std::vector<Passage> Region::passages(Vertex target, std::span<const Vertex> sinks, Set where,
                                      instants::Knowledge& knowledge, bool ranks) {
    instants::Diagrams& sets = knowledge.diagrams();
    settle(knowledge);
    const LiveBlocks& blocks = blocks_;
    // Everything on some way to the target or a sink, as far as is known of the whole.
    std::vector<Vertex> part;
    const auto add = [&](Vertex vertex) {
        if (local_[vertex] == none) {
            local_[vertex] = static_cast<std::uint32_t>(part.size());
            part.push_back(vertex);
        }
    };
    const auto add_chain = [&](Vertex vertex) {
        while (vertex != UINT32_MAX && blocks.reached(vertex) && blocks.home(vertex) != no_block) {
            const Block block = blocks.home(vertex);
            for (const std::uint32_t member : blocks.members(block)) {
                add(member);
            }
            vertex = blocks.top(block);
        }
    };
    std::vector<Vertex> ends(sinks.begin(), sinks.end());
    if (std::ranges::find(ends, target) == ends.end()) {
        ends.push_back(target);
    }
    for (const Vertex end : ends) {
        add(end);
        if (!network_.outlet_at(end).valid()) {
            add_chain(end);
            continue;
        }
        for (const EdgeIndex index :
             reach_.spec().direction == Direction::forward ? network_.into(end) : network_.out_of(end)) {
            const Edge& edge = network_.edge(index);
            if (edge.possible && reach_.uses(edge)) {
                add_chain(near(edge));
            }
        }
    }
    for (const Vertex start : reach_.spec().starts) {
        add(start);
    }
    struct LocalEdge {
        std::uint32_t from, to;
        std::uint32_t varies; // which of `varying` says where it is open; none: it is open in all of `where`
    };
    std::vector<LocalEdge> edges;
    std::vector<Set> varying;
    for (std::uint32_t i = 0; i < part.size(); ++i) {
        for (const EdgeIndex index : onward(part[i])) {
            const Edge& edge = network_.edge(index);
            if (!edge.possible || local_[far(edge)] == none || !reach_.uses(edge)) {
                continue;
            }
            std::uint32_t varies = none;
            if (!sets.within(where, edge.open)) {
                const auto known = std::ranges::find(varying, edge.open);
                varies = static_cast<std::uint32_t>(known - varying.begin());
                if (known == varying.end()) {
                    varying.push_back(edge.open);
                }
            }
            edges.push_back({i, local_[far(edge)], varies});
        }
    }
    std::vector<std::uint32_t> roots, local_sinks;
    for (const Vertex start : reach_.spec().starts) {
        roots.push_back(local_[start]);
    }
    for (const Vertex end : ends) {
        local_sinks.push_back(local_[end]);
    }
    const std::uint32_t local_target = local_[target];
    for (const Vertex vertex : part) {
        local_[vertex] = none;
    }
    std::vector<Passage> passages;
    std::vector<char> taken(varying.size()); // per one of `varying`: it is open in what is being looked at
    std::vector<std::pair<std::uint32_t, std::uint32_t>> open;
    std::vector<std::uint32_t> rank; // per vertex of the part
    const auto look = [&](Set here, bool exact) {
        open.clear();
        for (const LocalEdge& edge : edges) {
            if (edge.varies == none || taken[edge.varies] != 0) {
                open.emplace_back(edge.from, edge.to);
            }
        }
        const Adjacency graph = Adjacency::from(static_cast<std::uint32_t>(part.size()), open);
        const BlockTree found(graph, roots);
        if (!found.reached(local_target)) {
            return;
        }
        rank.assign(part.size(), 0);
        if (exact) {
            std::uint32_t next = 0;
            for (const std::uint32_t passed : on_every_way(graph, roots, local_sinks)) {
                rank[passed] = ++next;
            }
        }
        Passage passage{here, {}};
        for (const Block block : found.chain(local_target)) {
            for (const std::uint32_t member : found.members(block)) {
                passage.steps.push_back({part[member], found.depth(member), rank[member]});
            }
        }
        std::ranges::stable_sort(passage.steps, {}, &PassageStep::depth);
        passages.push_back(std::move(passage));
    };
    Set left = where;
    for (std::size_t told = 0; left != nothing && told < most_classes; ++told) {
        Set here = left;
        for (std::size_t i = 0; i < varying.size(); ++i) {
            const Set inside = sets.both(here, varying[i]);
            taken[i] = inside != nothing ? 1 : 0;
            here = inside != nothing ? inside : sets.without(here, varying[i]);
        }
        look(here, ranks);
        left = sets.without(left, here);
        if (varying.empty()) {
            return passages;
        }
    }
    if (left != nothing) {
        std::ranges::fill(taken, 1);
        look(left, false);
    }
    return passages;
}

} // namespace curbstop::proofs
