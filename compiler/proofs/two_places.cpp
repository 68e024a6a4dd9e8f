// two-places (warning). Claim: a step in which something is moved in one zone while something is watched in another
// says that a helper is needed. A part that can be worked from the zone where one watches needs none.
#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using namespace meaning;

namespace {

class TwoPlaces : public Obligation {
  public:
    std::string_view slug() const override { return "two-places"; }

    void step_begins(Event&, const instants::StepBegin&) override {
        moved_.clear();
        watched_.clear();
        helper_ = false;
    }
    void before_move(Event& event, const instants::Move& move) override {
        const System& system = event.engine.system();
        for (const Setting& setting : move.settings) {
            const Variable& variable = system[setting.variable];
            std::vector<ZoneId> zones;
            if (variable.kind == VariableKind::cover) {
                zones.push_back(std::ranges::find(system.covers, setting.variable, &Cover::variable)->place.zone);
            } else if (variable.part.valid()) {
                for (const WorkPlace& place : system[variable.part].places) {
                    zones.push_back(place.zone);
                }
            }
            if (!zones.empty()) {
                moved_.push_back({variable.label, std::move(zones)});
            }
        }
    }
    void watch(Event& event, const instants::Watch& watch) override {
        watched_.push_back({watch.statement->zone, event.span});
    }
    void helper(Event&) override { helper_ = true; }

    void step_ends(Event& event, const instants::StepEnd&) override {
        ++asked;
        if (helper_) {
            return;
        }
        const System& system = event.engine.system();
        for (const auto& [zone, span] : watched_) {
            for (const auto& [label, zones] : moved_) {
                if (std::ranges::find(zones, zone) == zones.end()) {
                    event.findings.add({.slug = slug(),
                                        .severity = text::Severity::warning,
                                        .span = span,
                                        .message = fmt::format("`{}` is moved at {}, but this is watched at {}", label,
                                                               system[zones.front()].label, system[zone].label),
                                        .notes = {"one person cannot be in both places"},
                                        .remedies = {"write `helper` in this step: the sheet will ask for one"}});
                    break;
                }
            }
        }
    }

  private:
    std::vector<std::pair<std::string, std::vector<ZoneId>>> moved_;
    std::vector<std::pair<ZoneId, text::Span>> watched_;
    bool helper_ = false;
};

} // namespace

std::unique_ptr<Obligation> two_places() {
    return std::make_unique<TwoPlaces>();
}

} // namespace curbstop::proofs
