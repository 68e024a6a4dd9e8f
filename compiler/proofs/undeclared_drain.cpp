// undeclared-drain. Claim: liquid that newly can fall from a chamber to the open is meant: a drain names both, or a
// flow names the outlet. Air inlets are not asked for: a bottle gurgles empty too. Does not show: siphons over humps.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

// EN 1717: categories 1 and 2 are drinking water and the same spoiled in taste or warmth; a puddle, no harm.
constexpr int harmless_category = 2;

class UndeclaredDrain : public Obligation {
  public:
    std::string_view slug() const override { return "undeclared-drain"; }
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    void judge(Event& event) {
        for (const DischargeState& state : event.engine.gravity()) {
            ++asked;
            Set fresh =
                event.diagrams().both(event.diagrams().without(state.now, state.before), event.engine.possible());
            if (fresh != nothing) {
                fresh = event.diagrams().without(fresh, event.coverage.of(state.key));
            }
            if (fresh == nothing) {
                continue;
            }
            Engine& engine = event.engine;
            const meaning::System& system = engine.system();
            const auto configuration = engine.knowledge().assignment(fresh);
            const Route way = route(engine, engine.gravity_reach(state.key.origin.chamber),
                                    engine.network().outlet_vertex(state.key.outlet), configuration);
            const int category = engine.contents().category(state.key.origin.chamber);
            Finding finding{.slug = slug(),
                            .severity = category > harmless_category ? text::Severity::error : text::Severity::warning,
                            .span = event.span};
            finding.message =
                fmt::format("`{}` can run empty through `{}` here, which this step does not declare",
                            origin_label(system, state.key.origin), outlet_label(system, state.key.outlet));
            finding.notes.push_back(fmt::format("the way: {}", joined(way.stations, " > ")));
            if (category > harmless_category) {
                finding.notes.push_back(fmt::format("it may hold fluid of category {} (EN 1717)", category));
            }
            add_circumstances(event, fresh, finding);
            finding.remedies.emplace_back("if it is meant, declare it with `drain … through … until stops \"…\"`");
            if (finding.severity == text::Severity::error) {
                add_or_ask(engine, event.findings, fresh, std::move(finding));
            } else {
                event.findings.add(std::move(finding));
            }
        }
    }
};

} // namespace

std::unique_ptr<Obligation> undeclared_drain() {
    return std::make_unique<UndeclaredDrain>();
}

} // namespace curbstop::proofs
