#include "meaning/procedure_builder.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "meaning/expression_builder.h"
#include "meaning/fragment_use.h"
#include "meaning/rounds.h"

namespace curbstop::meaning {

Text ProcedureBuilder::words(syntax::Node string, const Scope& scope) {
    if (string.is(Syntax::label_)) {
        return words(string.child(0), scope);
    }
    Text text = text_of(string);
    const auto filled = [&](std::string_view written, Language language) {
        return with_bound_labels(written, scope, language);
    };
    for (Text::Translation& translation : text.others) {
        translation.text = filled(translation.text, translation.language);
    }
    Text result(filled(text, text.language), text.language, std::move(text.others));
    step_names_.note_uses(result, string, scope);
    return result;
}

std::string ProcedureBuilder::with_bound_labels(std::string_view text, const Scope& scope, Language language) {
    std::string result;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t close = text[i] == '{' ? text.find('}', i) : std::string::npos;
        const Scope::Binding* binding =
            close == std::string::npos ? nullptr : scope.find(text.substr(i + 1, close - i - 1));
        if (binding != nullptr && binding->thing) {
            result += binding->thing->label.in(language).text;
            i = close + 1;
        } else {
            result += text[i++];
        }
    }
    return result;
}

ExpressionId ProcedureBuilder::exists_of(const Thing& thing) const {
    return thing.part.valid() ? system_[thing.part].exists : Expressions::always();
}

std::optional<Contract> ProcedureBuilder::contract(syntax::Node node, const Scope& scope) {
    const auto expression = expression_from(context_, node.child(0), scope);
    if (!expression) {
        return std::nullopt;
    }
    return Contract{*expression, as_written(node.child(0)), node.span()};
}

Procedure ProcedureBuilder::build(syntax::Node declaration) {
    Procedure procedure{
        {std::string(declared_name(declaration)), label_of(declaration), doc_of(declaration), declaration.span()}};
    branches_ = 0;
    step_names_ = {};
    steps_ = 0;
    written_ = 0;
    too_long_ = false;
    for (const syntax::Node item : declaration.children()) {
        switch (item.kind()) {
        case Syntax::requires_:
            add_procedure_requires(procedure, item);
            break;
        case Syntax::ensures_:
            if (auto made = contract(item, Scope{})) {
                procedure.ensures.push_back(std::move(*made));
            }
            break;
        case Syntax::stage_:
            procedure.stages.push_back(stage(item));
            break;
        default:
            break;
        }
    }
    if (steps_ == 0) {
        context_.complain("no-steps", declaration.find(Syntax::name_)->span(),
                          fmt::format("procedure `{}` has no steps", procedure.name));
    }
    if (!too_long_ && statements_to_follow(procedure) > max_statements) {
        context_.complain(
            "too-many-steps", declaration.find(Syntax::name_)->span(),
            fmt::format("with all rounds of its repeats, this procedure has more than {} statements", max_statements));
    }
    procedure.branches = branches_;
    step_names_.write_numbers(procedure, context_);
    return procedure;
}

bool ProcedureBuilder::may_write_out(syntax::Node node) {
    const bool steps = steps_ > max_steps;
    if (!steps && ++written_ <= max_statements) {
        return true;
    }
    if (!too_long_) {
        too_long_ = true;
        context_.complain("too-many-steps", node.span(),
                          fmt::format("written out, this procedure has more than {} {}",
                                      steps ? max_steps : max_statements, steps ? "steps" : "statements"));
    }
    return false;
}

