// Which moves put something where hot liquid may come to it while it stands so: what a caution `while hot` is said of.
// Errs on the hot side. A way that is open in one configuration counts as open. A chamber that was hot counts as hot,
// and so does all that it has sent liquid to, until it has cooled in every configuration and, besides, a hand has felt
// it or it has been emptied: the time that it cools in is somebody's word. Does not show: how hot, or what is carried
// away in a vessel. Must not know: cautions, what is refused.
#pragma once

#include <vector>

#include "proofs/obligation.h"
#include "proofs/report.h"

namespace curbstop::proofs {

class HotMoves : public Listener {
  public:
    explicit HotMoves(std::vector<HotMove>& found)
        : found_(found) {}

    void start(Event& event) override;
    void step_begins(Event& event, const instants::StepBegin& step) override;
    void instant(Event& event, const instants::Move& move) override;
    void contents_changed(Event& event) override { look(event); }
    void verify(Event& event, const instants::Verify& verify) override;

  private:
    /// Something that was put so, and may stand so still.
    struct Standing {
        HotMove move;
        bool met = false; ///< something hot has come to it: there is nothing left to ask
    };

    /// Where liquid of a chamber goes on from there; of `anyhow` as it would with everything open.
    void spread(const Network& network, std::vector<Vertex> from, std::vector<char>& hot, bool anyhow) const;
    /// A chamber that may be hot, and the vertices where its liquid may stand, hot.
    struct Hot {
        bool itself = false;
        bool felt_cool = false;
        std::vector<char> at;
    };

    void look(Event& event, bool at_start = false);
    void look(Event& event, Hot& hot, const HeatedChamber& chamber, bool at_start) const;
    bool is_hot(Event& event, meaning::VariableId variable) const;

    std::vector<HotMove>& found_;
    const meaning::Step* step_ = nullptr;
    std::vector<Hot> hot_; // per heated chamber
    std::vector<Standing> standing_;
};

} // namespace curbstop::proofs
