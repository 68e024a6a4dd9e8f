// What one root reaches in the network of pockets, and the ways through it: for a target, which pockets lie on some way
// and which on every way, configuration by configuration.
// Must not know: fluids, bounds, what flows.
#pragma once

#include <map>
#include <vector>

#include "instants/knowledge.h"
#include "proofs/reach.h"
#include "proofs/transport/excerpt.h"
#include "proofs/transport/live_blocks.h"

namespace curbstop::proofs {

class Region {
  public:
    Region(const Network& network, const meaning::System& system, ReachSpec spec);

    Reach& reach() { return reach_; }
    instants::Set reached(Vertex vertex, instants::Knowledge& knowledge) { return reach_.exact(vertex, knowledge); }
    /// The same of what is no outlet, as of the last settle(), which works it out for all of it at once.
    instants::Set reached_inside(Vertex vertex) const {
        return !reach_.was_possible(vertex)  ? instants::nothing
               : reach_.was_definite(vertex) ? instants::everything
                                             : inside_[vertex];
    }
    /// The blocks of all that is possibly reached; outlets, which open and shut all the time, wait outside.
    const LiveBlocks& blocks() const { return blocks_; }
    /// The blocks that may differ, or whose vertices may be reached elsewhere, since this was last called.
    std::vector<Block> take_changed();
    /// Brings blocks() and reached_inside() up to date.
    void settle(instants::Knowledge& knowledge);
    /// Grows when a way inside opens or shuts; an outlet's does not count.
    std::uint64_t version() {
        catch_up();
        return version_;
    }

    /// The ways to `target` within `where`. A vertex is on every way if all ways to any of `sinks` (the target among
    /// them) pass it. Where there are too many configurations to tell apart, nothing is said to be on every way.
    /// Both stay as they are until the next question to this region.
    const std::vector<Passage>& passages(Vertex target, std::span<const Vertex> sinks, instants::Set where,
                                         instants::Knowledge& knowledge);
    /// The same where the target is the only sink, and without ranks (all 0).
    const std::vector<Passage>& chains_to(Vertex target, instants::Set where, instants::Knowledge& knowledge);

  private:
    struct Answer {
        Excerpt question;
        std::vector<Passage> passages;
        std::uint64_t version;     // of the region, when it was last asked
        std::uint64_t into_target; // likewise
    };
    Excerpt cut_out(Vertex target, std::span<const Vertex> sinks, instants::Set where, bool ranks,
                    instants::Knowledge& knowledge);
    const std::vector<Passage>& answer(Excerpt question, instants::Diagrams& sets);
    void catch_up();
    void start();
    Vertex near(const Edge& edge) const { return reach_.spec().direction == Direction::forward ? edge.from : edge.to; }
    Vertex far(const Edge& edge) const { return reach_.spec().direction == Direction::forward ? edge.to : edge.from; }
    std::span<const EdgeIndex> onward(Vertex v) const {
        return reach_.spec().direction == Direction::forward ? network_.out_of(v) : network_.into(v);
    }

    const Network& network_;
    Reach reach_;
    LiveBlocks blocks_;
    std::size_t seen_ = 0; // of the network's changes
    std::uint64_t version_ = 1;
    std::uint64_t settled_version_ = 0;
    std::vector<EdgeIndex> waiting_; // edges that have changed since
    std::vector<instants::Set>
        inside_;                 // per vertex: where it is reached, of those that are possibly reached, not surely
    std::vector<Vertex> unsure_; // these
    std::vector<Block> moved_;   // blocks of vertices that are reached elsewhere than they were
    std::map<Vertex, std::vector<Answer>> answers_; // by target, the latest last
    std::vector<std::uint32_t> local_;              // vertex to number in the part that is being looked at
};

} // namespace curbstop::proofs
