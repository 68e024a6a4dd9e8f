// What an obligation is: something asked at the events of a procedure. Each has a file of its own, named by its slug.
// Must not know: which obligations there are.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "proofs/coverage.h"
#include "proofs/engine.h"
#include "proofs/story.h"
#include "text/diagnostic.h"

namespace curbstop::proofs {

/// What an obligation can see and do at an event.
struct Event {
    Engine& engine;
    Coverage& coverage;
    Findings& findings;
    const meaning::Procedure& procedure;
    const instants::Program& program;
    std::size_t operation = 0;                 ///< index of what is being done
    instants::Set when = instants::everything; ///< where it is done; within possible() nothing else need be asked
    text::Span span{};                         ///< of the statement
    const meaning::Model* model = nullptr;     ///< all that was declared; to prove something else for a remedy
    /// Of the move that is about to be made: where it opens something that is under pressure, which has been told.
    instants::Set told_under_pressure = instants::nothing;

    instants::Diagrams& diagrams() const { return engine.diagrams(); }
    /// Where it is done and possible.
    instants::Set here() const { return engine.diagrams().both(when, engine.possible()); }
};

/// Something that is told of every event of a procedure.
class Listener {
  public:
    virtual ~Listener() = default;
    virtual void start(Event&) {}
    virtual void step_begins(Event&, const instants::StepBegin&) {}
    virtual void step_ends(Event&, const instants::StepEnd&) {}
    virtual void before_move(Event&, const instants::Move&) {}
    /// After a move.
    virtual void instant(Event&, const instants::Move&) {}
    /// After contents have changed: an `until` or a vessel poured.
    virtual void contents_changed(Event&) {}
    virtual void verify(Event&, const instants::Verify&) {}
    virtual void check(Event&, const instants::Check&) {}
    /// At the `until` of a flow or drain, before contents change.
    virtual void until(Event&, const meaning::Flow&) {}
    /// A vessel is about to be emptied.
    virtual void pour(Event&, const meaning::PourStatement&) {}
    virtual void keep(Event&, const meaning::Flow&) {}
    virtual void meanwhile(Event&, const meaning::Flow&) {}
    virtual void pressurise(Event&, const meaning::PressuriseStatement&) {}
    virtual void bring(Event&, const meaning::BringStatement&) {}
    virtual void watch(Event&, const instants::Watch&) {}
    virtual void helper(Event&) {}
    /// A round of a loop is done, before what may be after any of them is joined.
    virtual void round_ends(Event&, const instants::RoundEnd&) {}
    virtual void end(Event&) {}
};

class Obligation : public Listener {
  public:
    virtual std::string_view slug() const = 0;
    std::uint64_t asked = 0; ///< how often, for the report
};

/// Every obligation, in the order of the reference.
std::vector<std::unique_ptr<Obligation>> all_obligations();

} // namespace curbstop::proofs
