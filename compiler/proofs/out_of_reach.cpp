// out-of-reach. Claim: whatever is moved, looked at or watched can be got at from at least one of its places: every
// cover there is open, and every cover that lies over one of those.
#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

constexpr ValueSet open_cover = 0b10; // covers: shut, open

class OutOfReach : public Obligation {
  public:
    std::string_view slug() const override { return "out-of-reach"; }

    void before_move(Event& event, const instants::Move& move) override {
        for (const Setting& setting : move.settings) {
            judge(event, setting.variable, "moved");
        }
    }
    void verify(Event& event, const instants::Verify& verify) override {
        for (const VariableId variable : verify.statement->looked_at) {
            judge(event, variable, "looked at");
        }
    }
    void watch(Event& event, const instants::Watch& watch) override {
        if (watch.statement->part.valid()) {
            judge_places(event, event.engine.system()[watch.statement->part].places,
                         event.engine.system()[watch.statement->part].label,
                         event.engine.system()[watch.statement->part].exists, "watched");
        }
    }

  private:
    void judge(Event& event, VariableId id, std::string_view what) {
        const System& system = event.engine.system();
        const Variable& variable = system[id];
        switch (variable.kind) {
        case VariableKind::cover: {
            const auto cover = std::ranges::find(system.covers, id, &Cover::variable);
            judge_places(event, {cover->place}, variable.label, variable.exists, what);
            return;
        }
        case VariableKind::vessel:
            return;
        case VariableKind::position:
        case VariableKind::end:
        case VariableKind::dial:
            if (variable.part.valid()) {
                judge_places(event, system[variable.part].places, variable.label, variable.exists, what);
            }
            return;
        }
    }

    Set uncovered(Event& event, const std::vector<VariableId>& covers, std::vector<VariableId>& above) {
        const System& system = event.engine.system();
        Set free = everything;
        for (const VariableId cover : covers) {
            if (std::ranges::find(above, cover) != above.end()) {
                continue; // covers that lie over each other in a circle
            }
            above.push_back(cover);
            free = event.diagrams().both(free, event.engine.knowledge().stands(cover, open_cover));
            const auto declared = std::ranges::find(system.covers, cover, &Cover::variable);
            free = event.diagrams().both(free, uncovered(event, declared->place.covers, above));
            above.pop_back();
        }
        return free;
    }

    void judge_places(Event& event, const std::vector<WorkPlace>& places, const std::string& label, ExpressionId exists,
                      std::string_view what) {
        ++asked;
        if (places.empty()) {
            return;
        }
        Set within_reach = nothing;
        std::vector<VariableId> above;
        for (const WorkPlace& place : places) {
            within_reach = event.diagrams().either(within_reach, uncovered(event, place.covers, above));
        }
        Set wrong = event.diagrams().without(event.here(), within_reach);
        wrong = event.diagrams().both(wrong, event.engine.knowledge().truth(exists));
        if (wrong == nothing) {
            return;
        }
        const System& system = event.engine.system();
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` cannot be {} here: it is behind a cover that may be shut", label, what);
        std::vector<std::string> covers;
        for (const WorkPlace& place : places) {
            for (const VariableId cover : place.covers) {
                if (!event.diagrams().within(event.engine.possible(),
                                             event.engine.knowledge().stands(cover, open_cover))) {
                    covers.push_back(fmt::format("`{}`", system[cover].label));
                    finding.remedies.push_back(fmt::format("open it first: `set {} to open`", system[cover].name));
                }
            }
        }
        if (!covers.empty()) {
            finding.notes.push_back(fmt::format("not known to be open: {}", joined(covers, ", ")));
        }
        add_circumstances(event, wrong, finding);
        event.findings.add(std::move(finding));
    }
};

} // namespace

std::unique_ptr<Obligation> out_of_reach() {
    return std::make_unique<OutOfReach>();
}

} // namespace curbstop::proofs
