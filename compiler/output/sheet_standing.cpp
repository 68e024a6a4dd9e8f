#include "output/sheet_standing.h"

#include "output/sheet_lines.h"

#include <algorithm>
#include <utility>

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

namespace {

/// A row and where it comes among those of its place.
struct Placed {
    StandingRow row;
    std::vector<VariableId> covers = {}; ///< that hide it
    bool is_cover = false;
};

/// One opens what is outermost first: covers, then what lies open, then what is behind those covers, cover by cover.
void put_covers_first(std::vector<Placed>& rows) {
    std::ranges::stable_sort(rows, [](const Placed& a, const Placed& b) {
        const auto rank = [](const Placed& each) { return std::pair(each.covers.size(), !each.is_cover); };
        return rank(a) != rank(b) ? rank(a) < rank(b)
                                  : std::ranges::lexicographical_compare(a.covers, b.covers, {}, &VariableId::value,
                                                                         &VariableId::value);
    });
}

} // namespace

std::vector<StandingGroup> standing_groups(const Words& words, const std::vector<ValueSet>& standing,
                                           StandingTable table) {
    const bool pinned_only = table.pinned_only;
    const System& system = words.system();
    std::vector<std::vector<Placed>> by_zone(system.zones.size() + 1);
    const auto rows_of = [&](const WorkPlace& place) -> std::vector<Placed>& {
        return place.zone ? by_zone[place.zone.value] : by_zone.back();
    };
    const auto is_left_out = [&](std::size_t i) {
        const Variable& variable = system.variables[i];
        const bool where_it_starts = variable.at_start && standing[i] == ValueSet{1} << *variable.at_start;
        return variable.values.size() < 2 || (pinned_only && (standing[i] == all_values(variable) || where_it_starts));
    };
    std::vector<bool> opened(system.variables.size()); // covers that have to be opened to see what is listed
    for (std::size_t i = 0; i < system.variables.size() && i < standing.size(); ++i) {
        if (is_left_out(i)) {
            continue;
        }
        const VariableId id(i);
        const Variable& variable = system.variables[i];
        const std::vector<WorkPlace> places = words.places(id);
        const WorkPlace place = places.empty() ? WorkPlace() : places.front();
        const Wording behind = table.tells_covers ? words.place({{}, place.covers}) : Wording();
        rows_of(place).push_back(
            {{words.variable(id), words.values(id, standing[i]), only_where(words, variable.exists, {}),
              Applies::under(system, variable.exists), behind},
             place.covers,
             variable.kind == VariableKind::cover});
        for (const VariableId cover : place.covers) {
            opened[cover.value] = true;
        }
    }
    if (pinned_only) {
        // What lies over a cover comes before it in the declaration: it is named before.
        for (std::size_t i = system.covers.size(); i-- > 0;) {
            const Cover& cover = system.covers[i];
            const std::size_t variable = cover.variable.value;
            if (!opened[variable]) {
                continue;
            }
            for (const VariableId over : cover.place.covers) {
                opened[over.value] = true;
            }
            if (variable < standing.size() && is_left_out(variable)) {
                rows_of(cover.place)
                    .push_back({{words.variable(cover.variable), words.tongue().text(Saying::open_it_to_look),
                                 only_where(words, system.variables[variable].exists, {}),
                                 Applies::under(system, system.variables[variable].exists),
                                 words.place({{}, cover.place.covers})},
                                cover.place.covers,
                                true});
            }
        }
    }
    std::vector<StandingGroup> groups;
    for (std::size_t i = 0; i < by_zone.size(); ++i) {
        if (by_zone[i].empty()) {
            continue;
        }
        if (table.tells_covers) {
            put_covers_first(by_zone[i]);
        }
        StandingGroup group;
        group.place = i < system.zones.size() ? words.named(system.zones[i]) : Wording();
        for (Placed& placed : by_zone[i]) {
            group.rows.push_back(std::move(placed.row));
        }
        groups.push_back(std::move(group));
    }
    return groups;
}

} // namespace curbstop::output
