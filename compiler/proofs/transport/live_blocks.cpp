#include "proofs/transport/live_blocks.h"

#include <algorithm>
#include <utility>

namespace curbstop::proofs {

LiveBlocks::LiveBlocks(std::uint32_t count, std::span<const Arrow> edges, std::uint32_t names,
                       std::span<const std::uint32_t> roots)
    : part_of_edge_(names, no_block)
    , is_root_(count, 0)
    , home_(count, no_block)
    , first_below_(count, no_block)
    , local_(count, UINT32_MAX) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    pairs.reserve(edges.size());
    for (const Arrow& edge : edges) {
        pairs.emplace_back(edge.from, edge.to);
    }
    for (const std::uint32_t root : roots) {
        is_root_[root] = 1;
    }
    const BlockTree whole(Adjacency::from(count, pairs), roots);
    parts_.resize(whole.block_count());
    std::vector<std::pair<std::uint32_t, std::uint32_t>> hangs;
    for (Block i = 0; i < whole.block_count(); ++i) {
        Part& part = parts_[i];
        part.first = static_cast<std::uint32_t>(static_members_.size());
        part.size = static_cast<std::uint32_t>(whole.members(i).size());
        part.top = whole.top(i);
        for (const std::uint32_t member : whole.members(i)) {
            static_members_.push_back(member);
        }
        if (part.top != UINT32_MAX) {
            hangs.emplace_back(part.top, i);
        }
    }
    const Adjacency hanging = Adjacency::from(count, hangs);
    hanging_start_ = hanging.start;
    hanging_ = hanging.next;
    // An edge lies in the part of the end that is farther from the root.
    std::vector<std::vector<Arrow>> by_part(parts_.size());
    for (const Arrow& edge : edges) {
        if (!whole.reached(edge.from)) {
            continue;
        }
        const bool down =
            whole.depth(edge.to) > whole.depth(edge.from) ||
            (whole.depth(edge.to) == whole.depth(edge.from) && whole.home(edge.to) == whole.home(edge.from));
        const Block part = down ? whole.home(edge.to) : whole.home(edge.from);
        part_of_edge_[edge.name] = part;
        by_part[part].push_back(edge);
    }
    for (Block i = 0; i < parts_.size(); ++i) {
        parts_[i].edge_start = static_cast<std::uint32_t>(edges_.size());
        edges_.insert(edges_.end(), by_part[i].begin(), by_part[i].end());
        parts_[i].edge_end = static_cast<std::uint32_t>(edges_.size());
    }
    const std::size_t numbers = static_members_.size();
    top_.assign(numbers, UINT32_MAX);
    member_start_.assign(numbers, 0);
    member_count_.assign(numbers, 0);
    next_beside_.assign(numbers, no_block);
    members_.assign(numbers, UINT32_MAX);
}

void LiveBlocks::queue(std::uint32_t part) {
    if (!parts_[part].queued) {
        parts_[part].queued = true;
        heap_.push_back(part);
        std::ranges::push_heap(heap_);
    }
}

void LiveBlocks::update(std::span<const std::uint32_t> changed, FunctionRef<bool(std::uint32_t)> is_open) {
    for (const std::uint32_t name : changed) {
        if (has(name)) {
            queue(part_of_edge_[name]);
        }
    }
    work_off(is_open);
}

void LiveBlocks::rebuild(FunctionRef<bool(std::uint32_t)> is_open) {
    for (std::uint32_t part = 0; part < parts_.size(); ++part) {
        queue(part);
    }
    work_off(is_open);
}

// Parts come out of their tree from below, so the greatest number is nearest to the root: what a part hangs by is
// settled before the part is looked at.
void LiveBlocks::work_off(FunctionRef<bool(std::uint32_t)> is_open) {
    std::vector<char> was;
    while (!heap_.empty()) {
        std::ranges::pop_heap(heap_);
        const std::uint32_t index = heap_.back();
        heap_.pop_back();
        Part& part = parts_[index];
        part.queued = false;
        const std::span<const std::uint32_t> all(static_members_.data() + part.first, part.size);
        was.clear();
        for (const std::uint32_t vertex : all) {
            was.push_back(reached(vertex) ? 1 : 0);
        }
        clear(part);
        if (part.top == UINT32_MAX || reached(part.top)) {
            renew(part, is_open);
        }
        if (!part.changed) {
            part.changed = true;
            changed_.push_back(index);
        }
        for (std::uint32_t i = 0; i < part.size; ++i) {
            if ((was[i] != 0) != reached(all[i])) {
                for (std::uint32_t k = hanging_start_[all[i]]; k < hanging_start_[all[i] + 1]; ++k) {
                    queue(hanging_[k]);
                }
            }
        }
    }
}

