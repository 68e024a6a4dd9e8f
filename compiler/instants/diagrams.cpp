#include "instants/diagrams.h"

#include <algorithm>
#include <limits>
#include <unordered_map>
#include <unordered_set>

namespace curbstop::instants {

namespace {

constexpr std::uint32_t terminal_level = std::numeric_limits<std::uint32_t>::max();
constexpr std::uint32_t no_node = std::numeric_limits<std::uint32_t>::max();
constexpr std::size_t first_buckets = 1024;

/// The three products do not wait for each other.
std::size_t mix(std::uint64_t a, std::uint64_t b, std::uint64_t c) {
    const std::uint64_t h = a * 0x9E3779B97F4A7C15ULL + b * 0xBF58476D1CE4E5B9ULL + c * 0x94D049BB133111EBULL;
    return static_cast<std::size_t>(h ^ (h >> 32));
}

} // namespace

Diagrams::Diagrams(std::size_t budget)
    : buckets_(first_buckets, no_node)
    , memory_(first_buckets)
    , budget_(budget) {
    nodes_.push_back({terminal_level, nothing, nothing, no_node});
    nodes_.push_back({terminal_level, everything, everything, no_node});
}

Set Diagrams::make(std::uint32_t level, Set low, Set high) {
    if (low == high) {
        return low;
    }
    std::size_t bucket = mix(level, low, high) & (buckets_.size() - 1);
    for (std::uint32_t i = buckets_[bucket]; i != no_node; i = nodes_[i].next) {
        if (nodes_[i].level == level && nodes_[i].low == low && nodes_[i].high == high) {
            return i;
        }
    }
    if (nodes_.size() >= budget_) {
        throw BudgetSpent{};
    }
    if (nodes_.size() >= buckets_.size()) {
        grow();
        bucket = mix(level, low, high) & (buckets_.size() - 1);
    }
    nodes_.push_back({level, low, high, buckets_[bucket]});
    buckets_[bucket] = static_cast<std::uint32_t>(nodes_.size() - 1);
    return buckets_[bucket];
}

void Diagrams::grow() {
    buckets_.assign(buckets_.size() * 2, no_node);
    for (std::uint32_t i = 2; i < nodes_.size(); ++i) {
        const std::size_t bucket = mix(nodes_[i].level, nodes_[i].low, nodes_[i].high) & (buckets_.size() - 1);
        nodes_[i].next = buckets_[bucket];
        buckets_[bucket] = i;
    }
    std::vector<Remembered> memory(buckets_.size());
    for (const Remembered& known : memory_) {
        if (known.a != nothing) {
            memory[mix(known.a, known.b, known.c) & (memory.size() - 1)] = known;
        }
    }
    memory_ = std::move(memory);
}

Set Diagrams::level(std::uint32_t level) {
    return make(level, nothing, everything);
}

Set Diagrams::if_then_else(Set condition, Set then, Set otherwise) {
    if (condition <= everything) {
        return condition == everything ? then : otherwise;
    }
    if (then == condition) {
        then = everything;
    }
    if (otherwise == condition) {
        otherwise = nothing;
    }
    if (then == otherwise) {
        return then;
    }
    if (otherwise == nothing) {
        return both(condition, then);
    }
    return then == everything ? either(condition, otherwise) : decide(condition, then, otherwise);
}

Set Diagrams::decide(Set condition, Set then, Set otherwise) {
    std::size_t slot = mix(condition, then, otherwise) & (memory_.size() - 1);
    if (const Remembered& known = memory_[slot]; known.a == condition && known.b == then && known.c == otherwise) {
        return known.result;
    }
    const std::uint32_t top = std::min({nodes_[condition].level, nodes_[then].level, nodes_[otherwise].level});
    const auto branch = [&](Set set, bool high) {
        return nodes_[set].level != top ? set : high ? nodes_[set].high : nodes_[set].low;
    };
    const Set low = if_then_else(branch(condition, false), branch(then, false), branch(otherwise, false));
    const Set high = if_then_else(branch(condition, true), branch(then, true), branch(otherwise, true));
    const Set result = make(top, low, high);
    slot = mix(condition, then, otherwise) & (memory_.size() - 1); // the table may have grown
    memory_[slot] = {condition, then, otherwise, result};
    return result;
}

Set Diagrams::exists(Set a, const std::vector<bool>& free) {
    std::unordered_map<Set, Set> done;
    const auto visit = [&](const auto& self, Set set) -> Set {
        if (set <= everything) {
            return set;
        }
        if (const auto known = done.find(set); known != done.end()) {
            return known->second;
        }
        const std::uint32_t at = nodes_[set].level;
        const Set low = self(self, nodes_[set].low);
        const Set high = self(self, nodes_[set].high);
        const Set result = at < free.size() && free[at] ? either(low, high) : make(at, low, high);
        done.emplace(set, result);
        return result;
    };
    return visit(visit, a);
}

std::vector<std::optional<bool>> Diagrams::pick(Set a, std::uint32_t levels) const {
    std::vector<std::optional<bool>> choice(levels);
    while (a > everything) {
        const Node& node = nodes_[a];
        const bool high = node.low == nothing;
        choice[node.level] = high;
        a = high ? node.high : node.low;
    }
    return choice;
}

std::vector<bool> Diagrams::support(Set a, std::uint32_t levels) const {
    std::vector<bool> found(levels);
    std::unordered_set<Set> seen;
    std::vector<Set> waiting{a};
    while (!waiting.empty()) {
        const Set set = waiting.back();
        waiting.pop_back();
        if (set <= everything || !seen.insert(set).second) {
            continue;
        }
        if (nodes_[set].level < levels) {
            found[nodes_[set].level] = true;
        }
        waiting.push_back(nodes_[set].low);
        waiting.push_back(nodes_[set].high);
    }
    return found;
}

bool Diagrams::contains(Set a, const std::vector<bool>& assignment) const {
    while (a > everything) {
        const Node& node = nodes_[a];
        a = node.level < assignment.size() && assignment[node.level] ? node.high : node.low;
    }
    return a == everything;
}

} // namespace curbstop::instants
