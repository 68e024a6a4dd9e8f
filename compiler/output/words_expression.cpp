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

Phrase Words::expression(ExpressionId id) const {
    const Expression& e = (*system_)[id];
    const auto list = [&](const std::string& word) {
        std::vector<Phrase> phrases;
        for (const ExpressionId operand : e.operands) {
            phrases.push_back(nested(operand, e.kind));
        }
        return joined(phrases, word);
    };
    const auto at_node = [&] { return e.node ? phrase(" at ", label(node(e.node))) : Phrase{}; };
    const auto excepted = [&] {
        std::vector<Phrase> phrases;
        std::string inside = " "; // with an assembly come all that it is made of, right behind it
        for (const meaning::PartId id : e.parts) {
            if (!(*system_)[id].name.starts_with(inside)) {
                phrases.push_back(phrase(label(part(id))));
                inside = (*system_)[id].name + ".";
            }
        }
        return joined(phrases, "and");
    };
    const auto of_chamber = [&] { return e.chamber ? label(chamber(e.chamber)) : Piece{"everything"}; };
    switch (e.kind) {
    case ExpressionKind::always:
        return phrase("always");
    case ExpressionKind::never:
        return phrase("never");
    case ExpressionKind::all:
        return list("and");
    case ExpressionKind::any:
        return list("or");
    case ExpressionKind::negation: {
        const Expression& inner = (*system_)[e.operands.front()];
        if (inner.kind == ExpressionKind::stands) {
            return phrase(label(variable(inner.variable)), " is not ", label(values(inner.variable, inner.values)));
        }
        if (inner.kind == ExpressionKind::option) {
            return phrase("without ", label(label_of((*system_)[inner.option])));
        }
        return phrase("not (", expression(e.operands.front()), ")");
    }
    case ExpressionKind::stands:
        return phrase(label(variable(e.variable)), " is ", label(values(e.variable, e.values)));
    case ExpressionKind::option:
        return phrase("with ", label(label_of((*system_)[e.option])));
    case ExpressionKind::branch:
        return phrase("in that case");
    case ExpressionKind::no_pressure:
        return e.node ? phrase("no pressure", at_node()) : phrase("no pressure anywhere");
    case ExpressionKind::pressure_below:
        return phrase("pressure", at_node(), " below ", quantity_words(e.quantity));
    case ExpressionKind::holds:
        return phrase(of_chamber(), " holds ", e.fluid ? label(fluid(e.fluid)) : Piece{"liquid"});
    case ExpressionKind::empty:
        return phrase(of_chamber(), " is empty");
    case ExpressionKind::reaches_liquid:
        return phrase("what is drawn", at_node(), " is liquid, never air");
    case ExpressionKind::frost_safe:
        return phrase("nothing bursts from frost at ", quantity_words(e.quantity));
    case ExpressionKind::drinkable:
        return phrase("what comes out is fit to drink");
    case ExpressionKind::sanitised:
        return e.parts.empty() ? phrase("the drinking water side is disinfected")
                               : phrase("the drinking water side is disinfected, except for ", excepted());
    case ExpressionKind::restored:
        return phrase("all is back as it stands in use");
    case ExpressionKind::cool:
        return phrase(of_chamber(), " has cooled down");
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

std::string Words::condition(ExpressionId id) const {
    return id == meaning::Expressions::always() ? std::string() : plain(expression(id));
}

Phrase Words::observation(const meaning::Observation& observation) const {
    const auto meant = [&]() -> std::string {
        switch (observation.kind) {
        case ObservationKind::stops:
            return "it has stopped running";
        case ObservationKind::only_air:
            return "only air comes";
        case ObservationKind::shows: {
            if (!observation.fluid) {
                return "it shows";
            }
            const std::string shows = one_line((*system_)[observation.fluid].shows);
            return fluid(observation.fluid) + " shows" + (shows.empty() ? "" : ": " + shows);
        }
        case ObservationKind::clear:
            return "it runs clear";
        case ObservationKind::full:
            return "it is full";
        case ObservationKind::holds_pressure:
            return "the pressure holds";
        case ObservationKind::reads_at_least:
            return observation.least ? "it reads at least " + quantity_words(*observation.least) : "it reads enough";
        }
        return {};
    }();
    const std::string words = one_line(observation.words);
    return words.empty() ? phrase(meant) : phrase(label(words), " (", meant, ")");
}

} // namespace curbstop::output
