// guard. Claim: what a kind asks for before it is put in a position holds before each move that puts it there; what it
// asks for while it stands so holds after each event; an end is coupled, capped or dipped only while it is open. What
// trapped-pressure has told of the same move is not told again.
#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pressure_story.h"
#include "proofs/proof.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

Set broken(Event& event, const Guard& guard) {
    Engine& engine = event.engine;
    Set stands = engine.knowledge().stands(guard.variable, ValueSet{1} << guard.value);
    if (engine.diagrams().disjoint(stands, engine.possible())) {
        return nothing;
    }
    stands = engine.diagrams().both(stands, engine.knowledge().truth(engine.system()[guard.variable].exists));
    return engine.diagrams().without(stands, engine.truth(guard.needs));
}

namespace {

class GuardObligation : public Obligation {
  public:
    std::string_view slug() const override { return "guard"; }

    void start(Event& event) override {
        const System& system = event.engine.system();
        before_.resize(system.guards.size(), nothing);
        by_variable_.resize(system.variables.size());
        for (std::uint32_t i = 0; i < system.guards.size(); ++i) {
            const Guard& guard = system.guards[i];
            if (guard.kind == GuardKind::set) {
                by_variable_[guard.variable.value].push_back(i);
            } else {
                standing_.push_back(i);
                before_[i] = broken(event, guard);
            }
        }
    }

    void before_move(Event& event, const instants::Move& move) override {
        Engine& engine = event.engine;
        const System& system = engine.system();
        for (const Setting& setting : move.settings) {
            for (const std::uint32_t index : by_variable_[setting.variable.value]) {
                const Guard& guard = system.guards[index];
                if (guard.value != setting.value) {
                    continue;
                }
                ++asked;
                const Set changes = event.diagrams().without(
                    event.here(), engine.knowledge().stands(setting.variable, ValueSet{1} << setting.value));
                const Set wrong =
                    changes == nothing ? nothing : event.diagrams().without(changes, engine.truth(guard.needs));
                const bool told = asks_for_no_pressure_alone(system, guard.needs) &&
                                  event.diagrams().within(wrong, event.told_under_pressure);
                if (wrong != nothing && !told) {
                    tell(event, guard, wrong,
                         fmt::format("`{}` must not be put to `{}` here", system[guard.variable].label,
                                     system[guard.variable].values[guard.value].label));
                }
            }
        }
        if (move.kind == instants::MoveKind::couple || move.kind == instants::MoveKind::cap ||
            move.kind == instants::MoveKind::dip) {
            for (const Setting& setting : move.settings) {
                ++asked;
                const Set wrong = event.diagrams().without(
                    event.here(),
                    engine.knowledge().stands(setting.variable, ValueSet{1} | ValueSet{1} << setting.value));
                if (wrong != nothing) {
                    Finding finding{.slug = slug(), .span = event.span};
                    finding.message = fmt::format("`{}` may not be free for this", system[setting.variable].label);
                    finding.notes.emplace_back("an end is coupled, capped or dipped only while it is open");
                    add_circumstances(event, wrong, finding);
                    add_or_ask(engine, event.findings, wrong, std::move(finding));
                }
            }
        }
    }

    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    void judge(Event& event) {
        const System& system = event.engine.system();
        for (const std::uint32_t index : standing_) {
            ++asked;
            const Guard& guard = system.guards[index];
            const Set now = broken(event, guard);
            const Set fresh =
                event.diagrams().both(event.diagrams().without(now, before_[index]), event.engine.possible());
            if (fresh != nothing) {
                tell(event, guard, fresh,
                     fmt::format("`{}` must not be at `{}` here", system[guard.variable].label,
                                 system[guard.variable].values[guard.value].label));
            }
            before_[index] = now;
        }
    }

    static bool asks_for_no_pressure_alone(const System& system, ExpressionId needs) {
        std::vector<ExpressionId> pieces;
        conjuncts(system, needs, pieces);
        return std::ranges::all_of(
            pieces, [&](ExpressionId piece) { return system[piece].kind == ExpressionKind::no_pressure; });
    }

    void tell(Event& event, const Guard& guard, Set wrong, std::string message) {
        Finding finding{.slug = slug(), .span = event.span, .message = std::move(message)};
        finding.notes.push_back(guard.why);
        finding.labels.push_back({guard.span, "its kind asks for this"});
        add_circumstances(event, wrong, finding);
        add_or_ask(event.engine, event.findings, wrong, std::move(finding));
    }

    std::vector<Set> before_;
    std::vector<std::uint32_t> standing_;
    std::vector<std::vector<std::uint32_t>> by_variable_;
};

} // namespace

std::unique_ptr<Obligation> guard() {
    return std::make_unique<GuardObligation>();
}

} // namespace curbstop::proofs
