// overfill. Claim: no vessel and no chamber that stands open above is brought more than it has room for, by what may be
// in it and what a step can bring. Does not show: that what stands before a pump lasts, or how high anything splashes.
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

std::string litres(double volume) {
    return fmt::format("{:.4g} L", volume * 1000);
}

class Overfill : public Obligation {
  public:
    std::string_view slug() const override { return "overfill"; }
    void start(Event& event) override { event.engine.transport().take_too_much(); } // nothing is new at the start
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

    void round_ends(Event& event, const instants::RoundEnd& round) override {
        std::vector<std::vector<Piece>>& found = found_[round.repeat];
        if (round.last && round.more) {
            judge_rounds(event, found, round.left);
        }
        found.clear();
        if (!round.last) {
            for (PocketIndex i = 0; i < event.engine.transport().pockets().size(); ++i) {
                found.push_back(judged(event, i) ? event.engine.transport().inventory().pieces(i)
                                                 : std::vector<Piece>());
            }
        }
    }

  private:
    static bool judged(Event& event, PocketIndex index) {
        const Pocket& pocket = event.engine.transport().pockets()[index];
        return !pocket.runs_out && pocket.is_open_above() && pocket.volume;
    }

    void judge(Event& event) {
        ++asked;
        for (const TooMuch& much : event.engine.transport().take_too_much()) {
            const Set where = event.diagrams().both(much.where, event.engine.possible());
            if (where != nothing) {
                tell(event, much, where);
            }
        }
    }

    // What a round has left more than it found, every round that is not followed leaves as well.
    void judge_rounds(Event& event, const std::vector<std::vector<Piece>>& found, std::uint32_t left) {
        Engine& engine = event.engine;
        for (PocketIndex i = 0; i < found.size(); ++i) {
            if (!judged(event, i)) {
                continue;
            }
            ++asked;
            const double size = *engine.transport().pockets()[i].volume;
            for (const Piece& was : found[i]) {
                for (const Piece& now : engine.transport().inventory().pieces(i)) {
                    const double comes = (was.bounds.gas.part - now.bounds.gas.part) * size * left;
                    const double room = now.bounds.gas.part * size;
                    Set where = event.diagrams().both(was.where, now.where);
                    if (comes <= room + 1e-9 || event.diagrams().disjoint(where, event.here())) {
                        continue;
                    }
                    where = event.diagrams().both(where, event.here());
                    const ChamberId chamber(engine.transport().pockets()[i].index);
                    tell(event, {chamber, comes, room, where, now.cause, CauseKind::flow}, where, left);
                }
            }
        }
    }

    void tell(Event& event, const TooMuch& much, Set where, std::uint32_t rounds = 0) {
        Engine& engine = event.engine;
        const System& system = engine.system();
        const Chamber& chamber = system[much.chamber];
        const PocketIndex pocket = engine.transport().pockets().of_chamber(much.chamber);
        const double size = engine.transport().pockets()[pocket].volume.value_or(0);
        Finding finding{.slug = slug(), .span = event.span};
        const std::string label = fmt::format("`{}`", pocket_label(system, engine.transport().pockets()[pocket]));
        const bool any = much.volume >= unlimited;
        finding.message =
            fmt::format("{} may run over: it has room for {}, and {}", label, litres(much.room),
                        any           ? "nothing says how much more comes in here"
                        : rounds != 0 ? fmt::format("{} more rounds may bring {}", rounds, litres(much.volume))
                                      : fmt::format("{} may come in here", litres(much.volume)));
        if (much.room < size) {
            finding.notes.push_back(
                fmt::format("it may hold {} already, {}", litres(size - much.room),
                            much.was.step == 0 ? "since the start"
                                               : fmt::format("since {}", step_text(event.program, much.was.step))));
        }
        add_circumstances(event, where, finding);
        if (rounds != 0) {
            finding.remedies.push_back("let fewer rounds do, or empty it in each of them");
        } else if (much.kind != CauseKind::poured && much.room > 0) {
            finding.remedies.push_back(fmt::format("say `at most {}`, if no more than that comes", litres(much.room)));
        }
        if (!any && rounds == 0 && size > 0 && much.volume > size) {
            finding.remedies.push_back(fmt::format("`repeat … at most {:.0f} times {{ … }}`, emptying it each time",
                                                   std::ceil(much.volume / size)));
        }
        if (much.room < size && rounds == 0) {
            finding.remedies.push_back(chamber.vessel ? "pour it out first" : "let it run out first");
        }
        event.findings.add(std::move(finding));
    }

    std::map<std::uint32_t, std::vector<std::vector<Piece>>> found_; // per loop: as the last round found it
};

} // namespace

std::unique_ptr<Obligation> overfill() {
    return std::make_unique<Overfill>();
}

} // namespace curbstop::proofs
