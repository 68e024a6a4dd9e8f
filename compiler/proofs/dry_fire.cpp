// dry-fire. Claim: a heat source is on only while its chamber surely holds liquid: judged where it is newly on over
// what may be empty, and where what it heats is newly empty. Where a guard of its own kind is broken by the same event,
// that one tells it. Does not show: that the liquid covers the element, or what a thermostat does.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

class DryFire : public Obligation {
  public:
    std::string_view slug() const override { return "dry-fire"; }

    void start(Event& event) override {
        const System& system = event.engine.system();
        for (const HeatedChamber& chamber : event.engine.heat().chambers()) {
            for (const meaning::SourceId source : chamber.sources) {
                Watched watched{.source = source, .chamber = chamber.chamber};
                for (const Guard& guard : system.guards) {
                    if (guard.kind == GuardKind::while_standing &&
                        guard.variable == system[system[source].part].variable) {
                        watched.guards.push_back({&guard, broken(event, guard)});
                    }
                }
                watched_.push_back(std::move(watched));
                watched_.back().before = look(event, watched_.back());
            }
        }
    }
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    struct Dry {
        Set may_be = nothing; ///< on, and nothing shows that there is liquid
        Set is = nothing;     ///< on, and there is none
    };
    struct Watched {
        meaning::SourceId source;
        ChamberId chamber;
        std::vector<std::pair<const Guard*, Set>> guards = {}; ///< of its own part, and where each was broken
        Dry before = {};
    };

    static Dry look(Event& event, const Watched& watched) {
        const Contents& contents = event.engine.contents();
        const Set on = event.engine.heat().on(watched.source);
        return {event.diagrams().without(on, contents.surely_holds(watched.chamber)),
                event.diagrams().without(on, contents.may_hold(watched.chamber))};
    }

    void judge(Event& event) {
        instants::Diagrams& sets = event.diagrams();
        for (Watched& watched : watched_) {
            ++asked;
            const Dry now = look(event, watched);
            Set fresh =
                sets.either(sets.without(now.may_be, watched.before.may_be), sets.without(now.is, watched.before.is));
            fresh = sets.both(fresh, event.engine.possible());
            watched.before = now;
            for (auto& [guard, was_broken] : watched.guards) {
                const Set is_broken = broken(event, *guard);
                fresh = sets.without(fresh, sets.without(is_broken, was_broken));
                was_broken = is_broken;
            }
            if (fresh != nothing) {
                tell(event, watched, now, fresh);
            }
        }
    }

    void tell(Event& event, const Watched& watched, const Dry& now, Set fresh) const {
        Engine& engine = event.engine;
        const System& system = engine.system();
        const Set empty = event.diagrams().both(fresh, now.is);
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = empty != nothing ? fmt::format("`{}` heats, and `{}` is empty", system[watched.source].label,
                                                         system[watched.chamber].label)
                                           : fmt::format("`{}` heats, and nothing shows that `{}` holds liquid",
                                                         system[watched.source].label, system[watched.chamber].label);
        finding.notes.emplace_back("without liquid an element burns out in seconds, and a burner splits what it heats");
        add_circumstances(event, empty != nothing ? empty : fresh, finding);
        finding.remedies.push_back(
            fmt::format("fill `{}` first (`flow … to … until full`), or look: `verify {} holds …`",
                        system[watched.chamber].label, system[watched.chamber].name));
        add_or_ask(engine, event.findings, fresh, std::move(finding));
    }

    std::vector<Watched> watched_;
};

} // namespace

std::unique_ptr<Obligation> dry_fire() {
    return std::make_unique<DryFire>();
}

} // namespace curbstop::proofs
