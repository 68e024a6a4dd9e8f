#include "instants/knowledge.h"

#include <bit>

namespace curbstop::instants {

using namespace meaning;

namespace {

ValueSet all_values(const Variable& variable) {
    return variable.values.size() >= max_values ? ~ValueSet{0} : (ValueSet{1} << variable.values.size()) - 1;
}

} // namespace

Knowledge::Knowledge(const System& system, std::size_t node_budget)
    : system_(system)
    , diagrams_(node_budget) {
    for (std::size_t i = 0; i < system.options.size(); ++i) {
        options_.push_back(fresh());
    }
    start_bits_ = static_cast<std::uint32_t>(system.options.size());
    pinned_.reserve(system.variables.size());
    for (const Variable& variable : system.variables) {
        pinned_.push_back(variable.at_start ? ValueSet{1} << *variable.at_start : all_values(variable));
    }
    standing_.resize(system.variables.size());
    at_start_.resize(system.variables.size());
}

bool Knowledge::pin(VariableId variable, ValueSet values) {
    if ((pinned_[variable.value] & values) == 0) {
        return false;
    }
    pinned_[variable.value] &= values;
    return true;
}

Set Knowledge::fresh() {
    is_start_level_.push_back(false);
    return diagrams_.level(static_cast<std::uint32_t>(is_start_level_.size() - 1));
}

bool Knowledge::settle() {
    // An end that is surely coupled settles its partner; one that surely is not, strikes itself off the others' lists.
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t i = 0; i < system_.variables.size(); ++i) {
            const Variable& variable = system_.variables[i];
            if (variable.kind != VariableKind::end) {
                continue;
            }
            for (std::size_t value = 0; value < variable.values.size(); ++value) {
                const NodeId partner = variable.values[value].partner;
                if (!partner.valid() || !system_[partner].end.valid()) {
                    continue;
                }
                const VariableId other = system_[partner].end;
                ValueSet back = 0;
                for (std::size_t j = 0; j < system_[other].values.size(); ++j) {
                    const NodeId their = system_[other].values[j].partner;
                    if (their.valid() && system_[their].end == VariableId(i)) {
                        back = ValueSet{1} << j;
                    }
                }
                const ValueSet bit = ValueSet{1} << value;
                ValueSet& mine = pinned_[i];
                ValueSet& theirs = pinned_[other.value];
                const ValueSet before_mine = mine;
                const ValueSet before_theirs = theirs;
                if (mine == bit) {
                    theirs &= back;
                }
                if ((mine & bit) == 0) {
                    theirs &= ~back;
                }
                changed = changed || mine != before_mine || theirs != before_theirs;
            }
        }
    }
    for (std::size_t i = 0; i < system_.variables.size(); ++i) {
        const ValueSet values = pinned_[i];
        if (values == 0) {
            return false;
        }
        if (std::popcount(values) == 1) {
            standing_[i].value = static_cast<std::uint32_t>(std::countr_zero(values));
            continue;
        }
        unknown_.emplace_back(i);
        const int bits = std::bit_width(static_cast<unsigned>(std::popcount(values)) - 1);
        start_bits_ += static_cast<std::uint32_t>(bits);
        std::vector<Set> levels;
        for (int bit = 0; bit < bits; ++bit) {
            levels.push_back(fresh());
            is_start_level_.back() = true;
        }
        // Values are numbered in binary; the last one takes all numbers that are left over, so that no number is void.
        std::vector<Set> per_value(system_.variables[i].values.size(), nothing);
        Set left = everything;
        int number = 0;
        const int last = std::popcount(values) - 1;
        for (std::size_t value = 0; value < per_value.size(); ++value) {
            if ((values >> value & 1) == 0) {
                continue;
            }
            Set code = left;
            if (number != last) {
                code = everything;
                for (int bit = 0; bit < bits; ++bit) {
                    const Set level = levels[static_cast<std::size_t>(bit)];
                    code = diagrams_.both(code,
                                          (number >> (bits - 1 - bit) & 1) != 0 ? level : diagrams_.complement(level));
                }
                left = diagrams_.without(left, code);
            }
            per_value[value] = code;
            ++number;
        }
        at_start_[i] = per_value;
        standing_[i].per_value = std::move(per_value);
    }
    match_ends();
    return possible_ != nothing;
}

