// short-supply. Claim: what the steps bring of a fluid covers what is taken of it out of the vessels that are filled
// with it, in every variant, and no vessel gives more than it holds. Does not show: that nothing is spilt, or what
// squeezes into dead ends.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/takings.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

/// So many steps are told, those that take most.
constexpr std::size_t most_told = 3;

std::string litres(double volume) {
    return volume < 0.0999e-3 ? fmt::format("{:.0f} mL", volume * 1e6) : fmt::format("{:.4g} L", volume * 1000);
}

// What one writes for at least so much: whole litres, or tenths of little.
std::string enough(double volume) {
    const double each = volume > 2e-3 ? 1 : 10;
    return fmt::format("{:g} L", std::ceil(volume * 1000 * each - 1e-9) / each);
}

class ShortSupply : public Obligation {
  public:
    std::string_view slug() const override { return "short-supply"; }
    void start(Event& event) override {
        takings_.start(event);
        told_.assign(event.engine.system().chambers.size(), false);
    }
    void step_begins(Event& event, const instants::StepBegin& step) override { takings_.step_begins(event, step); }
    void instant(Event& event, const instants::Move& move) override { takings_.instant(event, move); }
    void bring(Event& event, const BringStatement& bring) override { takings_.bring(event, bring); }
    void until(Event& event, const Flow& flow) override {
        takings_.until(event, flow);
        judge_vessels(event);
    }
    void pour(Event& event, const PourStatement& pour) override {
        takings_.pour(event, pour);
        judge_vessels(event);
    }
    void round_ends(Event& event, const instants::RoundEnd& round) override {
        takings_.round_ends(event, round);
        judge_vessels(event);
    }

    void end(Event& event) override {
        const System& system = event.engine.system();
        for (std::uint32_t i = 0; i < system.fluids.size(); ++i) {
            const Takings::Brought* brought = takings_.brought(FluidId(i));
            if (brought == nullptr) {
                continue; // nothing is said: the sheet says how much
            }
            ++asked;
            const Tally taken = takings_.taken(event, FluidId(i));
            for (const auto& [span, listed] : brought->listed) {
                judge_brought(event, FluidId(i), *brought, taken, span, listed);
            }
        }
    }

  private:
    void judge_vessels(Event& event) {
        const System& system = event.engine.system();
        for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
            const Chamber& vessel = system.chambers[i];
            if (!vessel.vessel || !vessel.fluid.valid() || told_[i]) {
                continue;
            }
            ++asked;
            const double holds = to_double(*vessel.volume, Unit::m3);
            const Tally& taken = takings_.taken(ChamberId(i));
            const Set wrong = event.diagrams().both(taken.above(event.diagrams(), holds), event.engine.possible());
            if (wrong == nothing) {
                continue;
            }
            told_[i] = true;
            const double needs = taken.most(event.diagrams(), wrong);
            Finding finding{.slug = slug(), .span = event.span};
            finding.message =
                fmt::format("`{}` runs empty: it holds {}, and up to here {} are taken out of it, {} more",
                            vessel.label, litres(holds), litres(needs), litres(needs - holds));
            tell_steps(event, finding, [&](ChamberId each) { return each == ChamberId(i); });
            add_circumstances(event, wrong, finding);
            finding.remedies.push_back(fmt::format("take a vessel of {}, or a second one: `vessel {} … {} …`",
                                                   enough(needs), vessel.name, enough(needs)));
            event.findings.add(std::move(finding));
        }
    }

    // Where this `bring` is the first of its fluid.
    void judge_brought(Event& event, FluidId fluid, const Takings::Brought& brought, const Tally& taken,
                       text::Span span, Set listed) {
        instants::Diagrams& sets = event.diagrams();
        const Set judged = sets.without(sets.both(event.engine.possible(), listed), brought.left_open);
        Set wrong = nothing;
        double needs = 0;
        double has = 0;
        for (const Tally::Piece& piece : brought.volume.pieces()) {
            const Set there = sets.both(judged, sets.both(piece.where, taken.above(sets, piece.volume)));
            if (there == nothing) {
                continue;
            }
            if (const double most = taken.most(sets, there); most - piece.volume > needs - has) {
                needs = most;
                has = piece.volume;
            }
            wrong = sets.either(wrong, there);
        }
        if (wrong != nothing) {
            tell_brought(event, fluid, span, needs, has, wrong);
        }
    }

    void tell_brought(Event& event, FluidId fluid, text::Span span, double needs, double has, Set wrong) {
        const System& system = event.engine.system();
        Finding finding{.slug = slug(), .span = span};
        finding.message = fmt::format("too little {} is brought: {} are needed, {} are listed, {} are missing",
                                      system[fluid].label, litres(needs), litres(has), litres(needs - has));
        tell_steps(event, finding, [&](ChamberId vessel) { return system[vessel].fluid == fluid; });
        add_circumstances(event, wrong, finding);
        finding.remedies.push_back(fmt::format("`bring {} {}`, or `bring {}` and the sheet says how much",
                                               enough(needs), system[fluid].name, system[fluid].name));
        event.findings.add(std::move(finding));
    }

    template <typename IsMeant>
    void tell_steps(Event& event, Finding& finding, const IsMeant& is_meant) {
        std::vector<Taking> steps;
        for (const Taking& taking : takings_.takings()) {
            if (!is_meant(taking.vessel)) {
                continue;
            }
            const auto known = std::ranges::find_if(steps, [&](const Taking& one) { return one.step == taking.step; });
            if (known == steps.end()) {
                steps.push_back(taking);
            } else {
                known->volume += taking.volume;
            }
        }
        std::ranges::stable_sort(steps, [](const Taking& a, const Taking& b) { return a.volume > b.volume; });
        for (std::size_t i = 0; i < std::min(steps.size(), most_told); ++i) {
            finding.notes.push_back(fmt::format("{} takes {} out of `{}`", step_text(event.program, steps[i].step),
                                                litres(steps[i].volume), event.engine.system()[steps[i].vessel].label));
        }
    }

    Takings takings_;
    std::vector<bool> told_;
};

} // namespace

std::unique_ptr<Obligation> short_supply() {
    return std::make_unique<ShortSupply>();
}

} // namespace curbstop::proofs
