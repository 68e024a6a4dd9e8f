// What reaches what by the system alone, whatever runs: arrows between nodes and the pockets that lie on their ways.
// Must not know: how anything stands now, what any pocket holds, which fluid is asked about.
#pragma once

#include <optional>
#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"
#include "proofs/transport/function_ref.h"
#include "proofs/transport/pockets.h"

namespace curbstop::proofs {

class Arrows {
  public:
    /// `passed`: per way of the system the pocket that lies on it, mostly none. `open`: where a way may be open.
    Arrows(const meaning::System& system, const Pockets& pockets, const std::vector<PocketIndex>& passed,
           instants::Knowledge& knowledge, FunctionRef<instants::Set(const meaning::Way&)> open);

    /// So many vertices: the nodes of the system, then the pockets.
    std::size_t size() const { return arrows_.size(); }
    static std::size_t at(meaning::NodeId node) { return node.value; }
    std::size_t at(PocketIndex pocket) const { return nodes_ + pocket; }

    /// What grows from what `found` is already, along all arrows but where it would enter what `stops`.
    void spread(std::vector<instants::Set>& found, instants::Diagrams& sets,
                const std::vector<instants::Set>& stops) const;

  private:
    struct Arrow {
        std::size_t to = 0;
        instants::Set when = instants::nothing;
    };

    void add(const meaning::System& system, const meaning::Way& way, PocketIndex passed, const Pockets& pockets,
             instants::Set when);
    void lead(std::size_t from, PocketIndex passed, std::optional<std::size_t> to, instants::Set when);
    void join(std::size_t from, std::size_t to, instants::Set when);

    std::size_t nodes_;
    std::vector<std::vector<Arrow>> arrows_;
};

} // namespace curbstop::proofs
