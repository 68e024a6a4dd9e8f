// A part of a network cut out for one question: which of its vertices lie on some way from the roots to a target, which
// on every way, told apart by the configurations in which ways are open.
// Must not know: the network that it was cut from, fluids, what flows.
#pragma once

#include <cstdint>
#include <vector>

#include "instants/diagrams.h"

namespace curbstop::proofs {

/// One vertex on the ways to a target.
struct PassageStep {
    std::uint32_t vertex = UINT32_MAX;
    std::uint32_t depth = 0; ///< from the root: less is before, the same is not parted
    std::uint32_t rank = 0;  ///< of what is on every way: 1 at the target, growing towards the root; 0: on some only
};

/// The ways to a target in configurations that have the same ways. Steps in order of depth.
struct Passage {
    instants::Set where = instants::nothing;
    std::vector<PassageStep> steps;
};

/// The question. Two that are equal have the same answer.
struct Excerpt {
    struct Edge {
        std::uint32_t from, to; ///< places in `vertices`
        instants::Set open;     ///< `everything` for what is open in all of `where`
        friend bool operator==(const Edge&, const Edge&) = default;
    };
    instants::Set where = instants::nothing; ///< the configurations that are asked about
    bool ranks = false;                      ///< whether what is on every way to any of the sinks is asked as well
    std::uint32_t target = 0;                ///< a place in `vertices`, as roots and sinks
    std::vector<std::uint32_t> roots, sinks; ///< the target is among the sinks
    std::vector<std::uint32_t> vertices;     ///< as the network numbers them: what the answer is told in
    std::vector<Edge> edges;
    friend bool operator==(const Excerpt&, const Excerpt&) = default;
};

/// Where there are too many configurations to tell apart, those left over are told as one, with every way that is open
/// in some of them, and nothing is said to be on every way.
std::vector<Passage> passages_through(const Excerpt& excerpt, instants::Diagrams& sets);

} // namespace curbstop::proofs
