// Statements of a step.
#include <bit>

#include <fmt/format.h>

#include "meaning/expression_builder.h"
#include "meaning/fragment_use.h"
#include "meaning/photo_builder.h"
#include "meaning/procedure_builder.h"

namespace curbstop::meaning {

void ProcedureBuilder::push(Statements& statements, syntax::Node node, decltype(Statement::what) what,
                            ExpressionId exists) {
    statements.push_back({std::move(what), node.span(), exists});
}

void ProcedureBuilder::add_statements(Statements& statements, syntax::Node block, Scope& scope, std::size_t from) {
    std::size_t index = 0;
    for (const syntax::Node child : block.children()) {
        if (index++ >= from) {
            add_statement(statements, child, scope);
        }
    }
}

std::optional<Setting> ProcedureBuilder::setting_of(VariableId variable, syntax::Node standing, const Scope& scope) {
    const auto values = values_from(context_, variable, standing, scope);
    if (!values) {
        return std::nullopt;
    }
    if (std::popcount(*values) != 1) {
        context_.complain("unknown-position", standing.span(),
                          fmt::format("`{}` can be asked for, not set", as_written(standing)), &scope);
        return std::nullopt;
    }
    return Setting{variable, static_cast<std::uint32_t>(std::countr_zero(*values)), standing.span()};
}

std::optional<VariableId> ProcedureBuilder::end_of(syntax::Node ref, const Scope& scope) {
    const Thing* thing = context_.resolve(ref, scope);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->sort == Sort::end) {
        context_.mention(thing->variable);
        return thing->variable;
    }
    if (thing->sort == Sort::part) { // a part with just one end
        std::vector<VariableId> ends;
        for (const NodeId node : system_[thing->part].nodes) {
            if (system_[node].end.valid()) {
                ends.push_back(system_[node].end);
            }
        }
        if (ends.size() == 1) {
            context_.mention(ends.front());
            return ends.front();
        }
    }
    context_.wrong_sort(ref, *thing, "an end that can be coupled or capped", scope);
    return std::nullopt;
}

