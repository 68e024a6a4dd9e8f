#include "output/sheet_standing.h"

#include "output/sheet_lines.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

void pin(const System& system, ExpressionId id, std::vector<ValueSet>& standing) {
    const Expression& e = system[id];
    if (e.kind == ExpressionKind::stands) {
        standing[e.variable.value] &= e.values;
    } else if (e.kind == ExpressionKind::negation && system[e.operands.front()].kind == ExpressionKind::stands) {
        const Expression& inner = system[e.operands.front()];
        standing[inner.variable.value] &= ~inner.values;
    } else if (e.kind == ExpressionKind::all) {
        for (const ExpressionId operand : e.operands) {
            pin(system, operand, standing);
        }
    }
}

void collect_others(const Words& words, ExpressionId id, std::vector<Phrase>& found) {
    const Expression& e = words.system()[id];
    if (says_how_things_stand(words.system(), id)) {
        return;
    }
    if (e.kind != ExpressionKind::all) {
        found.push_back(words.expression(id));
        return;
    }
    for (const ExpressionId operand : e.operands) {
        collect_others(words, operand, found);
    }
}

} // namespace

bool says_how_things_stand(const System& system, ExpressionId id) {
    const Expression& e = system[id];
    if (e.kind == ExpressionKind::negation) {
        return system[e.operands.front()].kind == ExpressionKind::stands;
    }
    if (e.kind == ExpressionKind::all) {
        return std::all_of(e.operands.begin(), e.operands.end(),
                           [&](ExpressionId operand) { return says_how_things_stand(system, operand); });
    }
    return e.kind == ExpressionKind::stands || e.kind == ExpressionKind::always;
}

std::vector<ValueSet> required_standing(const System& system, const Procedure& procedure) {
    std::vector<ValueSet> standing;
    for (const Variable& variable : system.variables) {
        standing.push_back(variable.at_start ? ValueSet{1} << *variable.at_start : all_values(variable));
    }
    for (const Contract& contract : procedure.requires_) {
        pin(system, contract.expression, standing);
    }
    return standing;
}

std::vector<Phrase> other_requirements(const Words& words, const Procedure& procedure) {
    std::vector<Phrase> found;
    for (const Contract& contract : procedure.requires_) {
        collect_others(words, contract.expression, found);
    }
    return found;
}

std::vector<StandingGroup> standing_groups(const Words& words, const std::vector<ValueSet>& standing,
                                           bool pinned_only) {
    const System& system = words.system();
    std::vector<StandingGroup> by_zone(system.zones.size() + 1);
    for (std::size_t i = 0; i < system.zones.size(); ++i) {
        by_zone[i].place = words.named(system.zones[i]);
    }
    for (std::size_t i = 0; i < system.variables.size() && i < standing.size(); ++i) {
        const VariableId id(i);
        const Variable& variable = system.variables[i];
        const bool open = standing[i] == all_values(variable);
        const bool where_it_starts = variable.at_start && standing[i] == ValueSet{1} << *variable.at_start;
        if (variable.values.size() < 2 || (pinned_only && (open || where_it_starts))) {
            continue;
        }
        const std::vector<WorkPlace> places = words.places(id);
        const bool placed = !places.empty() && places.front().zone;
        StandingGroup& group = placed ? by_zone[places.front().zone.value] : by_zone.back();
        group.rows.push_back({words.variable(id), words.values(id, standing[i]), only_where(words, variable.exists, {}),
                              Applies::under(system, variable.exists)});
    }
    std::erase_if(by_zone, [](const StandingGroup& group) { return group.rows.empty(); });
    return by_zone;
}

} // namespace curbstop::output
