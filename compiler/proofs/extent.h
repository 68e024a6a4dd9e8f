// What any of several starts reaches, as an exact set of configurations per vertex, kept up to date while edges open
// and shut and starts come and go. Tells which vertices changed, so that whoever builds on it need look at nothing
// else. Must not know: what spreads, or why.
#pragma once

#include <span>
#include <vector>

#include "instants/knowledge.h"
#include "proofs/network.h"

namespace curbstop::proofs {

class Extent {
  public:
    /// Over edges of these classes.
    Extent(const Network& network, std::uint8_t classes);

    instants::Set at(Vertex vertex) const { return value_[vertex]; }
    /// The label of the start that reached the vertex last.
    std::uint32_t reached_by(Vertex vertex) const { return reached_by_[vertex]; }
    bool uses(const Edge& edge) const { return (edge.classes & classes_) != 0; }

    /// A vertex whose set is another since the last update, and what it was.
    struct Change {
        Vertex vertex;
        instants::Set before;
    };
    /// From here on the start labelled so is there in `set`. Takes effect with the next update.
    void start(std::uint32_t label, Vertex vertex, instants::Set set);
    /// `shut` are edges that are open in fewer configurations than before, `opened` in more; an edge may be both.
    void update(std::span<const EdgeIndex> shut, std::span<const EdgeIndex> opened, instants::Knowledge& knowledge);
    /// What the last update changed.
    const std::vector<Change>& changes() const { return changes_; }

  private:
    // What a vertex rests on: one edge that gives it all it has, a start, or several things at once.
    static constexpr EdgeIndex on_start = none - 1;
    static constexpr EdgeIndex on_several = none - 2;

    struct Start {
        std::uint32_t label;
        Vertex vertex;
        instants::Set set;
        instants::Set wanted;
    };
    void lose(Vertex vertex);
    void lose_what_rests_on(std::span<const EdgeIndex> shut);
    void set(Vertex vertex, instants::Set value, EdgeIndex rests_on, std::uint32_t by);
    void take_in_full(instants::Knowledge& knowledge);
    void take_in(instants::Knowledge& knowledge);
    void candidate(Vertex vertex);

    const Network& network_;
    std::uint8_t classes_;
    std::vector<Start> starts_;
    std::vector<instants::Set> value_;
    std::vector<EdgeIndex> rests_on_;
    std::vector<std::uint32_t> reached_by_;
    std::vector<Change> changes_;
    std::vector<std::uint32_t> noted_; // per vertex: the update that has noted its change
    std::uint32_t update_ = 0;
    std::vector<Vertex> lost_;
    std::vector<Vertex> candidates_;
    std::vector<char> is_candidate_;
};

} // namespace curbstop::proofs