void ProcedureBuilder::add_statement(Statements& statements, syntax::Node node, Scope& scope) {
    if (!may_write_out(node)) {
        return;
    }
    switch (node.kind()) {
    case Syntax::set_: {
        SetStatement set;
        for (const VariableId variable : subjects_from(context_, node.child(0), scope)) {
            const Variable& moved = system_[variable];
            if (moved.kind == VariableKind::end || moved.kind == VariableKind::vessel) {
                context_.complain("wrong-sort", node.child(0).span(),
                                  fmt::format("`{}` is {}: it is not set", moved.label,
                                              moved.kind == VariableKind::end ? "an end" : "a vessel"),
                                  &scope, {},
                                  {moved.kind == VariableKind::end ? "use `couple`, `uncouple`, `cap` or `dip`"
                                                                   : "use `place … under` or `take … away`"});
                continue;
            }
            if (const auto setting = setting_of(variable, node.child(1), scope)) {
                const Variable& target = system_[variable];
                if (target.springs_back && *target.springs_back != setting->value) {
                    context_.complain("springs-back", node.span(),
                                      fmt::format("`{}` springs back to `{}`: it can only be held", target.label,
                                                  target.values[*target.springs_back].label),
                                      &scope, {},
                                      {fmt::format("write `hold {} at {} {{ … }}`", target.name,
                                                   target.values[setting->value].name)});
                }
                set.settings.push_back(*setting);
            }
        }
        if (!set.settings.empty()) {
            push(statements, node, std::move(set));
        }
        return;
    }
    case Syntax::hold_: {
        const auto variable = context_.variable(node.child(0), scope);
        Statements body;
        add_statements(body, node.child(2), scope);
        if (!variable) {
            return;
        }
        const auto setting = setting_of(*variable, node.child(1), scope);
        if (!system_[*variable].springs_back) {
            context_.complain("no-spring", node.child(0).span(),
                              fmt::format("`{}` stays where it is put: it need not be held", system_[*variable].label),
                              &scope, {}, {"use `set … to …`"});
            return;
        }
        if (setting) {
            push(statements, node, HoldStatement{*setting, std::move(body)}, system_[*variable].exists);
        }
        return;
    }
    case Syntax::couple_:
    case Syntax::uncouple_:
    case Syntax::cap_:
    case Syntax::uncap_:
    case Syntax::dip_:
    case Syntax::lift_out_:
    case Syntax::place_under_:
    case Syntax::take_away_:
    case Syntax::pour_:
        add_handling(statements, node, scope);
        return;
    case Syntax::verify_: {
        const auto expression = expression_from(context_, node.child(0), scope);
        if (!expression) {
            return;
        }
        VerifyStatement verify{*expression, as_written(node.child(0)), {}};
        variables_in(system_, *expression, verify.looked_at);
        push(statements, node, std::move(verify));
        return;
    }
    case Syntax::flow_:
    case Syntax::drain_:
        if (auto made = flow(node, scope)) {
            push(statements, node, FlowStatement{std::move(*made)});
        }
        return;
    case Syntax::keep_flow_:
        if (auto made = flow(node, scope)) {
            push(statements, node, KeepStatement{std::move(*made)});
        }
        return;
    case Syntax::pressurise_: {
        Flow origins;
        ExpressionId exists = Expressions::never();
        bool complete = true;
        for (const syntax::Node ref : node.child(0).children()) {
            complete = add_origin(origins, ref, scope, exists) && complete;
        }
        read_bounds(origins, node, scope);
        if (origins.until && origins.until->kind != ObservationKind::holds_pressure &&
            origins.until->kind != ObservationKind::reads_at_least) {
            context_.complain("wrong-observation", origins.until->span,
                              "what is brought to pressure holds it, or a gauge reads it", &scope, {},
                              {"write `until holds pressure \"what is seen\"`"});
            return;
        }
        if (complete) {
            push(statements, node,
                 PressuriseStatement{origins.supplies, origins.chambers, origins.origin_labels, origins.until,
                                     origins.at_most},
                 exists);
        }
        return;
    }
    case Syntax::repeat_: {
        RepeatStatement repeat;
        if (const auto until = node.find(Syntax::until_)) {
            repeat.until = observation(*until, scope);
        }
        repeat.at_most = context_.count(*node.find(Syntax::number_), max_repetitions).value_or(1);
        add_statements(repeat.body, *node.find(Syntax::block_), scope);
        push(statements, node, std::move(repeat));
        return;
    }
    case Syntax::requires_:
    case Syntax::ensures_:
        if (auto made = contract(node, scope)) {
            push(statements, node, ContractStatement{node.is(Syntax::requires_), made->expression, made->words});
        }
        return;
    case Syntax::for_each_:
        each_turn(node, scope, [&](Scope& inner) {
            const ExpressionId there = exists_of(*inner.bindings[scope.bindings.size()].thing);
            if (there == Expressions::always()) {
                add_statements(statements, *node.find(Syntax::block_), inner);
                return;
            }
            ConditionalStatement conditional{there, "", {}};
            add_statements(conditional.body, *node.find(Syntax::block_), inner);
            push(statements, node, std::move(conditional));
        });
        return;
    case Syntax::only_block_:
    case Syntax::without_block_: {
        const auto option = context_.option(node.child(0));
        ConditionalStatement conditional{Expressions::always(), "", {}};
        if (option) {
            const ExpressionId taken = system_.expressions.option(*option);
            conditional.condition = node.is(Syntax::only_block_) ? taken : system_.expressions.negate(taken);
            conditional.words = system_[*option].label;
        }
        add_statements(conditional.body, node.child(1), scope);
        push(statements, node, std::move(conditional));
        return;
    }
    case Syntax::in_case_: {
        InCaseStatement in_case{words(node.child(0), scope), BranchId(branches_++), {}};
        add_statements(in_case.body, node.child(1), scope);
        push(statements, node, std::move(in_case));
        return;
    }
    case Syntax::do_fragment_:
        if (const auto called = node.find(Syntax::called_)) {
            context_.complain("misplaced", called->span(), "only a run of steps has a first step to name", &scope, {},
                              {"give the name to the step: `step NAME \"TITLE\"`"});
        }
        inside_fragment(node, scope, false, [&](syntax::Node body, Scope& inner) {
            for (const syntax::Node item : body.children()) {
                if (!is_fragment_head(item)) {
                    add_statement(statements, item, inner);
                }
            }
        });
        return;
    default:
        add_words(statements, node, scope);
        return;
    }
}

