#include "proofs/obligations.h"

#include <fmt/format.h>

namespace curbstop::proofs {

void NewlyWrong::start(Event& event) {
    for (const SourceState& source : event.engine.sources()) {
        before_.push_back(wrong(event, source));
    }
}

void NewlyWrong::judge(Event& event) {
    const std::vector<SourceState>& sources = event.engine.sources();
    for (std::size_t i = 0; i < sources.size(); ++i) {
        const instants::Set now = wrong(event, sources[i]);
        ++asked;
        const instants::Set fresh =
            event.diagrams().both(event.diagrams().without(now, before_[i]), event.engine.possible());
        if (fresh != instants::nothing) {
            tell(event, sources[i], fresh);
        }
        before_[i] = now;
    }
}

void add_circumstances(Event& event, instants::Set wrong, Finding& finding) {
    const std::vector<std::string> when = circumstances(event.engine, wrong);
    if (!when.empty()) {
        finding.notes.push_back(fmt::format("this is so {}", joined(when, ", ")));
    }
}

std::vector<std::unique_ptr<Obligation>> all_obligations() {
    std::vector<std::unique_ptr<Obligation>> all;
    all.push_back(open_path());
    all.push_back(needs_verify());
    all.push_back(blocked_flow());
    all.push_back(left_running());
    all.push_back(undeclared_drain());
    all.push_back(dead_head());
    all.push_back(dry_run());
    all.push_back(over_pressure());
    all.push_back(dry_fire());
    all.push_back(scald());
    all.push_back(trapped_pressure()); // before the guards: what it tells they need not tell again
    all.push_back(guard());
    all.push_back(out_of_reach());
    all.push_back(two_places());
    all.push_back(unmet_requires());
    all.push_back(unmet_ensures());
    all.push_back(never_true());
    all.push_back(no_effect());
    all.push_back(never_flushed());
    all.push_back(wrong_place());
    all.push_back(overfill());
    all.push_back(short_supply());
    all.push_back(backflow());
    return all;
}

} // namespace curbstop::proofs
