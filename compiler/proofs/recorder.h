// Writes down what is known after each step, for the sheet, the trace and JSON. Judges nothing.
#pragma once

#include "proofs/obligation.h"
#include "proofs/report.h"

namespace curbstop::proofs {

class Recorder : public Listener {
  public:
    explicit Recorder(std::vector<StepReport>& steps)
        : steps_(steps) {}

    void start(Event& event) override;
    void step_begins(Event& event, const instants::StepBegin& step) override;
    void step_ends(Event& event, const instants::StepEnd& end) override;
    void before_move(Event& event, const instants::Move& move) override;
    void instant(Event& event, const instants::Move& move) override;
    void watch(Event& event, const instants::Watch& watch) override;
    void helper(Event&) override { now_.helper = true; }

  private:
    void look(Event& event);
    void look_at_contents(Event& event);
    HeldBack held_back(Event& event, const SourceState& source, instants::Set was_on);
    void add_zone(meaning::ZoneId zone);

    std::vector<StepReport>& steps_;
    StepReport now_;
    std::vector<instants::Set> was_on_; // per source of the engine: where it was on during the step
    std::vector<char> leads_out_;       // per vertex: something open to the air could be reached if all stood open
};

} // namespace curbstop::proofs