void ProcedureBuilder::add_handling(Statements& statements, syntax::Node node, Scope& scope) {
    const auto partner_value = [&](VariableId end, NodeId partner,
                                   std::string_view how) -> std::optional<std::uint32_t> {
        const Variable& variable = system_[end];
        for (std::uint32_t i = 0; i < variable.values.size(); ++i) {
            if (variable.values[i].partner == partner) {
                return i;
            }
        }
        context_.complain("ends-do-not-fit", node.span(),
                          fmt::format("`{}` cannot be {} `{}`", variable.label, how, system_[partner].label), &scope,
                          {how == "dipped in" ? "only an end that `may dip` goes into a vessel"
                                              : "ends are coupled where both `fits` are the same"});
        return std::nullopt;
    };
    const auto vessel_of = [&](syntax::Node ref) -> std::optional<ChamberId> {
        const auto chamber = context_.chamber(ref, scope);
        if (chamber && !system_[*chamber].vessel) {
            context_.complain("wrong-sort", ref.span(), fmt::format("`{}` is no vessel", system_[*chamber].label),
                              &scope);
            return std::nullopt;
        }
        return chamber;
    };
    switch (node.kind()) {
    case Syntax::couple_: {
        const auto a = end_of(node.child(0), scope);
        const auto b = end_of(node.child(1), scope);
        if (!a || !b) {
            return;
        }
        const auto node_of = [&](VariableId end) {
            for (std::size_t i = 0; i < system_.nodes.size(); ++i) {
                if (system_.nodes[i].end == end) {
                    return NodeId(i);
                }
            }
            return NodeId{};
        };
        const auto a_value = partner_value(*a, node_of(*b), "coupled to");
        if (!a_value) {
            return;
        }
        const auto b_value = partner_value(*b, node_of(*a), "coupled to");
        if (b_value) {
            push(statements, node, CoupleStatement{*a, *b, *a_value, *b_value},
                 system_.expressions.both(system_[*a].exists, system_[*b].exists));
        }
        return;
    }
    case Syntax::uncouple_:
        if (const auto end = end_of(node.child(0), scope)) {
            push(statements, node, UncoupleStatement{*end}, system_[*end].exists);
        }
        return;
    case Syntax::cap_:
    case Syntax::uncap_:
        if (const auto end = end_of(node.child(0), scope)) {
            const Variable& variable = system_[*end];
            if (variable.values.size() < 2 || variable.values[1].name != "capped") {
                context_.complain("no-cap", node.child(0).span(), fmt::format("`{}` has no cap", variable.label),
                                  &scope, {}, {"declare the end `with cap`"});
                return;
            }
            push(statements, node, CapStatement{*end, node.is(Syntax::cap_)}, variable.exists);
        }
        return;
    case Syntax::dip_: {
        const auto end = end_of(node.child(0), scope);
        const auto vessel = vessel_of(node.child(1));
        if (!end || !vessel) {
            return;
        }
        if (const auto value = partner_value(*end, system_[*vessel].node, "dipped in")) {
            push(statements, node, DipStatement{*end, *value, *vessel}, system_[*end].exists);
        }
        return;
    }
    case Syntax::lift_out_:
        if (const auto end = end_of(node.child(0), scope)) {
            push(statements, node, LiftOutStatement{*end}, system_[*end].exists);
        }
        return;
    case Syntax::place_under_: {
        const auto vessel = vessel_of(node.child(0));
        const Thing* under = context_.resolve(node.child(1), scope);
        if (!vessel || under == nullptr) {
            return;
        }
        NodeId at = under->node;
        if (!at.valid() && under->sort == Sort::part && !system_[under->part].nodes.empty()) {
            at = system_[under->part].nodes.front(); // under the part as a whole
        }
        if (!at.valid()) {
            context_.wrong_sort(node.child(1), *under, "a part or an end", scope);
            return;
        }
        const VariableId whereabouts = system_[*vessel].whereabouts;
        push(statements, node, PlaceStatement{whereabouts, vessel_value(context_, whereabouts, at), *vessel, at},
             exists_of(*under));
        return;
    }
    case Syntax::take_away_:
        if (const auto vessel = vessel_of(node.child(0))) {
            push(statements, node, TakeAwayStatement{system_[*vessel].whereabouts, *vessel});
        }
        return;
    default: {
        const auto vessel = vessel_of(node.child(0));
        const Thing* into = context_.resolve(node.child(1), scope);
        if (!vessel || into == nullptr) {
            return;
        }
        NodeId at = into->node;
        if (!at.valid() && into->sort == Sort::part) {
            const auto chamber = context_.chamber(node.child(1), scope);
            if (!chamber) {
                return;
            }
            at = system_[*chamber].node;
        }
        if (!at.valid()) {
            context_.wrong_sort(node.child(1), *into, "a place, a vessel or a chamber", scope);
            return;
        }
        PourStatement pour{*vessel, at, into->label, {}};
        if (node.child_count() > 2) {
            pour.dose = context_.positive_quantity(node.child(2), Dimension::concentration);
            const FluidId fluid = system_[*vessel].fluid;
            if (!pour.dose) {
                return;
            }
            if (!fluid.valid() || system_[fluid].disinfects.empty() || !system_[at].chamber.valid()) {
                context_.complain("wrong-sort", node.child(2).span(),
                                  "only a disinfectant is dosed, out of a vessel that is filled with it into a chamber",
                                  &scope);
                return;
            }
        }
        push(statements, node, std::move(pour), exists_of(*into));
        return;
    }
    }
}