void Knowledge::match_ends() {
    for (const VariableId id : unknown_) {
        const Variable& variable = system_[id];
        if (variable.kind != VariableKind::end) {
            continue;
        }
        for (std::size_t value = 0; value < variable.values.size(); ++value) {
            const NodeId partner = variable.values[value].partner;
            if (!partner.valid() || !system_[partner].end.valid()) {
                continue;
            }
            const VariableId other = system_[partner].end;
            for (std::size_t j = 0; j < system_[other].values.size(); ++j) {
                const NodeId their = system_[other].values[j].partner;
                if (their.valid() && system_[their].end == id) {
                    const Set mine = stands(id, ValueSet{1} << value);
                    const Set theirs = stands(other, ValueSet{1} << j);
                    narrow(diagrams_.if_then_else(mine, theirs, diagrams_.complement(theirs)));
                    // Nothing is coupled to what this variant lacks.
                    narrow(diagrams_.either(diagrams_.complement(mine), truth(system_[other].exists)));
                }
            }
        }
    }
}

Set Knowledge::stands(VariableId variable, ValueSet values) {
    const Standing& standing = standing_[variable.value];
    if (standing.value != Standing::varies) {
        return (values >> standing.value & 1) != 0 ? everything : nothing;
    }
    Set result = nothing;
    for (std::size_t value = 0; value < standing.per_value.size(); ++value) {
        if ((values >> value & 1) != 0) {
            result = diagrams_.either(result, standing.per_value[value]);
        }
    }
    return result;
}

ValueSet Knowledge::possible_values(VariableId variable) {
    const Standing& standing = standing_[variable.value];
    if (standing.value != Standing::varies) {
        return ValueSet{1} << standing.value;
    }
    ValueSet values = 0;
    for (std::size_t value = 0; value < standing.per_value.size(); ++value) {
        if (!diagrams_.disjoint(standing.per_value[value], possible_)) {
            values |= ValueSet{1} << value;
        }
    }
    return values;
}

void Knowledge::put(VariableId variable, std::uint32_t value, Set where) {
    Standing& standing = standing_[variable.value];
    standing.moved = true;
    if (diagrams_.within(possible_, where)) {
        standing.value = value;
        standing.per_value.clear();
        return;
    }
    if (where == nothing) {
        return;
    }
    if (standing.value != Standing::varies) {
        if (standing.value == value) {
            return;
        }
        standing.per_value.assign(system_[variable].values.size(), nothing);
        standing.per_value[standing.value] = everything;
        standing.value = Standing::varies;
    }
    standing.per_value.resize(system_[variable].values.size(), nothing);
    for (std::size_t i = 0; i < standing.per_value.size(); ++i) {
        standing.per_value[i] = i == value ? diagrams_.either(standing.per_value[i], where)
                                           : diagrams_.without(standing.per_value[i], where);
    }
    for (std::size_t i = 0; i < standing.per_value.size(); ++i) {
        if (standing.per_value[i] == everything) {
            standing.value = static_cast<std::uint32_t>(i);
            standing.per_value.clear();
            return;
        }
    }
}

void Knowledge::forget(VariableId variable) {
    const std::size_t count = system_[variable].values.size();
    if (count < 2) {
        return;
    }
    const int bits = std::bit_width(static_cast<unsigned>(count) - 1);
    std::vector<Set> levels;
    for (int bit = 0; bit < bits; ++bit) {
        levels.push_back(fresh());
        is_start_level_.back() = true;
    }
    std::vector<Set> per_value(count, nothing);
    Set left = everything;
    for (std::size_t value = 0; value + 1 < count; ++value) {
        Set code = everything;
        for (int bit = 0; bit < bits; ++bit) {
            const Set level = levels[static_cast<std::size_t>(bit)];
            code = diagrams_.both(code, (value >> (bits - 1 - bit) & 1) != 0 ? level : diagrams_.complement(level));
        }
        per_value[value] = code;
        left = diagrams_.without(left, code);
    }
    per_value[count - 1] = left;
    at_start_[variable.value] = per_value;
    standing_[variable.value] = {Standing::varies, std::move(per_value), false};
    unknown_.push_back(variable);
}

void Knowledge::bind_branch(BranchId branch, Set set) {
    if (branches_.size() <= branch.value) {
        branches_.resize(branch.value + 1, nothing);
    }
    branches_[branch.value] = set;
}

Set Knowledge::truth(ExpressionId id) {
    return truth(id, [](const Expression&) { return nothing; });
}

