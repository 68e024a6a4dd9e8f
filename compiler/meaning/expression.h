// Expressions about a state: conditions of ways, guards, contracts. One form for all of them, in one arena.
// Must not know: syntax, how truth is decided.
#pragma once

#include <cstdint>
#include <vector>

#include "meaning/ids.h"
#include "meaning/quantity.h"
#include "text/source.h"

namespace curbstop::meaning {

/// Values of a variable as a set of bits; so a variable has at most 64 values.
using ValueSet = std::uint64_t;
inline constexpr std::size_t max_values = 64;

enum class ExpressionKind : std::uint8_t {
    always,         ///< true
    never,          ///< false
    all,            ///< every operand
    any,            ///< some operand
    negation,       ///< not the one operand
    stands,         ///< `variable` has a value in `values`, or is not there in this variant
    option,         ///< `option` is taken
    branch,         ///< the case of `branch` has come up
    no_pressure,    ///< `node` is neither pressed on nor charged; without one, nothing is
    pressure_below, ///< no running source reaches `node` at `quantity` or more
    holds,          ///< `chamber` surely holds `fluid`; any liquid where `fluid` is none
    empty,          ///< `chamber` surely holds no liquid
    reaches_liquid, ///< what is drawn at `node` is surely liquid, never air
    frost_safe,     ///< at `quantity`
    drinkable,
    sanitised, ///< but for `parts`
    restored,
    cool, ///< `chamber` has cooled
};

struct Expression {
    ExpressionKind kind = ExpressionKind::always;
    std::vector<ExpressionId> operands;
    VariableId variable;
    ValueSet values = 0;
    OptionId option;
    BranchId branch;
    NodeId node;
    ChamberId chamber;
    FluidId fluid;
    std::vector<PartId> parts = {};
    Quantity quantity{};
    text::Span span{}; ///< where it was written; of a derived one, what it was derived from
};

/// All expressions of a model. `always` and `never` have fixed places.
class Expressions {
  public:
    Expressions();
    static constexpr ExpressionId always() { return ExpressionId(0); }
    static constexpr ExpressionId never() { return ExpressionId(1); }

    const Expression& operator[](ExpressionId id) const { return arena_[id.value]; }
    std::size_t size() const { return arena_.size(); }

    ExpressionId add(Expression expression);
    ExpressionId both(ExpressionId a, ExpressionId b);   ///< a and b, simplified
    ExpressionId either(ExpressionId a, ExpressionId b); ///< a or b, simplified
    ExpressionId negate(ExpressionId a);
    ExpressionId all_of(std::vector<ExpressionId> operands, text::Span span = {});
    ExpressionId any_of(std::vector<ExpressionId> operands, text::Span span = {});
    ExpressionId stands(VariableId variable, ValueSet values, text::Span span = {});
    ExpressionId option(OptionId option);
    ExpressionId branch(BranchId branch);

  private:
    std::vector<Expression> arena_;
};

} // namespace curbstop::meaning