void LiveBlocks::clear(Part& part) {
    for (std::uint32_t i = part.first; i < part.first + part.size; ++i) {
        home_[static_members_[i]] = no_block;
        first_below_[static_members_[i]] = no_block;
    }
    for (Block block = part.first; block < part.first + part.used; ++block) {
        member_count_[block] = 0;
        next_beside_[block] = no_block;
    }
    part.used = 0;
    part.first_at_top = no_block;
}

// Most parts are a single vertex that hangs by another: a run, a tee. There is nothing to search in those.
void LiveBlocks::renew_single(Part& part, FunctionRef<bool(std::uint32_t)> is_open) {
    const std::uint32_t vertex = static_members_[part.first];
    const std::span<const Arrow> edges(edges_.data() + part.edge_start, edges_.data() + part.edge_end);
    if (std::ranges::none_of(edges, [&](const Arrow& edge) { return edge.from == part.top && is_open(edge.name); })) {
        return;
    }
    const Block block = part.first + part.used++;
    member_start_[block] = part.first;
    member_count_[block] = 1;
    members_[part.first] = vertex;
    home_[vertex] = block;
    top_[block] = part.top;
    next_beside_[block] = std::exchange(part.first_at_top, block);
}

void LiveBlocks::renew(Part& part, FunctionRef<bool(std::uint32_t)> is_open) {
    if (part.size == 1 && part.top != UINT32_MAX) {
        renew_single(part, is_open);
        return;
    }
    const std::span<const std::uint32_t> all(static_members_.data() + part.first, part.size);
    // The top comes last in the numbering, where there is one.
    std::vector<std::uint32_t> roots;
    for (std::uint32_t i = 0; i < part.size; ++i) {
        local_[all[i]] = i;
        if (part.top == UINT32_MAX && is_root_[all[i]] != 0) {
            roots.push_back(i);
        }
    }
    const bool hangs = part.top != UINT32_MAX;
    if (hangs) {
        local_[part.top] = part.size;
        roots.push_back(part.size);
    }
    std::vector<std::pair<std::uint32_t, std::uint32_t>> open;
    for (std::uint32_t i = part.edge_start; i < part.edge_end; ++i) {
        if (is_open(edges_[i].name)) {
            open.emplace_back(local_[edges_[i].from], local_[edges_[i].to]);
        }
    }
    const BlockTree inside(Adjacency::from(part.size + (hangs ? 1 : 0), open), roots);
    std::uint32_t at = part.first;
    for (Block i = 0; i < inside.block_count(); ++i) {
        if (hangs && inside.top(i) == UINT32_MAX) {
            continue; // the top alone: it has its home above
        }
        const Block block = part.first + part.used++;
        member_start_[block] = at;
        for (const std::uint32_t member : inside.members(i)) {
            members_[at++] = all[member];
            home_[all[member]] = block;
            ++member_count_[block];
        }
        const std::uint32_t top = inside.top(i);
        top_[block] = top == UINT32_MAX ? UINT32_MAX : top == part.size ? part.top : all[top];
        Block& list = top == UINT32_MAX || top == part.size ? part.first_at_top : first_below_[all[top]];
        next_beside_[block] = list;
        list = block;
    }
    for (const std::uint32_t vertex : all) {
        local_[vertex] = UINT32_MAX;
    }
}

void LiveBlocks::for_each_below(Block block, FunctionRef<void(Block)> visit) const {
    for (const std::uint32_t member : members(block)) {
        for (Block below = first_below_[member]; below != no_block; below = next_beside_[below]) {
            visit(below);
        }
        for (std::uint32_t i = hanging_start_[member]; i < hanging_start_[member + 1]; ++i) {
            for (Block below = parts_[hanging_[i]].first_at_top; below != no_block; below = next_beside_[below]) {
                visit(below);
            }
        }
    }
}

std::vector<Block> LiveBlocks::take_changed() {
    std::vector<Block> blocks;
    for (const std::uint32_t index : changed_) {
        Part& part = parts_[index];
        part.changed = false;
        for (std::uint32_t i = 0; i < part.used; ++i) {
            blocks.push_back(part.first + i);
        }
    }
    changed_.clear();
    return blocks;
}

} // namespace curbstop::proofs
