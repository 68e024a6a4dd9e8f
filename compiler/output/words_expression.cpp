// Expressions and observations read aloud; labels of things are in words.cpp.
#include "output/clean_text.h"
#include "output/quantity_words.h"
#include "output/words.h"

namespace curbstop::output {

using meaning::Expression;
using meaning::ExpressionId;
using meaning::ExpressionKind;
using meaning::ObservationKind;

// An operand in parentheses where it would else be read as part of what is around it.
Phrase Words::nested(ExpressionId id, ExpressionKind inside) const {
    const Expression& expression = (*system_)[id];
    const bool compound = expression.operands.size() > 1 && expression.kind != ExpressionKind::negation;
    return compound && expression.kind != inside ? phrase("(", this->expression(id), ")") : this->expression(id);
}

Phrase Words::negation(const Expression& inner, ExpressionId id) const {
    if (inner.kind == ExpressionKind::stands) {
        return tongue_.say<Saying::is_not_so>(in<"what">(label(variable(inner.variable))),
                                              in<"how">(label(values(inner.variable, inner.values))));
    }
    if (inner.kind == ExpressionKind::option) {
        return tongue_.say<Saying::without_option>(in<"option">(label(named((*system_)[inner.option]))));
    }
    return tongue_.say<Saying::negated>(in<"what">(expression(id)));
}

std::vector<Phrase> Words::excepted(const Expression& e) const {
    std::vector<Phrase> phrases;
    std::string inside = " "; // with an assembly come all that it is made of, right behind it
    for (const meaning::PartId id : e.parts) {
        if (!(*system_)[id].name.starts_with(inside)) {
            phrases.push_back(phrase(label(part(id))));
            inside = (*system_)[id].name + ".";
        }
    }
    return phrases;
}

Phrase Words::expression(ExpressionId id) const {
    const Expression& e = (*system_)[id];
    const auto operands = [&] {
        std::vector<Phrase> phrases;
        for (const ExpressionId operand : e.operands) {
            phrases.push_back(nested(operand, e.kind));
        }
        return phrases;
    };
    const auto where = [&] { return in<"where">(label(node(e.node))); };
    const auto what = [&] {
        return in<"what">(e.chamber ? label(chamber(e.chamber)) : Piece{tongue_.text(Saying::everything)});
    };
    switch (e.kind) {
    case ExpressionKind::always:
        return tongue_.say<Saying::always>();
    case ExpressionKind::never:
        return tongue_.say<Saying::never>();
    case ExpressionKind::all:
        return tongue_.all_of(operands());
    case ExpressionKind::any:
        return tongue_.one_of(operands());
    case ExpressionKind::negation:
        return negation((*system_)[e.operands.front()], e.operands.front());
    case ExpressionKind::stands:
        return tongue_.say<Saying::is_so>(in<"what">(label(variable(e.variable))),
                                          in<"how">(label(values(e.variable, e.values))));
    case ExpressionKind::option:
        return tongue_.say<Saying::with_option>(in<"option">(label(named((*system_)[e.option]))));
    case ExpressionKind::branch:
        return tongue_.say<Saying::in_that_case>();
    case ExpressionKind::no_pressure:
        return e.node ? tongue_.say<Saying::no_pressure_at>(where()) : tongue_.say<Saying::no_pressure_anywhere>();
    case ExpressionKind::pressure_below: {
        const auto limit = in<"limit">(quantity_words(e.quantity, tongue_));
        return e.node ? tongue_.say<Saying::pressure_below_at>(where(), limit)
                      : tongue_.say<Saying::pressure_below>(limit);
    }
    case ExpressionKind::holds:
        return e.fluid ? tongue_.say<Saying::holds_fluid>(what(), in<"fluid">(label(fluid(e.fluid))))
                       : tongue_.say<Saying::holds_liquid>(what());
    case ExpressionKind::empty:
        return tongue_.say<Saying::is_empty>(what());
    case ExpressionKind::reaches_liquid:
        return e.node ? tongue_.say<Saying::liquid_at>(where()) : tongue_.say<Saying::liquid_drawn>();
    case ExpressionKind::frost_safe:
        return tongue_.say<Saying::frost_safe>(in<"temperature">(quantity_words(e.quantity, tongue_)));
    case ExpressionKind::drinkable:
        return tongue_.say<Saying::drinkable>();
    case ExpressionKind::sanitised:
        return e.parts.empty() ? tongue_.say<Saying::sanitised>()
                               : tongue_.say<Saying::sanitised_except>(in<"parts">(tongue_.all_of(excepted(e))));
    case ExpressionKind::restored:
        return tongue_.say<Saying::restored>();
    case ExpressionKind::cool:
        return tongue_.say<Saying::has_cooled>(what());
    }
    return {};
}

std::vector<ExpressionId> Words::conjuncts(ExpressionId id) const {
    const Expression& e = (*system_)[id];
    if (e.kind != ExpressionKind::all) {
        return {id};
    }
    std::vector<ExpressionId> result;
    for (const ExpressionId operand : e.operands) {
        const std::vector<ExpressionId> inner = conjuncts(operand);
        result.insert(result.end(), inner.begin(), inner.end());
    }
    return result;
}

std::vector<Phrase> Words::expressions(ExpressionId id) const {
    std::vector<Phrase> result;
    for (const ExpressionId each : conjuncts(id)) {
        result.push_back(expression(each));
    }
    return result;
}

Wording Words::condition(ExpressionId id) const {
    return id == meaning::Expressions::always() ? Wording() : plain(expression(id));
}

Phrase Words::seen_thing(const meaning::Observation& observation) const {
    switch (observation.kind) {
    case ObservationKind::stops:
        return tongue_.say<Saying::has_stopped>();
    case ObservationKind::only_air:
        return tongue_.say<Saying::only_air>();
    case ObservationKind::shows: {
        if (!observation.fluid) {
            return tongue_.say<Saying::it_shows>();
        }
        const auto shown = in<"fluid">(fluid(observation.fluid));
        const Wording how = told((*system_)[observation.fluid].shows);
        return how.empty() ? tongue_.say<Saying::fluid_shows>(shown)
                           : tongue_.say<Saying::fluid_shows_how>(shown, in<"how">(how));
    }
    case ObservationKind::clear:
        return tongue_.say<Saying::runs_clear>();
    case ObservationKind::full:
        return tongue_.say<Saying::is_full>();
    case ObservationKind::holds_pressure:
        return tongue_.say<Saying::pressure_holds>();
    case ObservationKind::reads_at_least:
        return observation.least ? tongue_.say<Saying::reads_at_least>(
                                       in<"quantity">(quantity_words(*observation.least, tongue_, Towards::more)))
                                 : tongue_.say<Saying::reads_enough>();
    }
    return {};
}

Phrase Words::observation(const meaning::Observation& observation) const {
    const Wording words = told(observation.words);
    const Phrase meant = seen_thing(observation);
    if (words.empty()) {
        return meant;
    }
    // What the author saw says it all, but for a figure that is to be read.
    return observation.least ? tongue_.say<Saying::seen>(in<"words">(label(words)), in<"meaning">(meant))
                             : phrase(label(words));
}

} // namespace curbstop::output
