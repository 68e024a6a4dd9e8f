#include "proofs/transport/region.h"

#include <algorithm>
#include <array>

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;

namespace {

/// So many answers are kept for each target; the next takes the place of the oldest.
constexpr std::size_t most_kept = 4;

} // namespace

Region::Region(const Network& network, const meaning::System& system, ReachSpec spec)
    : network_(network)
    , reach_(network, system, std::move(spec))
    , seen_(network.changes().size())
    , local_(network.vertex_count(), none) {}

void Region::catch_up() {
    if (seen_ == network_.changes().size()) {
        return;
    }
    bool inside = false;
    for (; seen_ < network_.changes().size(); ++seen_) {
        const EdgeIndex index = network_.changes()[seen_];
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
    catch_up();
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

const std::vector<Passage>& Region::passages(Vertex target, std::span<const Vertex> sinks, Set where,
                                             instants::Knowledge& knowledge) {
    return answer(cut_out(target, sinks, where, true, knowledge), knowledge.diagrams());
}

const std::vector<Passage>& Region::chains_to(Vertex target, Set where, instants::Knowledge& knowledge) {
    catch_up();
    for (const Answer& kept : answers_[target]) {
        if (kept.version == version_ && kept.into_target == network_.version_into(target) &&
            kept.question.where == where && !kept.question.ranks) {
            return kept.passages;
        }
    }
    return answer(cut_out(target, std::array{target}, where, false, knowledge), knowledge.diagrams());
}

// Valves open and shut far from most ways, and many come back to a stand that they had: then the question is an old
// one.
const std::vector<Passage>& Region::answer(Excerpt question, instants::Diagrams& sets) {
    const Vertex target = question.vertices[question.target];
    const std::uint64_t into_target = network_.version_into(target);
    std::vector<Answer>& kept = answers_[target];
    if (const auto known = std::ranges::find(kept, question, &Answer::question); known != kept.end()) {
        known->version = version_;
        known->into_target = into_target;
        return known->passages;
    }
    if (kept.size() == most_kept) {
        kept.erase(kept.begin());
    }
    std::vector<Passage> passages = passages_through(question, sets);
    kept.push_back({std::move(question), std::move(passages), version_, into_target});
    return kept.back().passages;
}

Excerpt Region::cut_out(Vertex target, std::span<const Vertex> sinks, Set where, bool ranks,
                        instants::Knowledge& knowledge) {
    instants::Diagrams& sets = knowledge.diagrams();
    settle(knowledge);
    const LiveBlocks& blocks = blocks_;
    Excerpt excerpt{where, ranks};
    // Everything on some way to the target or a sink, as far as is known of the whole.
    std::vector<Vertex>& part = excerpt.vertices;
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
    for (std::uint32_t i = 0; i < part.size(); ++i) {
        for (const EdgeIndex index : onward(part[i])) {
            const Edge& edge = network_.edge(index);
            if (edge.possible && local_[far(edge)] != none && reach_.uses(edge)) {
                excerpt.edges.push_back({i, local_[far(edge)], sets.within(where, edge.open) ? everything : edge.open});
            }
        }
    }
    for (const Vertex start : reach_.spec().starts) {
        excerpt.roots.push_back(local_[start]);
    }
    for (const Vertex end : ends) {
        excerpt.sinks.push_back(local_[end]);
    }
    excerpt.target = local_[target];
    for (const Vertex vertex : part) {
        local_[vertex] = none;
    }
    return excerpt;
}

} // namespace curbstop::proofs
