// The obligations, and what several of them share. Must not know: what the sheet shows.
#pragma once

#include <map>

#include "proofs/obligation.h"

namespace curbstop::proofs {

/// Something that is wrong with a running source, judged after each event where it was not wrong before.
class NewlyWrong : public Obligation {
  public:
    void start(Event& event) override;
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    virtual instants::Set wrong(Event& event, const SourceState& source) = 0;
    virtual void tell(Event& event, const SourceState& source, instants::Set fresh) = 0;
    void judge(Event& event);
    std::vector<instants::Set> before_; // per source of the engine
};

/// Where the part stands as a `guard while` says and does not have what it needs (guard.cpp).
instants::Set broken(Event& event, const meaning::Guard& guard);

/// Adds to the finding in which of the configurations it is so.
void add_circumstances(Event& event, instants::Set wrong, Finding& finding);

/// Where what leaves the outlet lands in a configuration: the vessel placed there, else what lies below.
std::string landing(Engine& engine, const meaning::Outlet& outlet, const std::vector<bool>& configuration);

/// Of the system as a whole (unused_part.cpp).
void find_unused(const meaning::System& system, Findings& findings);

std::unique_ptr<Obligation> open_path();
std::unique_ptr<Obligation> needs_verify();
std::unique_ptr<Obligation> blocked_flow();
std::unique_ptr<Obligation> left_running();
std::unique_ptr<Obligation> undeclared_drain();
std::unique_ptr<Obligation> dead_head();
std::unique_ptr<Obligation> dry_run();
std::unique_ptr<Obligation> over_pressure();
std::unique_ptr<Obligation> dry_fire();
std::unique_ptr<Obligation> scald();
std::unique_ptr<Obligation> trapped_pressure();
std::unique_ptr<Obligation> guard();
std::unique_ptr<Obligation> out_of_reach();
std::unique_ptr<Obligation> two_places();
std::unique_ptr<Obligation> unmet_requires();
std::unique_ptr<Obligation> unmet_ensures();
std::unique_ptr<Obligation> never_true();
std::unique_ptr<Obligation> no_effect();
std::unique_ptr<Obligation> never_flushed();
std::unique_ptr<Obligation> wrong_place();
std::unique_ptr<Obligation> overfill();
std::unique_ptr<Obligation> short_supply();
std::unique_ptr<Obligation> backflow();

} // namespace curbstop::proofs
