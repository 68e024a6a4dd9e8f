#include "proofs/contracts.h"

#include <bit>

#include <fmt/format.h>

#include "proofs/cooling.h"
#include "proofs/pressure_story.h"
#include "proofs/promises.h"
#include "proofs/proof.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// The pieces of a conjunction that do not hold.
void failing(Event& event, ExpressionId expression, std::vector<ExpressionId>& found) {
    const Expression& node = event.engine.system()[expression];
    if (node.kind == ExpressionKind::all) {
        for (const ExpressionId operand : node.operands) {
            failing(event, operand, found);
        }
    } else if (!event.diagrams().within(event.here(), event.engine.truth(expression))) {
        found.push_back(expression);
    }
}

std::string fact(Event& event, const Expression& expression, const std::vector<bool>& configuration) {
    const System& system = event.engine.system();
    switch (expression.kind) {
    case ExpressionKind::stands: {
        const Variable& variable = system[expression.variable];
        const auto value = event.engine.knowledge().value_in(expression.variable, configuration);
        std::string wanted;
        for (std::size_t i = 0; i < variable.values.size(); ++i) {
            if ((expression.values >> i & 1) != 0 && std::popcount(expression.values) == 1) {
                wanted = fmt::format(", not {}", variable.values[i].label);
            }
        }
        return fmt::format("`{}` may stand {}{}", variable.label, variable.values[value].label, wanted);
    }
    case ExpressionKind::no_pressure: {
        const NodeId node = expression.node.valid() ? expression.node : event.engine.charge().somewhere(configuration);
        std::string words = fmt::format("`{}` may be under pressure", system[node].label);
        if (const auto how = how_charged(event, node, configuration); !how.empty()) {
            words += ": " + how.front();
        }
        return words;
    }
    case ExpressionKind::pressure_below:
        return fmt::format("the pressure at `{}` may be greater", system[expression.node].label);
    case ExpressionKind::holds:
        return fmt::format("nothing shows that `{}` holds {}", system[expression.chamber].label,
                           expression.fluid.valid() ? system[expression.fluid].label : "liquid");
    case ExpressionKind::empty:
        return fmt::format("`{}` may still hold something", system[expression.chamber].label);
    case ExpressionKind::reaches_liquid:
        return fmt::format("what is drawn at `{}` may be air, or nothing", system[expression.node].label);
    case ExpressionKind::cool:
        return fmt::format("`{}` may still be hot: {}", system[expression.chamber].label,
                           how_long_waited(event.engine, expression.chamber, configuration));
    case ExpressionKind::always:
    case ExpressionKind::never:
    case ExpressionKind::all:
    case ExpressionKind::any:
    case ExpressionKind::negation:
    case ExpressionKind::option:
    case ExpressionKind::branch:
    case ExpressionKind::frost_safe:
    case ExpressionKind::drinkable:
    case ExpressionKind::sanitised:
    case ExpressionKind::restored:
        break;
    }
    return {};
}

/// So many failing pieces are told one by one.
constexpr std::size_t most_told = 5;

} // namespace

void judge_contract(Event& event, std::string_view slug, ExpressionId expression, const std::string& words) {
    // A promise about contents is told by the pockets that break it, under a slug of its own.
    std::vector<ExpressionId> others;
    std::vector<ExpressionId> pieces_of_all;
    conjuncts(event.engine.system(), expression, pieces_of_all);
    for (const ExpressionId piece : pieces_of_all) {
        const Expression& claim = event.engine.system()[piece];
        if (claim.kind == ExpressionKind::frost_safe) {
            judge_frost_risk(event, claim);
        } else if (claim.kind == ExpressionKind::drinkable) {
            judge_not_drinkable(event, claim);
        } else if (claim.kind == ExpressionKind::sanitised) {
            judge_not_sanitised(event, claim);
        } else if (claim.kind == ExpressionKind::restored) {
            judge_not_restored(event, claim);
        } else {
            others.push_back(piece);
        }
    }
    Set wrong = nothing;
    for (const ExpressionId piece : others) {
        wrong = event.diagrams().either(wrong, event.diagrams().without(event.here(), event.engine.truth(piece)));
    }
    if (wrong == nothing) {
        return;
    }
    Finding finding{.slug = slug, .span = event.span};
    finding.message = fmt::format("this does not always hold: `{}`", words);
    std::vector<ExpressionId> pieces;
    for (const ExpressionId piece : others) {
        failing(event, piece, pieces);
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (i == most_told) {
            finding.notes.push_back(fmt::format("and {} more", pieces.size() - most_told));
            break;
        }
        const Set here = event.diagrams().without(event.here(), event.engine.truth(pieces[i]));
        std::string told = fact(event, event.engine.system()[pieces[i]], event.engine.knowledge().assignment(here));
        if (!told.empty()) {
            finding.notes.push_back(std::move(told));
        }
    }
    add_circumstances(event, wrong, finding);
    if (const auto proposal = verify_that_settles(event.engine, wrong)) {
        finding.remedies.push_back(
            fmt::format("if nothing sets it, look: `{}`", verify_text(event.engine.system(), *proposal)));
    }
    event.findings.add(std::move(finding));
}

} // namespace curbstop::proofs