void ProcedureBuilder::add_procedure_requires(Procedure& procedure, syntax::Node node) {
    const syntax::Node expression = node.child(0);
    if (!expression.is(Syntax::as_leaves_)) {
        if (auto made = contract(node, Scope{})) {
            procedure.requires_.push_back(std::move(*made));
        }
        return;
    }
    const syntax::Node name = expression.child(0);
    const auto found = context_.procedures.find(name.text());
    if (found == context_.procedures.end()) {
        const bool declared = context_.declarations.procedures.find(name.text()).has_value();
        const auto meant = context_.declarations.procedures.nearest(name.text());
        context_.complain(
            "unknown-name", name.span(),
            declared ? fmt::format("procedure `{}` must be declared above the one that follows it", name.text())
                     : fmt::format("there is no procedure `{}`", name.text()),
            nullptr, {},
            meant && !declared ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        return;
    }
    procedure.as_left_by = found->second;
    procedure.as_left_span = node.span();
}

Stage ProcedureBuilder::stage(syntax::Node node) {
    Stage stage;
    stage.span = node.span();
    Scope scope;
    for (const syntax::Node item : node.children()) {
        switch (item.kind()) {
        case Syntax::label_:
            stage.label = words(item, scope);
            break;
        case Syntax::requires_:
            if (auto made = contract(item, scope)) {
                stage.requires_.push_back(std::move(*made));
            }
            break;
        case Syntax::ensures_:
            if (auto made = contract(item, scope)) {
                stage.ensures.push_back(std::move(*made));
            }
            break;
        default:
            add_stage_item(stage.items, item, scope);
            break;
        }
    }
    return stage;
}

void ProcedureBuilder::add_stage_items(StageItems& items, syntax::Node block, Scope& scope) {
    for (const syntax::Node item : block.children()) {
        add_stage_item(items, item, scope);
    }
}

void ProcedureBuilder::add_stage_item(StageItems& items, syntax::Node node, Scope& scope) {
    switch (node.kind()) {
    case Syntax::step_:
        add_step(items, node, scope);
        return;
    case Syntax::for_each_:
        each_turn(node, scope, [&](Scope& inner) {
            const ExpressionId there = exists_of(*inner.bindings[scope.bindings.size()].thing);
            if (there == Expressions::always()) {
                add_stage_items(items, *node.find(Syntax::block_), inner);
                return;
            }
            ConditionalSteps conditional{there, "", {}};
            add_stage_items(conditional.items, *node.find(Syntax::block_), inner);
            items.push_back({std::move(conditional), node.span()});
        });
        return;
    case Syntax::only_block_:
    case Syntax::without_block_: {
        const auto option = context_.option(node.child(0));
        ConditionalSteps conditional{Expressions::always(), "", {}};
        if (option) {
            const ExpressionId taken = system_.expressions.option(*option);
            conditional.condition = node.is(Syntax::only_block_) ? taken : system_.expressions.negate(taken);
            conditional.words = system_[*option].label;
        }
        add_stage_items(conditional.items, node.child(1), scope);
        items.push_back({std::move(conditional), node.span()});
        return;
    }
    case Syntax::in_case_: {
        InCaseSteps in_case{words(node.child(0), scope), BranchId(branches_++), {}};
        add_stage_items(in_case.items, node.child(1), scope);
        items.push_back({std::move(in_case), node.span()});
        return;
    }
    case Syntax::repeat_: {
        RepeatSteps repeat;
        if (const auto until = node.find(Syntax::until_)) {
            repeat.until = observation(*until, scope);
        }
        repeat.at_most = context_.count(*node.find(Syntax::number_), max_repetitions).value_or(1);
        add_stage_items(repeat.items, *node.find(Syntax::block_), scope);
        items.push_back({std::move(repeat), node.span()});
        return;
    }
    case Syntax::meanwhile_: {
        auto running = flow(node.child(0), scope);
        StageItems inner;
        add_stage_items(inner, node.child(1), scope);
        if (running) {
            items.push_back({MeanwhileSteps{std::move(*running), std::move(inner)}, node.span()});
        }
        return;
    }
    case Syntax::do_fragment_:
        if (const auto called = node.find(Syntax::called_)) {
            next_name_ = called->child(0);
        }
        inside_fragment(node, scope, true, [&](syntax::Node body, Scope& inner) {
            for (const syntax::Node item : body.children()) {
                if (!is_fragment_head(item)) {
                    add_stage_item(items, item, inner);
                }
            }
        });
        next_name_.reset();
        return;
    default:
        return;
    }
}

void ProcedureBuilder::add_step(StageItems& items, syntax::Node node, Scope& scope) {
    ++steps_;
    if (!may_write_out(node)) {
        return;
    }
    if (next_name_) {
        step_names_.declare(*next_name_, steps_);
        next_name_.reset();
    }
    Step step;
    step.span = node.span();
    for (const syntax::Node child : node.children()) {
        if (child.is(Syntax::label_)) {
            step.title = words(child, scope);
        } else if (child.is(Syntax::name_)) {
            step_names_.declare(child, steps_);
        } else {
            add_statement(step.statements, child, scope);
        }
    }
    items.push_back({std::move(step), node.span()});
}

std::vector<std::pair<Scope::Binding, std::vector<Scope::Binding>>>
ProcedureBuilder::loop_bindings(syntax::Node loop, const Scope& scope) {
    std::vector<std::pair<Scope::Binding, std::vector<Scope::Binding>>> turns;
    const syntax::Node name = loop.child(0);
    const syntax::Node group_name = loop.child(1);
    const auto group = context_.groups.find(group_name.text());
    if (group == context_.groups.end()) {
        const auto meant = context_.declarations.groups.nearest(group_name.text());
        context_.complain("unknown-name", group_name.span(), fmt::format("there is no group `{}`", group_name.text()),
                          &scope, {},
                          meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        return turns;
    }
    std::vector<PartId> parts = system_[group->second].parts;
    if (parts.empty()) {
        context_.complain("empty-group", group_name.span(),
                          fmt::format("no part of this system belongs to `{}`", group_name.text()), &scope);
    }
    if (const auto from_to = loop.find(Syntax::from_to_)) {
        parts = in_walking_order(std::move(parts), *from_to);
    }
    const auto each_way = loop.find(Syntax::each_way_);
    for (const PartId id : parts) {
        const Part& part = system_[id];
        Thing thing{.sort = Sort::part,
                    .part = id,
                    .variable = part.variable,
                    .name = part.name,
                    .label = part.label,
                    .span = part.span};
        std::vector<Scope::Binding> ways;
        if (each_way) {
            if (!part.variable.valid() || system_[part.variable].each_way.empty()) {
                context_.complain("no-ways", each_way->span(),
                                  fmt::format("kind `{}` of `{}` lists no `ways`", part.kind_name, part.label), &scope);
                continue;
            }
            const Variable& variable = system_[part.variable];
            for (const std::uint32_t value : variable.each_way) {
                Thing way{.sort = Sort::way,
                          .part = id,
                          .variable = part.variable,
                          .value = value,
                          .name = variable.values[value].name,
                          .label = variable.values[value].label};
                ways.push_back({each_way->child(0).text(), std::move(way), std::nullopt});
            }
        }
        turns.emplace_back(Scope::Binding{name.text(), std::move(thing), std::nullopt}, std::move(ways));
    }
    return turns;
}

std::vector<PartId> ProcedureBuilder::in_walking_order(std::vector<PartId> parts, syntax::Node from_to) {
    const auto from = context_.zone(from_to.child(0));
    const auto to = context_.zone(from_to.child(1));
    if (!from || !to) {
        return parts;
    }
    // Shortest walks from both ends, by repeated relaxation: zones are a handful.
    constexpr double far = std::numeric_limits<double>::max() / 4;
    const auto distances = [&](ZoneId start) {
        std::vector<double> distance(system_.zones.size(), far);
        distance[start.value] = 0;
        for (std::size_t round = 0; round < system_.zones.size(); ++round) {
            for (const Walk& walk : system_.walks) {
                const double length = to_double(walk.length, Unit::m);
                distance[walk.a.value] = std::min(distance[walk.a.value], distance[walk.b.value] + length);
                distance[walk.b.value] = std::min(distance[walk.b.value], distance[walk.a.value] + length);
            }
        }
        return distance;
    };
    const std::vector<double> start = distances(*from);
    const std::vector<double> goal = distances(*to);
    const auto along = [&](PartId id) {
        const Part& part = system_[id];
        return part.places.empty() ? far : start[part.places.front().zone.value] - goal[part.places.front().zone.value];
    };
    std::ranges::stable_sort(parts, {}, along);
    return parts;
}

} // namespace curbstop::meaning
