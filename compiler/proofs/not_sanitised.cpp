// not-sanitised. Claim: where `sanitised` is said, every pocket of the drinking-water system that is not left out has
// stood full of a disinfectant, as strong as was read, for as long as that strength needs, and nothing has spoilt it
// since.
#include <fmt/format.h>

#include "meaning/quantity_text.h"
#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/promises.h"
#include "proofs/remedy.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

namespace {

/// So many pockets are named for each cause; the rest are counted.
constexpr std::size_t most_named = 4;

/// Why a pocket is not disinfected, and what would mend it. The gravest comes first.
struct Why {
    std::string text;
    std::string remedy;
};

std::string time_text(double seconds) {
    return format_quantity(Quantity{Dimension::time, Rational(static_cast<std::int64_t>(seconds))}, UnitSystem::metric);
}

std::string strength_text(double part) {
    return fmt::format("{:.3g} mg/L", part * 1e6);
}

Why why(Event& event, const Bounds& bounds, std::span<const Dose> doses) {
    const Hygiene& hygiene = bounds.hygiene;
    const std::string in = step_text(event.program, hygiene.lost_in);
    switch (hygiene.loss) {
    case Loss::opened:
        return {fmt::format("opened in {}, and not disinfected since", in),
                "open it before the solution is drawn, or leave the part out if it is put in clean: `except …`"};
    case Loss::spoilt:
        return {fmt::format("water that is not disinfected came in in {}", in),
                "disinfect, or rinse until it is clear, what that water comes through"};
    case Loss::weakened:
        if (hygiene.reading <= 0) {
            return {fmt::format("the solution was thinned in {} before its time was over", in),
                    "let nothing in until the time is over"};
        }
        break;
    case Loss::none:
        break;
    }
    if (hygiene.reading <= 0) {
        return {"no reading was taken behind it",
                "draw the solution through it until a strip reads enough: `flow … until reads at least … \"…\"`; that "
                "it shows is no reading"};
    }
    if (hygiene.reading < doses.front().concentration) {
        return {fmt::format("read at {}, which is less than any strength that disinfects ({})",
                            strength_text(hygiene.reading), strength_text(doses.front().concentration)),
                "make the solution stronger"};
    }
    if (!stands_full(bounds)) {
        return {"not surely full, so that the solution does not wet all of it", "fill it to its top first"};
    }
    // The line that comes true first.
    std::size_t best = 0;
    const auto left = [&](std::size_t i) {
        return doses[i].time - (i < hygiene.stood.size() ? hygiene.stood[i] : 0.0);
    };
    for (std::size_t i = 1; i < doses.size(); ++i) {
        best = hygiene.reading >= doses[i].concentration && left(i) < left(best) ? i : best;
    }
    return {fmt::format("at {} it must stand for {}, and has for {}: {} short",
                        strength_text(doses[best].concentration), time_text(doses[best].time),
                        time_text(doses[best].time - left(best)), time_text(left(best))),
            fmt::format("wait {} longer before anything else comes in", time_text(left(best)))};
}

struct Told {
    Why why;
    std::vector<std::string> pockets;
};

} // namespace

void judge_not_sanitised(Event& event, const Expression& claim) {
    Engine& engine = event.engine;
    const Inventory& inventory = engine.transport().inventory();
    Finding finding{.slug = "not-sanitised", .span = event.span};
    Set where = instants::nothing;
    std::size_t count = 0;
    std::vector<Told> causes;
    std::vector<Shortfall> left = not_sanitised(engine, claim);
    for (Shortfall& pocket : left) {
        pocket.where = event.diagrams().both(pocket.where, event.here());
        if (pocket.where == instants::nothing) {
            continue;
        }
        ++count;
        where = event.diagrams().either(where, pocket.where);
        for (const Piece& piece : inventory.pieces(pocket.pocket)) {
            if (piece.bounds.hygiene.sanitised || event.diagrams().disjoint(piece.where, pocket.where)) {
                continue;
            }
            Why reason = why(event, piece.bounds, inventory.liquids().doses(piece.bounds.hygiene.agent));
            auto known = std::ranges::find(causes, reason.text, [](const Told& told) { return told.why.text; });
            if (known == causes.end()) {
                causes.push_back({std::move(reason), {}});
                known = std::prev(causes.end());
            }
            known->pockets.push_back(pocket_label(engine.system(), engine.transport().pockets()[pocket.pocket]));
            break;
        }
    }
    if (count == 0) {
        return;
    }
    finding.message = fmt::format("{} of the drinking water may not be disinfected",
                                  count == 1 ? "a pocket" : fmt::format("{} pockets", count));
    for (const Told& told : causes) {
        std::string note = told.why.text + ":";
        for (std::size_t i = 0; i < told.pockets.size() && i < most_named; ++i) {
            note += (i == 0 ? " " : "; ") + told.pockets[i];
        }
        if (told.pockets.size() > most_named) {
            note += fmt::format("; and {} more", told.pockets.size() - most_named);
        }
        finding.notes.push_back(std::move(note));
    }
    add_circumstances(event, where, finding);
    finding.remedies = flows_that_clear(event, claim, left, not_sanitised, [](const Flow& flow) {
        return flow.until->kind == ObservationKind::reads_at_least && flow.until->least &&
               flow.until->least->dimension == Dimension::concentration;
    });
    for (const Told& told : causes) {
        if (finding.remedies.empty() || told.why.text.starts_with("at ")) {
            finding.remedies.push_back(told.why.remedy);
        }
    }
    event.findings.add(std::move(finding));
}

} // namespace curbstop::proofs
