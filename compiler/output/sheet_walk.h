// Visits the steps of a procedure in the order in which the sheet numbers them, and the statements within.
// Must not know: words, HTML, Markdown, proofs.
#pragma once

#include "meaning/procedure.h"

#include <cstdint>
#include <string>
#include <type_traits>
#include <variant>

namespace curbstop::output {

/// What a statement stands under.
struct Circumstances {
    std::uint32_t step = 0;  ///< its number on the sheet; 0 of what a `meanwhile` sets going
    bool optional = false;   ///< done only with some option, or in a case that may not come
    std::uint32_t times = 1; ///< at most, because of a `repeat` (saturates)
    meaning::ExpressionId exists = meaning::Expressions::always(); ///< of the statement itself
};

namespace detail {

inline std::uint32_t times_over(std::uint32_t times, std::uint32_t at_most) {
    return at_most > 0 && times > UINT32_MAX / at_most ? UINT32_MAX : times * at_most;
}

template <class Visitor>
void each_statement(const meaning::Statements& statements, Circumstances around, const Visitor& visitor) {
    using namespace meaning;
    for (const Statement& statement : statements) {
        Circumstances here = around;
        here.exists = statement.exists;
        here.optional = around.optional || statement.exists != Expressions::always();
        std::visit(
            [&](const auto& each) {
                visitor(each, here);
                using Each = std::decay_t<decltype(each)>;
                if constexpr (std::is_same_v<Each, HoldStatement>) {
                    each_statement(each.body, here, visitor);
                } else if constexpr (std::is_same_v<Each, RepeatStatement>) {
                    here.times = times_over(here.times, each.at_most);
                    each_statement(each.body, here, visitor);
                } else if constexpr (std::is_same_v<Each, ConditionalStatement> ||
                                     std::is_same_v<Each, InCaseStatement>) {
                    here.optional = true;
                    each_statement(each.body, here, visitor);
                }
            },
            statement.what);
    }
}

template <class Visitor>
void each_statement(const meaning::StageItems& items, Circumstances around, std::uint32_t& number,
                    const Visitor& visitor) {
    using namespace meaning;
    for (const StageItem& item : items) {
        Circumstances here = around;
        std::visit(
            [&](const auto& each) {
                using Each = std::decay_t<decltype(each)>;
                if constexpr (std::is_same_v<Each, Step>) {
                    here.step = ++number;
                    each_statement(each.statements, here, visitor);
                } else {
                    if constexpr (std::is_same_v<Each, RepeatSteps>) {
                        here.times = times_over(here.times, each.at_most);
                    } else if constexpr (!std::is_same_v<Each, MeanwhileSteps>) {
                        here.optional = true;
                    }
                    each_statement(each.items, here, number, visitor);
                }
            },
            item.what);
    }
}

} // namespace detail

/// Calls `visitor(statement, circumstances)` with every kind of statement, outer ones before those within.
template <class Visitor>
void each_statement(const meaning::Procedure& procedure, const Visitor& visitor) {
    std::uint32_t number = 0;
    for (const meaning::Stage& stage : procedure.stages) {
        detail::each_statement(stage.items, {}, number, visitor);
    }
}

} // namespace curbstop::output