void ProcedureBuilder::add_words(Statements& statements, syntax::Node node, Scope& scope) {
    switch (node.kind()) {
    case Syntax::watch_: {
        const Thing* where = context_.resolve(node.child(1), scope);
        if (where == nullptr) {
            return;
        }
        WatchStatement watch{words(node.child(0), scope), where->zone, where->part};
        if (where->sort == Sort::part && !system_[where->part].places.empty()) {
            watch.zone = system_[where->part].places.front().zone;
        }
        if (!watch.zone.valid()) {
            context_.wrong_sort(node.child(1), *where, "a zone or a part", scope);
            return;
        }
        push(statements, node, std::move(watch), exists_of(*where));
        return;
    }
    case Syntax::helper_: {
        const auto string = node.find(Syntax::string_);
        push(statements, node, HelperStatement{string ? words(*string, scope) : Text{}});
        return;
    }
    case Syntax::wait_:
        if (const auto time = context_.positive_quantity(node.child(0), Dimension::time)) {
            push(statements, node, WaitStatement{*time});
        }
        return;
    case Syntax::wear_: {
        WearStatement wear;
        for (const syntax::Node item : node.children()) {
            wear.items.push_back(words(item, scope));
        }
        push(statements, node, std::move(wear));
        return;
    }
    case Syntax::bring_: {
        BringStatement bring;
        for (const syntax::Node item : node.children()) {
            if (item.is(Syntax::string_)) {
                bring.item = words(item, scope);
            } else if (item.is(Syntax::quantity_)) {
                bring.amount = context_.positive_quantity(item, Dimension::volume);
            } else if (item.is(Syntax::name_)) {
                const auto fluid = context_.fluid(item, &scope);
                if (!fluid) {
                    return;
                }
                bring.fluid = *fluid;
            }
        }
        push(statements, node, std::move(bring));
        return;
    }
    case Syntax::record_: {
        const std::string_view what = node.child(1).text();
        const RecordKind kind = what == "date"    ? RecordKind::date
                                : what == "clock" ? RecordKind::clock
                                                  : RecordKind::measured;
        const auto dimension = kind == RecordKind::measured ? dimension_from_name(what) : Dimension::count;
        if (!dimension) {
            context_.complain("unknown-name", node.child(1).span(),
                              fmt::format("`{}` is nothing that can be measured", what), &scope,
                              {"record as length, volume, pressure, temperature, time, flow, concentration, mass, "
                               "power, count, date or clock"});
            return;
        }
        RecordStatement record{words(node.child(0), scope), *dimension, kind};
        if (const syntax::Node unit = node.child_count() > 2 ? node.child(2) : node;
            unit.is(Syntax::unit_) || unit.is(Syntax::name_)) {
            record.unit = context_.unit(unit, *dimension,
                                        kind == RecordKind::date    ? "a date"
                                        : kind == RecordKind::clock ? "a clock"
                                                                    : dimension_name(*dimension));
            if (!record.unit) {
                return;
            }
        }
        if (read_bounds(record, node, scope)) {
            push(statements, node, std::move(record));
        }
        return;
    }
    case Syntax::note_:
        push(statements, node, NoteStatement{words(node.child(0), scope)});
        return;
    case Syntax::photo_:
        if (const auto photo =
                photo_from(context_, system_, node, node.child_count() > 1 ? words(node.child(1), scope) : Text())) {
            push(statements, node, PhotoStatement{*photo});
        }
        return;
    case Syntax::signal_:
        if (const auto signal = signal_from_name(node.child(0).text())) {
            push(statements, node, SignalStatement{*signal, words(node.child(1), scope)});
        }
        return;
    default:
        return;
    }
}

} // namespace curbstop::meaning
