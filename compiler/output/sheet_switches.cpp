#include "output/sheet_switches.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Kinds of stdlib/electrics.curb: they switch power or gas even where nothing that is declared hangs on them.
constexpr std::array<std::string_view, 4> switching_kinds{"isolator", "switch", "breaker", "gas_valve"};

void collect(const System& system, ExpressionId id, std::vector<VariableId>& found) {
    const Expression& e = system[id];
    if (e.kind == ExpressionKind::stands && std::ranges::find(found, e.variable) == found.end()) {
        found.push_back(e.variable);
    }
    for (const ExpressionId operand : e.operands) {
        collect(system, operand, found);
    }
}

} // namespace

std::vector<Switch> switches(const System& system) {
    std::vector<Switch> all(system.variables.size());
    std::vector<bool> is_one(system.variables.size(), false);
    for (const Part& part : system.parts) {
        if (part.variable && std::ranges::find(switching_kinds, part.kind_name) != switching_kinds.end()) {
            is_one[part.variable.value] = true;
        }
    }
    for (std::size_t i = 0; i < system.sources.size(); ++i) {
        const Source& source = system.sources[i];
        if (source.kind != SourceKind::lift && source.kind != SourceKind::heat) {
            continue;
        }
        std::vector<VariableId> asked;
        collect(system, source.on, asked);
        for (const VariableId id : asked) {
            const Variable& variable = system[id];
            if (variable.kind != VariableKind::position || variable.springs_back) {
                continue; // what a hand works or holds is no isolation
            }
            Switch& one = all[id.value];
            is_one[id.value] = true;
            if (variable.part == source.part) {
                one.own = true;
            } else {
                one.feeds.emplace_back(i);
            }
        }
    }
    std::vector<Switch> result;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (is_one[i]) {
            all[i].variable = VariableId(i);
            result.push_back(std::move(all[i]));
        }
    }
    return result;
}

std::vector<std::pair<VariableId, ValueSet>> switched_by(const System& system, ExpressionId on) {
    const Expression& e = system[on];
    if (e.kind == ExpressionKind::stands) {
        return {{e.variable, e.values}};
    }
    std::vector<std::pair<VariableId, ValueSet>> found;
    for (const ExpressionId operand : e.operands) {
        auto within = switched_by(system, operand);
        for (auto& [variable, values] : within) {
            if (e.kind == ExpressionKind::negation) {
                values = (~ValueSet{0} >> (max_values - system[variable].values.size())) & ~values;
            }
            found.emplace_back(variable, values);
        }
    }
    return found;
}

} // namespace curbstop::output
