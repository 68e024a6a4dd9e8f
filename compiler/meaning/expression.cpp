#include "meaning/expression.h"

#include <algorithm>
#include <utility>

namespace curbstop::meaning {

Expressions::Expressions() {
    arena_.resize(2);
    arena_[0].kind = ExpressionKind::always;
    arena_[1].kind = ExpressionKind::never;
}

ExpressionId Expressions::add(Expression expression) {
    arena_.push_back(std::move(expression));
    return ExpressionId(arena_.size() - 1);
}

ExpressionId Expressions::both(ExpressionId a, ExpressionId b) {
    return all_of({a, b});
}

ExpressionId Expressions::either(ExpressionId a, ExpressionId b) {
    return any_of({a, b});
}

ExpressionId Expressions::negate(ExpressionId a) {
    if (a == always()) {
        return never();
    }
    if (a == never()) {
        return always();
    }
    return add({.kind = ExpressionKind::negation, .operands = {a}, .span = arena_[a.value].span});
}

namespace {

// What is left of the operands of `all` (`any`) when the neutral element and repetitions are gone.
std::vector<ExpressionId> without_neutral(std::vector<ExpressionId> operands, ExpressionId neutral) {
    std::vector<ExpressionId> kept;
    for (const ExpressionId operand : operands) {
        if (operand != neutral && std::ranges::find(kept, operand) == kept.end()) {
            kept.push_back(operand);
        }
    }
    return kept;
}

} // namespace

ExpressionId Expressions::all_of(std::vector<ExpressionId> operands, text::Span span) {
    operands = without_neutral(std::move(operands), always());
    if (std::ranges::find(operands, never()) != operands.end()) {
        return never();
    }
    if (operands.empty()) {
        return always();
    }
    if (operands.size() == 1) {
        return operands.front();
    }
    return add({.kind = ExpressionKind::all, .operands = std::move(operands), .span = span});
}

ExpressionId Expressions::any_of(std::vector<ExpressionId> operands, text::Span span) {
    operands = without_neutral(std::move(operands), never());
    if (std::ranges::find(operands, always()) != operands.end()) {
        return always();
    }
    if (operands.empty()) {
        return never();
    }
    if (operands.size() == 1) {
        return operands.front();
    }
    return add({.kind = ExpressionKind::any, .operands = std::move(operands), .span = span});
}

ExpressionId Expressions::stands(VariableId variable, ValueSet values, text::Span span) {
    return add({.kind = ExpressionKind::stands, .variable = variable, .values = values, .span = span});
}

ExpressionId Expressions::option(OptionId option) {
    return add({.kind = ExpressionKind::option, .option = option});
}

ExpressionId Expressions::branch(BranchId branch) {
    return add({.kind = ExpressionKind::branch, .branch = branch});
}

} // namespace curbstop::meaning
