#include "quantities/statements.h"

#include <algorithm>

namespace curbstop::quantities {

using namespace meaning;

namespace {

using Tell = std::function<void(const Statement&, std::uint64_t)>;

/// More than anyone does: what would be more stays this.
constexpr std::uint64_t countless = 1'000'000;

void go(const Statements& statements, std::uint64_t times, const Tell& tell) {
    for (const Statement& statement : statements) {
        tell(statement, times);
        if (const auto* hold = std::get_if<HoldStatement>(&statement.what)) {
            go(hold->body, times, tell);
        } else if (const auto* repeat = std::get_if<RepeatStatement>(&statement.what)) {
            go(repeat->body, std::min(countless, times * repeat->at_most), tell);
        } else if (const auto* conditional = std::get_if<ConditionalStatement>(&statement.what)) {
            go(conditional->body, times, tell);
        } else if (const auto* in_case = std::get_if<InCaseStatement>(&statement.what)) {
            go(in_case->body, times, tell);
        }
    }
}

void go(const StageItems& items, std::uint64_t times, const Tell& tell) {
    for (const StageItem& item : items) {
        if (const auto* step = std::get_if<Step>(&item.what)) {
            go(step->statements, times, tell);
        } else if (const auto* conditional = std::get_if<ConditionalSteps>(&item.what)) {
            go(conditional->items, times, tell);
        } else if (const auto* in_case = std::get_if<InCaseSteps>(&item.what)) {
            go(in_case->items, times, tell);
        } else if (const auto* repeat = std::get_if<RepeatSteps>(&item.what)) {
            go(repeat->items, std::min(countless, times * repeat->at_most), tell);
        } else if (const auto* meanwhile = std::get_if<MeanwhileSteps>(&item.what)) {
            go(meanwhile->items, times, tell);
        }
    }
}

} // namespace

void for_each_statement(const Procedure& procedure, const Tell& tell) {
    for (const Stage& stage : procedure.stages) {
        go(stage.items, 1, tell);
    }
}

} // namespace curbstop::quantities
