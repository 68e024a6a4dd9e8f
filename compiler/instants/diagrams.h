// Reduced ordered binary decision diagrams: sets of configurations, shared and canonical, so that two sets are equal
// exactly when their references are. After R. Bryant, "Graph-Based Algorithms for Boolean Function Manipulation", IEEE
// Transactions on Computers C-35 (1986). Must not know what its variables stand for.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace curbstop::instants {

/// A set of assignments of yes and no to numbered levels.
using Set = std::uint32_t;
inline constexpr Set nothing = 0;
inline constexpr Set everything = 1;

/// Thrown when a proof has spent its nodes, or its rounds; caught where proofs begin.
struct BudgetSpent {
    bool rounds = false;
};

class Diagrams {
  public:
    /// At most `budget` nodes are made; one more throws BudgetSpent.
    explicit Diagrams(std::size_t budget);

    /// All assignments in which `level` is yes. Lower levels are decided first.
    Set level(std::uint32_t level);
    Set if_then_else(Set condition, Set then, Set otherwise);
    Set both(Set a, Set b);
    Set either(Set a, Set b);
    Set complement(Set a) { return a <= everything ? everything - a : decide(a, nothing, everything); }
    Set without(Set a, Set b);
    bool disjoint(Set a, Set b) { return both(a, b) == nothing; }
    bool within(Set a, Set b) { return without(a, b) == nothing; }
    /// Some level is free: the assignments that can be completed to one of `a` by choosing levels for which `free` says
    /// so.
    Set exists(Set a, const std::vector<bool>& free);

    /// One assignment of `a`, which must not be `nothing`: per level yes, no, or nothing where it does not matter.
    /// Prefers no.
    std::vector<std::optional<bool>> pick(Set a, std::uint32_t levels) const;

    /// Whether a full assignment, a yes or no per level, is in `a`. Levels beyond its end count as no.
    bool contains(Set a, const std::vector<bool>& assignment) const;

    /// Which levels below `levels` a set depends on.
    std::vector<bool> support(Set a, std::uint32_t levels) const;

    std::size_t size() const { return nodes_.size(); }

  private:
    struct Node {
        std::uint32_t level;
        Set low, high;
        std::uint32_t next; // in the chain of its bucket
    };
    struct Remembered {
        Set a = 0, b = 0, c = 0, result = 0;
    };
    Set make(std::uint32_t level, Set low, Set high);
    Set decide(Set condition, Set then, Set otherwise); // where none of the three tells the answer by itself
    void grow();

    std::vector<Node> nodes_;
    std::vector<std::uint32_t> buckets_;
    std::vector<Remembered> memory_; // direct-mapped: an older answer gives way
    std::size_t budget_;
};

// Most questions answer themselves, so that is asked where they are put. What is remembered of a pair has the smaller
// of the two first.

inline Set Diagrams::both(Set a, Set b) {
    const Set first = a < b ? a : b;
    const Set second = a < b ? b : a;
    if (first == nothing) {
        return nothing;
    }
    return first == everything || first == second ? second : decide(first, second, nothing);
}

inline Set Diagrams::either(Set a, Set b) {
    const Set first = a < b ? a : b;
    const Set second = a < b ? b : a;
    if (first == everything) {
        return everything;
    }
    return first == nothing || first == second ? second : decide(first, everything, second);
}

inline Set Diagrams::without(Set a, Set b) {
    if (b <= everything) {
        return b == everything ? nothing : a;
    }
    return a == nothing || a == b ? nothing : decide(b, nothing, a);
}

} // namespace curbstop::instants
