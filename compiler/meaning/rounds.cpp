#include "meaning/rounds.h"

#include <algorithm>
#include <limits>

namespace curbstop::meaning {

namespace {

/// What a body comes to.
struct Extent {
    std::uint32_t cases = 0;
    std::uint64_t statements = 0;

    Extent& operator+=(const Extent& other) {
        cases += other.cases;
        statements = statements > most - std::min(most, other.statements) ? most : statements + other.statements;
        return *this;
    }
    std::uint32_t rounds(std::uint32_t at_most) const { return std::min(at_most, 2 + cases); }
    Extent repeated(std::uint32_t at_most) const {
        const std::uint32_t times = rounds(at_most);
        return {cases, times != 0 && statements > most / times ? most : statements * times};
    }

    static constexpr std::uint64_t most = std::numeric_limits<std::uint64_t>::max();
};

Extent extent(const Statements& statements);

Extent inside(const Statement& statement) {
    if (const auto* in_case = std::get_if<InCaseStatement>(&statement.what)) {
        Extent body = extent(in_case->body);
        ++body.cases;
        return body;
    }
    if (const auto* hold = std::get_if<HoldStatement>(&statement.what)) {
        return extent(hold->body);
    }
    if (const auto* repeat = std::get_if<RepeatStatement>(&statement.what)) {
        return extent(repeat->body).repeated(repeat->at_most);
    }
    if (const auto* conditional = std::get_if<ConditionalStatement>(&statement.what)) {
        return extent(conditional->body);
    }
    return {};
}

Extent extent(const Statements& statements) {
    Extent sum;
    for (const Statement& statement : statements) {
        sum += inside(statement);
        sum += {0, 1};
    }
    return sum;
}

Extent extent(const StageItems& items);

Extent inside(const StageItem& item) {
    if (const auto* step = std::get_if<Step>(&item.what)) {
        return extent(step->statements);
    }
    if (const auto* conditional = std::get_if<ConditionalSteps>(&item.what)) {
        return extent(conditional->items);
    }
    if (const auto* in_case = std::get_if<InCaseSteps>(&item.what)) {
        Extent body = extent(in_case->items);
        ++body.cases;
        return body;
    }
    if (const auto* repeat = std::get_if<RepeatSteps>(&item.what)) {
        return extent(repeat->items).repeated(repeat->at_most);
    }
    return extent(std::get<MeanwhileSteps>(item.what).items);
}

Extent extent(const StageItems& items) {
    Extent sum;
    for (const StageItem& item : items) {
        sum += inside(item);
        sum += {0, 1};
    }
    return sum;
}

} // namespace

std::uint32_t rounds_to_follow(const RepeatStatement& repeat) {
    return extent(repeat.body).rounds(repeat.at_most);
}

std::uint32_t rounds_to_follow(const RepeatSteps& repeat) {
    return extent(repeat.items).rounds(repeat.at_most);
}

std::uint64_t statements_to_follow(const Procedure& procedure) {
    Extent sum;
    for (const Stage& stage : procedure.stages) {
        sum += extent(stage.items);
    }
    return sum.statements;
}

} // namespace curbstop::meaning
