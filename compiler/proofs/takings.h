// How much of each fluid the steps take out of the vessels that were filled with it, and how much the steps bring, by
// the rules of compiler/reference/proofs.md, *What is taken*. Listens from the start to the end of a procedure. Must
// not know: what is demanded of that, how it is told.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "proofs/obligation.h"
#include "proofs/report.h"
#include "proofs/tally.h"

namespace curbstop::proofs {

/// A step that takes something out of a vessel.
struct Taking {
    meaning::ChamberId vessel;
    std::uint32_t step = 0;
    text::Span span{};
    double volume = 0; ///< at most, m3; of all rounds of a loop
};

class Takings : public Listener {
  public:
    void start(Event& event) override;
    void step_begins(Event& event, const instants::StepBegin& step) override;
    void instant(Event& event, const instants::Move&) override;
    void until(Event& event, const meaning::Flow& flow) override;
    void pour(Event& event, const meaning::PourStatement& pour) override;
    void bring(Event& event, const meaning::BringStatement& bring) override;
    void round_ends(Event& event, const instants::RoundEnd& round) override;

    /// What is taken out of a vessel, of what it was filled with.
    const Tally& taken(meaning::ChamberId vessel) const { return taken_[vessel.value]; }
    /// Of a fluid, out of all vessels.
    Tally taken(Event& event, meaning::FluidId fluid) const;
    const std::vector<Taking>& takings() const { return takings_; }

    struct Brought {
        Tally volume;
        instants::Set left_open = instants::nothing; ///< some `bring` names no quantity
        /// Each `bring` that does, and where it is the first that acts.
        std::vector<std::pair<text::Span, instants::Set>> listed = {};
    };
    /// Null where nothing brings it.
    const Brought* brought(meaning::FluidId fluid) const;

    std::vector<FlowReport> flow_reports() const { return flows_; }
    std::vector<SupplyReport> supply_reports(Event& event) const;

  private:
    /// A vessel that brings a liquid, before anything else has come into it.
    bool counts(const meaning::System& system, meaning::ChamberId vessel) const;
    void take(Event& event, meaning::ChamberId vessel, const Tally& volume, instants::Set where);
    void take_all(Event& event, meaning::ChamberId vessel, instants::Set where);
    void note(Event& event, meaning::ChamberId vessel, double volume);
    void note_refilled(Event& event, const meaning::Flow& flow);
    void report(Event& event, const FlowReport& flow);

    /// What a round of a loop has done, to be done again.
    struct Entry {
        instants::Set where = instants::nothing;
        meaning::ChamberId vessel;
        meaning::FluidId fluid; ///< of what was brought
        std::size_t taking = 0; ///< among takings_
        double volume = 0;
    };

    std::vector<Tally> taken_, fill_, twice_;   // per chamber; the last two as SupplyReport tells them
    std::vector<instants::Set> refilled_;       // per chamber
    std::map<std::uint32_t, instants::Set> on_; // per lifting part: has filled the stores since it was last off
    std::map<std::uint32_t, Brought> brought_;  // per fluid
    std::map<std::uint32_t, std::vector<meaning::OutletId>> outlets_;
    std::vector<Taking> takings_;
    std::vector<FlowReport> flows_;
    std::vector<Entry> log_;
    std::map<std::uint32_t, std::size_t> rounds_; // per loop: where in the log its last round begins
    std::uint32_t step_ = 0;
};

} // namespace curbstop::proofs