Set Knowledge::truth(ExpressionId id, const Facts& facts) {
    const Expression& expression = system_[id];
    switch (expression.kind) {
    case ExpressionKind::always:
        return everything;
    case ExpressionKind::never:
        return nothing;
    case ExpressionKind::all: {
        Set result = everything;
        for (const ExpressionId operand : expression.operands) {
            result = diagrams_.both(result, truth(operand, facts));
            if (result == nothing) {
                break;
            }
        }
        return result;
    }
    case ExpressionKind::any: {
        Set result = nothing;
        for (const ExpressionId operand : expression.operands) {
            result = diagrams_.either(result, truth(operand, facts));
        }
        return result;
    }
    case ExpressionKind::negation:
        return diagrams_.complement(truth(expression.operands.front(), facts));
    case ExpressionKind::stands: {
        const ExpressionId exists = system_[expression.variable].exists;
        const Set stands_so = stands(expression.variable, expression.values);
        if (exists == Expressions::always()) {
            return stands_so;
        }
        return diagrams_.either(stands_so, diagrams_.complement(truth(exists)));
    }
    case ExpressionKind::option:
        return options_[expression.option.value];
    case ExpressionKind::branch:
        return branches_[expression.branch.value];
    case ExpressionKind::no_pressure:
    case ExpressionKind::pressure_below:
    case ExpressionKind::holds:
    case ExpressionKind::empty:
    case ExpressionKind::reaches_liquid:
    case ExpressionKind::frost_safe:
    case ExpressionKind::drinkable:
    case ExpressionKind::sanitised:
    case ExpressionKind::restored:
    case ExpressionKind::cool:
        return facts(expression);
    }
    return nothing;
}

Example Knowledge::example(Set set) {
    // One configuration, as a conjunction of facts; then every fact goes without which it still is in the set.
    const std::vector<bool> full = assignment(diagrams_.both(set, possible_));
    struct Fact {
        Set holds;
        std::optional<OptionId> option;
        VariableId variable;
        std::uint32_t value = 0;
    };
    std::vector<Fact> facts;
    const std::vector<bool> matters = diagrams_.support(set, static_cast<std::uint32_t>(full.size()));
    for (std::uint32_t i = 0; i < options_.size(); ++i) {
        if (matters[i]) {
            facts.push_back({full[i] ? options_[i] : diagrams_.complement(options_[i]), OptionId(i), {}, full[i]});
        }
    }
    std::vector<bool> told(full.size());
    std::fill_n(told.begin(), options_.size(), true);
    for (const VariableId variable : unknown_) {
        const std::vector<Set>& values = at_start_[variable.value];
        Set any = nothing;
        for (const Set value : values) {
            const std::vector<bool> levels = diagrams_.support(value, static_cast<std::uint32_t>(full.size()));
            for (std::size_t level = 0; level < levels.size(); ++level) {
                if (levels[level]) {
                    told[level] = true;
                    any = any == nothing && matters[level] ? everything : any;
                }
            }
        }
        for (std::uint32_t value = 0; any != nothing && value < values.size(); ++value) {
            if (diagrams_.contains(values[value], full)) {
                facts.push_back({values[value], std::nullopt, variable, value});
            }
        }
    }
    // Cases that came up or did not: they stay, but nobody stands so at the start.
    Set rest = possible_;
    for (std::uint32_t level = 0; level < full.size(); ++level) {
        if (!told[level] && matters[level]) {
            const Set yes = diagrams_.level(level);
            rest = diagrams_.both(rest, full[level] ? yes : diagrams_.complement(yes));
        }
    }
    std::vector<Set> after(facts.size() + 1, rest); // what the facts from here on and the rest leave
    for (std::size_t i = facts.size(); i-- > 0;) {
        after[i] = diagrams_.both(after[i + 1], facts[i].holds);
    }
    Example example;
    Set kept = everything;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        if (diagrams_.within(diagrams_.both(kept, after[i + 1]), set)) {
            continue;
        }
        kept = diagrams_.both(kept, facts[i].holds);
        if (facts[i].option) {
            example.options.emplace_back(*facts[i].option, facts[i].value != 0);
        } else {
            example.unknowns.emplace_back(facts[i].variable, facts[i].value);
        }
    }
    return example;
}

std::vector<bool> Knowledge::assignment(Set set) const {
    const auto choice = diagrams_.pick(set, static_cast<std::uint32_t>(is_start_level_.size()));
    std::vector<bool> full(choice.size());
    for (std::size_t i = 0; i < choice.size(); ++i) {
        full[i] = choice[i].value_or(false);
    }
    return full;
}

std::uint32_t Knowledge::value_in(VariableId variable, const std::vector<bool>& assignment) const {
    const Standing& standing = standing_[variable.value];
    if (standing.value != Standing::varies) {
        return standing.value;
    }
    for (std::uint32_t value = 0; value < standing.per_value.size(); ++value) {
        if (diagrams_.contains(standing.per_value[value], assignment)) {
            return value;
        }
    }
    return 0;
}

std::vector<bool> Knowledge::start_levels() const {
    return is_start_level_;
}

} // namespace curbstop::instants
