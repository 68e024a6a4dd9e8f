// dry-run. Claim: while a lifting part is on, what it draws is liquid and never air, unless its kind may run dry.
// Judged where it is new. Does not show: how long a suction line takes to run empty.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

class DryRun : public NewlyWrong {
  public:
    std::string_view slug() const override { return "dry-run"; }

  private:
    Set wrong(Event& event, const SourceState& source) override {
        const meaning::System& system = event.engine.system();
        if (!source.draw || !source.possibly_on || system[system[source.id].part].may_run_dry) {
            return nothing;
        }
        const Set dry =
            event.diagrams().either(event.engine.draws_air(*source.draw),
                                    event.diagrams().complement(event.engine.draws_something(*source.draw)));
        return event.diagrams().both(source.on, dry);
    }
    void tell(Event& event, const SourceState& source, Set fresh) override {
        Engine& engine = event.engine;
        const meaning::System& system = engine.system();
        Finding finding{.slug = slug(), .span = event.span};
        const Set air = event.diagrams().both(fresh, engine.draws_air(*source.draw));
        const Set example = air != nothing ? air : fresh;
        const auto configuration = engine.knowledge().assignment(example);
        if (air == nothing) {
            finding.message = fmt::format("`{}` runs, but draws on nothing", system[source.id].label);
        } else if (event.diagrams().contains(source.draw->exact(engine.network().air(), engine.knowledge()),
                                             configuration)) {
            finding.message = fmt::format("`{}` runs and draws air", system[source.id].label);
            const Route way = route(engine, *source.draw, engine.network().air(), configuration);
            if (!way.stations.empty()) {
                finding.notes.push_back(
                    fmt::format("air comes in this way, from the pump outwards: {}", joined(way.stations, " < ")));
            }
        } else {
            finding.message =
                fmt::format("`{}` runs and may draw air: what it draws on may be empty", system[source.id].label);
            for (const Vertex vertex : source.draw->marks()) {
                if (const auto chamber = engine.network().chamber_at_out(vertex);
                    chamber.valid() &&
                    !event.diagrams().contains(engine.contents().surely_holds(chamber), configuration)) {
                    finding.notes.push_back(
                        fmt::format("nothing says that `{}` holds liquid here", system[chamber].label));
                }
            }
        }
        add_circumstances(event, example, finding);
        add_or_ask(engine, event.findings, fresh, std::move(finding));
    }
};

} // namespace

std::unique_ptr<Obligation> dry_run() {
    return std::make_unique<DryRun>();
}

} // namespace curbstop::proofs
