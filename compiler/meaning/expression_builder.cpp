#include "meaning/expression_builder.h"

#include <algorithm>
#include <bit>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "text/nearest.h"

namespace curbstop::meaning {

std::optional<std::uint32_t> dial_value(Context& context, VariableId dial, const Quantity& setting, text::Span where) {
    Variable& variable = context.system.variables[dial.value];
    for (std::uint32_t i = 0; i < variable.values.size(); ++i) {
        if (variable.values[i].setting->value == setting.value) {
            return i;
        }
    }
    const Quantity& greatest = *variable.values[0].setting;
    const Quantity& least = *variable.values[1].setting;
    if (setting.value < least.value || greatest.value < setting.value) {
        context.complain(
            "outside-dial", where,
            fmt::format("`{}` goes from {} to {}", variable.label, variable.values[1].label, variable.values[0].label));
        return std::nullopt;
    }
    if (variable.values.size() >= max_values) {
        context.complain("too-many-values", where,
                         fmt::format("`{}` is set to more than {} different values", variable.label, max_values));
        return std::nullopt;
    }
    variable.values.push_back(
        {{fmt::format("setting {}", variable.values.size()), std::string(context.sources.text(where)), "", where},
         setting});
    return static_cast<std::uint32_t>(variable.values.size() - 1);
}

std::uint32_t vessel_value(Context& context, VariableId vessel, NodeId under) {
    Variable& variable = context.system.variables[vessel.value];
    for (std::uint32_t i = 1; i < variable.values.size(); ++i) {
        if (variable.values[i].partner == under) {
            return i;
        }
    }
    const Node& node = context.system[under];
    variable.values.push_back(
        {{fmt::format("under {}", node.name), composed("", "under ", node.label), "", node.span}, {}, under});
    return static_cast<std::uint32_t>(variable.values.size() - 1);
}

namespace {

std::optional<ValueSet> partner_value(Context& context, VariableId id, syntax::Node standing, NodeId partner,
                                      std::string_view how) {
    const Variable& variable = context.system[id];
    for (std::size_t i = 0; i < variable.values.size(); ++i) {
        if (variable.values[i].partner == partner) {
            return ValueSet{1} << i;
        }
    }
    context.complain("ends-do-not-fit", standing.span(),
                     fmt::format("`{}` cannot be {} `{}`", variable.label, how, context.system[partner].label), nullptr,
                     {how == "dipped in" ? "only an end that `may dip` goes into a vessel"
                                         : "ends are coupled where both `fits` are the same"});
    return std::nullopt;
}

std::optional<ValueSet> named_value(Context& context, VariableId id, syntax::Node name, const Scope& scope) {
    const Variable& variable = context.system[id];
    std::string written(name.text());
    if (const Scope::Binding* binding = scope.find(written);
        binding != nullptr && binding->thing && binding->thing->sort == Sort::way) {
        written = binding->thing->name;
    }
    if (variable.kind == VariableKind::end && written == "uncoupled") {
        ValueSet values = 0;
        for (std::size_t i = 0; i < variable.values.size(); ++i) {
            const NodeId partner = variable.values[i].partner;
            if (!partner.valid() || context.system[partner].kind != NodeKind::end) {
                values |= ValueSet{1} << i;
            }
        }
        return values;
    }
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < variable.values.size(); ++i) {
        if (variable.values[i].name == written && variable.kind != VariableKind::dial) {
            return ValueSet{1} << i;
        }
        if (variable.kind != VariableKind::dial && !variable.values[i].partner.valid()) {
            names.push_back(variable.values[i].name);
        }
    }
    const auto meant = text::nearest(written, names);
    std::vector<std::string> notes;
    if (!names.empty()) {
        notes.push_back(fmt::format("it can be `{}`", fmt::join(names, "`, `")));
    }
    if (variable.kind == VariableKind::dial) {
        notes.push_back("a dial is set to a quantity");
    }
    context.complain("unknown-position", name.span(), fmt::format("`{}` cannot stand `{}`", variable.label, written),
                     &scope, std::move(notes),
                     meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
    return std::nullopt;
}

} // namespace

std::optional<ValueSet> values_from(Context& context, VariableId id, syntax::Node standing, const Scope& scope) {
    const syntax::Node what = standing.child(0);
    const Variable& variable = context.system[id];
    switch (what.kind()) {
    case Syntax::name_:
        return named_value(context, id, what, scope);
    case Syntax::quantity_: {
        if (variable.kind != VariableKind::dial) {
            context.complain("wrong-sort", what.span(),
                             fmt::format("`{}` is no dial: it stands at a position, not a quantity", variable.label),
                             &scope);
            return std::nullopt;
        }
        const auto setting = context.quantity(what, Dimension::pressure);
        if (!setting) {
            return std::nullopt;
        }
        const auto value = dial_value(context, id, *setting, what.span());
        return value ? std::optional(ValueSet{1} << *value) : std::nullopt;
    }
    case Syntax::coupled_to_: {
        const auto partner = context.node(what.child(0), scope);
        if (!partner) {
            return std::nullopt;
        }
        if (context.system[*partner].end.valid()) {
            context.mention(context.system[*partner].end);
        }
        return partner_value(context, id, what, *partner, "coupled to");
    }
    case Syntax::in_vessel_: {
        const auto vessel = context.chamber(what.child(0), scope);
        return vessel ? partner_value(context, id, what, context.system[*vessel].node, "dipped in") : std::nullopt;
    }
    case Syntax::under_: {
        if (variable.kind != VariableKind::vessel) {
            context.complain("wrong-sort", what.span(), fmt::format("`{}` is no vessel", variable.label), &scope);
            return std::nullopt;
        }
        const auto node = context.node(what.child(0), scope);
        return node ? std::optional(ValueSet{1} << vessel_value(context, id, *node)) : std::nullopt;
    }
    default:
        return std::nullopt;
    }
}

std::vector<VariableId> subjects_from(Context& context, syntax::Node subjects, const Scope& scope) {
    std::vector<VariableId> variables;
    const auto add_group = [&](syntax::Node name) {
        if (name.text() == "covers") {
            for (const Cover& cover : context.system.covers) {
                variables.push_back(cover.variable);
                context.mention(cover.variable);
            }
            return;
        }
        const auto group = context.groups.find(name.text());
        if (group == context.groups.end()) {
            const auto meant = context.declarations.groups.nearest(name.text());
            context.complain(
                "unknown-name", name.span(), fmt::format("there is no group `{}`", name.text()), &scope, {},
                meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
            return;
        }
        const std::vector<PartId>& parts = context.system[group->second].parts;
        if (parts.empty()) {
            context.complain("empty-group", name.span(),
                             fmt::format("no part of this system belongs to `{}`", name.text()), &scope);
        }
        for (const PartId part : parts) {
            if (context.system[part].variable.valid()) {
                variables.push_back(context.system[part].variable);
                context.mention(context.system[part].variable);
            }
        }
    };
    const auto add_one = [&](syntax::Node subject) {
        if (subject.is(Syntax::all_of_)) {
            add_group(subject.child(0));
        } else if (const auto variable = context.variable(subject, scope)) {
            variables.push_back(*variable);
        }
    };
    if (subjects.is(Syntax::subjects_)) {
        for (const syntax::Node subject : subjects.children()) {
            add_one(subject);
        }
    } else {
        add_one(subjects);
    }
    return variables;
}

namespace {

// What is not there counts as standing any way one asks, and so does its denial. A coupling speaks of two ends.
ExpressionId said_of(System& system, VariableId id, ValueSet values, bool negated, text::Span span) {
    const ExpressionId stands = system.expressions.stands(id, negated ? ~values : values, span);
    const Variable& variable = system[id];
    if (variable.kind != VariableKind::end || std::popcount(values) != 1) {
        return stands;
    }
    const NodeId partner = variable.values[static_cast<std::size_t>(std::countr_zero(values))].partner;
    if (!partner.valid() || !system[partner].end.valid()) {
        return stands;
    }
    const ExpressionId there = system[system[partner].end].exists;
    return there == Expressions::always() ? stands
                                          : system.expressions.any_of({stands, system.expressions.negate(there)}, span);
}

class ExpressionReader {
  public:
    ExpressionReader(Context& context, const Scope& scope, std::span<const NodeId> own_ports)
        : context_(context)
        , expressions_(context.system.expressions)
        , scope_(scope)
        , own_ports_(own_ports) {}

    std::optional<ExpressionId> read(syntax::Node node) {
        switch (node.kind()) {
        case Syntax::or_expr_:
        case Syntax::and_expr_:
            return read_many(node);
        case Syntax::implies_expr_: {
            const auto premise = read(node.child(0));
            const auto conclusion = read(node.child(1));
            if (!premise || !conclusion) {
                return std::nullopt;
            }
            return expressions_.any_of({expressions_.negate(*premise), *conclusion}, node.span());
        }
        case Syntax::not_expr_: {
            const auto operand = read(node.child(0));
            return operand ? std::optional(expressions_.negate(*operand)) : std::nullopt;
        }
        case Syntax::is_expr_:
            return read_is(node);
        case Syntax::holds_expr_: {
            const auto chamber = context_.chamber(node.child(0), scope_);
            if (!chamber) {
                return std::nullopt;
            }
            Expression holds{.kind = ExpressionKind::holds, .chamber = *chamber, .span = node.span()};
            if (node.child(1).text() != "liquid") {
                const auto fluid = context_.fluid(node.child(1), &scope_);
                if (!fluid) {
                    return std::nullopt;
                }
                holds.fluid = *fluid;
            }
            return expressions_.add(std::move(holds));
        }
        case Syntax::reaches_liquid_:
            return about_node(node, ExpressionKind::reaches_liquid);
        case Syntax::no_pressure_:
            return read_no_pressure(node);
        case Syntax::pressure_below_: {
            const auto at = context_.node(node.child(0), scope_);
            const auto limit = context_.positive_quantity(node.child(1), Dimension::pressure);
            if (!at || !limit) {
                return std::nullopt;
            }
            return expressions_.add(
                {.kind = ExpressionKind::pressure_below, .node = *at, .quantity = *limit, .span = node.span()});
        }
        case Syntax::frost_safe_: {
            const auto at = context_.quantity(node.child(0), Dimension::temperature);
            return at ? std::optional(expressions_.add(
                            {.kind = ExpressionKind::frost_safe, .quantity = *at, .span = node.span()}))
                      : std::nullopt;
        }
        case Syntax::drinkable_:
            return measured_by_use(node, ExpressionKind::drinkable);
        case Syntax::sanitised_:
            return read_sanitised(node);
        case Syntax::restored_:
            return measured_by_use(node, ExpressionKind::restored);
        case Syntax::lineup_expr_:
            return read_lineup(node);
        case Syntax::as_leaves_:
            context_.complain("misplaced", node.span(), "`as … leaves it` stands alone in a `requires` of a procedure",
                              &scope_);
            return std::nullopt;
        default:
            return std::nullopt;
        }
    }

  private:
    std::optional<ExpressionId> read_many(syntax::Node node) {
        std::vector<ExpressionId> operands;
        bool complete = true;
        for (const syntax::Node child : node.children()) {
            if (const auto operand = read(child)) {
                operands.push_back(*operand);
            } else {
                complete = false;
            }
        }
        if (!complete) {
            return std::nullopt;
        }
        return node.is(Syntax::and_expr_) ? expressions_.all_of(std::move(operands), node.span())
                                          : expressions_.any_of(std::move(operands), node.span());
    }

    std::optional<ExpressionId> about_node(syntax::Node node, ExpressionKind kind) {
        const auto at = context_.node(node.child(0), scope_);
        return at ? std::optional(expressions_.add({.kind = kind, .node = *at, .span = node.span()})) : std::nullopt;
    }

    std::optional<ExpressionId> read_no_pressure(syntax::Node node) {
        std::vector<ExpressionId> operands;
        const auto add = [&](NodeId at) {
            operands.push_back(
                expressions_.add({.kind = ExpressionKind::no_pressure, .node = at, .span = node.span()}));
        };
        if (node.child_count() == 0) {
            if (own_ports_.empty()) {
                add(NodeId{}); // anywhere
            }
            for (const NodeId port : own_ports_) {
                add(port);
            }
        }
        for (const syntax::Node ref : node.children()) {
            // A part as a whole: none of its ports may be under pressure.
            const Thing* thing = context_.resolve(ref, scope_);
            if (thing == nullptr) {
                return std::nullopt;
            }
            if (thing->sort == Sort::part) {
                for (const NodeId own : context_.system[thing->part].nodes) {
                    add(own);
                }
            } else if (thing->node.valid()) {
                add(thing->node);
            } else {
                context_.wrong_sort(ref, *thing, "a part or a place in the pipework", scope_);
                return std::nullopt;
            }
        }
        return expressions_.all_of(std::move(operands), node.span());
    }

    std::optional<ExpressionId> read_is(syntax::Node node) {
        const syntax::Node subjects = node.child(0);
        const bool negated = node.has(Syntax::is_not_);
        const syntax::Node what = node.child(node.child_count() - 1);
        std::vector<ExpressionId> operands;
        if (what.is(Syntax::empty_) || what.is(Syntax::cool_)) {
            for (const syntax::Node subject : subjects.children()) {
                if (!subject.is(Syntax::ref_)) {
                    context_.complain("misplaced", subject.span(), "name the chambers one by one", &scope_);
                    return std::nullopt;
                }
                const auto chamber = context_.chamber(subject, scope_);
                if (!chamber) {
                    return std::nullopt;
                }
                const ExpressionId fact =
                    expressions_.add({.kind = what.is(Syntax::empty_) ? ExpressionKind::empty : ExpressionKind::cool,
                                      .chamber = *chamber,
                                      .span = node.span()});
                operands.push_back(negated ? expressions_.negate(fact) : fact);
            }
            return expressions_.all_of(std::move(operands), node.span());
        }
        // An optional part that the kind was not given stands any way one asks.
        if (subjects.child_count() == 1 && context_.is_left_out(subjects.child(0), scope_)) {
            return Expressions::always();
        }
        const std::vector<VariableId> variables = subjects_from(context_, subjects, scope_);
        if (variables.empty()) {
            return std::nullopt;
        }
        for (const VariableId variable : variables) {
            const auto values = values_from(context_, variable, what, scope_);
            if (!values) {
                return std::nullopt;
            }
            operands.push_back(said_of(context_.system, variable, *values, negated, node.span()));
        }
        return expressions_.all_of(std::move(operands), node.span());
    }

    // What only a line-up for use can tell: without one there is nothing to measure by.
    std::optional<ExpressionId> measured_by_use(syntax::Node node, ExpressionKind kind) {
        const auto lineups = context_.declarations.lineups.in_order();
        const bool any =
            std::ranges::any_of(lineups, [](const syntax::Node& lineup) { return lineup.has(Syntax::for_use_); });
        if (!any) {
            context_.complain(
                "no-line-up-for-use", node.span(),
                fmt::format("nothing says how things stand in use, so nobody can tell what is `{}`", as_written(node)),
                nullptr, {}, {"write `for use` behind the name of the line-up in which it is used"});
            return std::nullopt;
        }
        return expressions_.add({.kind = kind, .span = node.span()});
    }

    // What is excepted are parts: with an assembly all that it is made of.
    std::optional<ExpressionId> read_sanitised(syntax::Node node) {
        std::vector<PartId> parts;
        if (const auto list = node.find(Syntax::except_)) {
            for (const syntax::Node ref : list->children()) {
                const Thing* thing = context_.resolve(ref, scope_);
                if (thing == nullptr) {
                    return std::nullopt;
                }
                if (thing->sort != Sort::part) {
                    context_.wrong_sort(ref, *thing, "a part that is left out", scope_);
                    return std::nullopt;
                }
                const std::string inside = context_.system[thing->part].name + ".";
                for (std::uint32_t i = 0; i < context_.system.parts.size(); ++i) {
                    if (i == thing->part.value || context_.system.parts[i].name.starts_with(inside)) {
                        parts.emplace_back(i);
                    }
                }
            }
        }
        const auto claim = measured_by_use(node, ExpressionKind::sanitised);
        if (!claim || parts.empty()) {
            return claim;
        }
        return expressions_.add({.kind = ExpressionKind::sanitised, .parts = std::move(parts), .span = node.span()});
    }

    std::optional<ExpressionId> read_lineup(syntax::Node node) {
        const syntax::Node name = node.child(0);
        const auto found = context_.lineups.find(name.text());
        if (found == context_.lineups.end()) {
            const auto meant = context_.declarations.lineups.nearest(name.text());
            context_.complain(
                "unknown-name", name.span(), fmt::format("there is no line-up `{}`", name.text()), &scope_,
                context_.names.find(name.text()) != nullptr
                    ? std::vector{fmt::format("`{}` is {}: say how it must stand (`{} is …`)", name.text(),
                                              sort_name(context_.names.find(name.text())->sort), name.text())}
                    : std::vector<std::string>{},
                meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
            return std::nullopt;
        }
        std::vector<VariableId> except;
        if (const auto list = node.find(Syntax::except_)) {
            for (const syntax::Node ref : list->children()) {
                for (const VariableId variable : subjects_from(context_, ref, scope_)) {
                    except.push_back(variable);
                }
            }
        }
        std::vector<ExpressionId> operands;
        for (const Lineup::Entry& entry : context_.system[found->second].entries) {
            if (std::ranges::find(except, entry.variable) == except.end()) {
                operands.push_back(said_of(context_.system, entry.variable, entry.values, false, entry.span));
            }
        }
        return expressions_.all_of(std::move(operands), node.span());
    }

    Context& context_;
    Expressions& expressions_;
    const Scope& scope_;
    std::span<const NodeId> own_ports_;
};

} // namespace

void variables_in(const System& system, ExpressionId expression, std::vector<VariableId>& variables) {
    const Expression& node = system[expression];
    if (node.kind == ExpressionKind::stands && std::ranges::find(variables, node.variable) == variables.end()) {
        variables.push_back(node.variable);
    }
    for (const ExpressionId operand : node.operands) {
        variables_in(system, operand, variables);
    }
}

std::optional<ExpressionId> expression_from(Context& context, syntax::Node node, const Scope& scope,
                                            std::span<const NodeId> own_ports) {
    return ExpressionReader(context, scope, own_ports).read(node);
}

} // namespace curbstop::meaning
