// Ways, sources, outlets, guards and runs: what joins the named things of a system.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "meaning/expression_builder.h"
#include "meaning/system_builder.h"

namespace curbstop::meaning {

void SystemBuilder::bind_given_parts(Instance& instance) {
    for (const syntax::Node given : instance.kind->givens) {
        if (dimension_from_name(given.child(1).text())) {
            continue;
        }
        const std::string_view name = given.child(0).text();
        const auto written = setting(instance, name);
        const auto binding = std::ranges::find(instance.scope.bindings, name, &Scope::Binding::name);
        std::optional<Thing>& given_part = context_.given_parts[fmt::format("{}.{}", instance.scope.prefix, name)];
        if (!written) {
            if (!given.has(Syntax::optional_)) {
                context_.complain("missing-given", system_[instance.part].span,
                                  fmt::format("`{}` needs to be told its `{}`", system_[instance.part].label, name),
                                  nullptr,
                                  {fmt::format("kind `{}` depends on a part of kind `{}`", instance.kind->name,
                                               given.child(1).text())},
                                  {fmt::format("write `{{ {} PART }}` after the part", name)});
            }
            continue;
        }
        const Scope outer = outer_scope(instance);
        if (context_.is_left_out(*written, outer)) {
            continue;
        }
        const Thing* thing = written->is(Syntax::ref_) ? context_.resolve(*written, outer) : nullptr;
        if (thing == nullptr) {
            if (!written->is(Syntax::ref_)) {
                context_.complain("wrong-sort", written->span(),
                                  fmt::format("`{}` is another part, not a quantity", name));
            }
            continue;
        }
        if (thing->sort != Sort::part) {
            context_.wrong_sort(*written, *thing, fmt::format("a part of kind `{}`", given.child(1).text()), outer);
        } else if (system_[thing->part].kind_name != given.child(1).text()) {
            context_.complain("wrong-kind", written->span(),
                              fmt::format("`{}` is of kind `{}`, but `{}` must be of kind `{}`", dotted(*written),
                                          system_[thing->part].kind_name, name, given.child(1).text()));
        } else {
            binding->thing = *thing;
            given_part = *thing;
            if (thing->variable.valid()) {
                context_.mention(thing->variable);
            }
        }
    }
}

ExpressionId SystemBuilder::while_clause(syntax::Node way, const Scope& scope) {
    if (const auto clause = way.find(Syntax::while_clause_)) {
        return expression_from(context_, clause->child(0), scope).value_or(Expressions::always());
    }
    return Expressions::always();
}

void SystemBuilder::join(Instance& instance) {
    Part& part = system_.parts[instance.part.value];
    part.below = NodeId(0);
    if (instance.outer != SIZE_MAX) {
        part.below = system_[instances_[instance.outer].part].below;
    }
    if (instance.over) {
        const Thing* thing = context_.resolve(instance.over->child(0), Scope{});
        if (thing != nullptr && thing->sort == Sort::vessel) {
            context_.wrong_sort(instance.over->child(0), *thing,
                                "something that always lies below (a vessel is placed by a step)", Scope{});
        } else if (thing != nullptr) {
            if (const auto node = context_.node(instance.over->child(0), Scope{})) {
                part.below = *node;
            }
        }
    }
    // Chambers: the ports named at their levels join them.
    for (const syntax::Node item : instance.kind->chambers) {
        const Thing* chamber = context_.names.find(fmt::format("{}.{}", instance.scope.prefix, declared_name(item)));
        if (chamber == nullptr) {
            continue;
        }
        for (const syntax::Node at_level : item.children()) {
            Level level = Level::none;
            switch (at_level.kind()) {
            case Syntax::low_:
                level = Level::low;
                break;
            case Syntax::side_:
                level = Level::side;
                break;
            case Syntax::brim_:
                level = Level::brim;
                break;
            case Syntax::top_:
                level = Level::top;
                break;
            default:
                continue;
            }
            for (const syntax::Node name : at_level.children()) {
                const auto port = context_.node(name, instance.scope);
                if (!port) {
                    continue;
                }
                Node& node = system_.nodes[port->value];
                if (node.level != Level::none) {
                    context_.complain("name-taken", name.span(),
                                      fmt::format("port `{}` joins a chamber already", name.text()));
                    continue;
                }
                node.level = level;
                node.level_of = chamber->node;
                push_way({.kind = WayKind::two_way,
                          .from = *port,
                          .to = chamber->node,
                          .part = instance.part,
                          .condition = system_[instance.part].exists,
                          .exists = system_[instance.part].exists,
                          .span = name.span()});
            }
        }
    }
    const ExpressionId exists = system_[instance.part].exists;
    for (const syntax::Node always : instance.kind->always) {
        for (const syntax::Node ways : always.children()) {
            if (ways.is(Syntax::ways_)) {
                add_ways(instance, ways, exists);
            }
        }
    }
    for (std::uint32_t i = 0; i < instance.kind->positions.size() && i < max_values; ++i) {
        const syntax::Node position = instance.kind->positions[i];
        const ExpressionId stands =
            system_.expressions.stands(system_[instance.part].variable, ValueSet{1} << i, position.span());
        const ExpressionId condition =
            system_.expressions.all_of({exists, stands, while_clause(position, instance.scope)}, position.span());
        for (const syntax::Node ways : position.children()) {
            if (ways.is(Syntax::ways_)) {
                add_ways(instance, ways, condition);
            }
        }
    }
    add_guards(instance);
}

void SystemBuilder::add_ways(const Instance& instance, syntax::Node ways, ExpressionId condition) {
    for (const syntax::Node way : ways.children()) {
        switch (way.kind()) {
        case Syntax::supplies_:
        case Syntax::lifts_:
        case Syntax::stores_:
        case Syntax::heats_:
            add_source(instance, way, condition);
            break;
        default:
            add_way(instance, way, condition);
            break;
        }
    }
}

OutletId SystemBuilder::add_outlet(Outlet outlet) {
    system_.outlets.push_back(std::move(outlet));
    return OutletId(system_.outlets.size() - 1);
}

OutletId SystemBuilder::outlet_for(const Instance& instance, NodeId lands, bool below) {
    Part& part = system_.parts[instance.part.value];
    for (const OutletId id : part.outlets) {
        const Outlet& outlet = system_[id];
        if (outlet.below == below && outlet.lands == lands && !outlet.fills.valid()) {
            return id;
        }
    }
    Outlet outlet{{part.name, part.label, "", part.span}, instance.part};
    outlet.lands = lands;
    outlet.below = below;
    outlet.height = part.height;
    const OutletId id = add_outlet(std::move(outlet));
    part.outlets.push_back(id);
    return id;
}

WayId SystemBuilder::push_way(Way way) {
    system_.ways.push_back(std::move(way));
    return WayId(system_.ways.size() - 1);
}

void SystemBuilder::add_way(const Instance& instance, syntax::Node node, ExpressionId condition) {
    const Scope& scope = instance.scope;
    condition = system_.expressions.both(condition, while_clause(node, scope));
    Way way{
        .part = instance.part, .condition = condition, .exists = system_[instance.part].exists, .span = node.span()};
    const auto outlet_way = [&](Way outgoing, OutletId outlet) {
        outgoing.outlet = outlet;
        const WayId id = push_way(std::move(outgoing));
        system_.outlets[outlet.value].ways.push_back(id);
    };
    switch (node.kind()) {
    case Syntax::two_way_:
    case Syntax::one_way_: {
        const auto from = context_.node(node.child(0), scope);
        const auto to = context_.node(node.child(1), scope);
        if (!from || !to) {
            return;
        }
        way.kind = node.is(Syntax::two_way_) ? WayKind::two_way : WayKind::one_way;
        way.from = *from;
        way.to = *to;
        if (const auto limits = node.find(Syntax::limits_)) {
            way.limits = context_.positive_quantity(limits->child(0), Dimension::pressure);
        }
        if (const auto protects = node.find(Syntax::protects_)) {
            way.protects = static_cast<int>(context_.count(protects->child(0), 5).value_or(2));
        }
        push_way(std::move(way));
        return;
    }
    case Syntax::fall_: {
        const auto from = context_.node(node.child(0), scope);
        if (!from) {
            return;
        }
        way.kind = WayKind::fall;
        way.from = *from;
        if (const auto above = node.find(Syntax::above_)) {
            way.above = context_.positive_quantity(above->child(0), Dimension::pressure);
        }
        const std::string target = dotted(node.child(1));
        const bool below = target == "below";
        if (below) {
            way.to = system_[instance.part].below;
        } else if (target == "ground") {
            way.to = NodeId(0);
        } else if (const auto to = context_.node(node.child(1), scope)) {
            way.to = *to;
        } else {
            return;
        }
        const NodeId lands = way.to;
        outlet_way(std::move(way), outlet_for(instance, lands, below));
        return;
    }
    case Syntax::breach_:
        for (const syntax::Node ref : node.child(0).children()) {
            if (const auto at = context_.node(ref, scope)) {
                Way opened = way;
                opened.kind = WayKind::breach;
                opened.from = *at;
                const Node& opened_node = system_[*at];
                Part& part = system_.parts[instance.part.value];
                // One outlet per breached node, whichever position opens it.
                const auto same = std::ranges::find_if(part.outlets, [&](OutletId id) {
                    return !system_[id].ways.empty() && system_[system_[id].ways.front()].kind == WayKind::breach &&
                           system_[system_[id].ways.front()].from == *at;
                });
                OutletId outlet;
                if (same != part.outlets.end()) {
                    outlet = *same;
                } else {
                    Outlet made{{opened_node.name, opened_node.label, "", node.span()}, instance.part};
                    made.lands = part.below;
                    made.below = true;
                    made.height = part.height;
                    outlet = add_outlet(std::move(made));
                    part.outlets.push_back(outlet);
                }
                outlet_way(std::move(opened), outlet);
            }
        }
        return;
    case Syntax::vent_:
        if (const auto at = context_.node(node.child(0), scope)) {
            way.kind = WayKind::vent;
            way.from = *at;
            if (const ChamberId chamber = system_[*at].chamber) {
                Chamber& vented = system_.chambers[chamber.value];
                vented.vented = system_.expressions.either(vented.vented, condition);
            }
            push_way(std::move(way));
        }
        return;
    default:
        return;
    }
}

std::optional<Quantity> SystemBuilder::flow_rate(syntax::Node written, const Scope& scope) {
    if (written.is(Syntax::quantity_)) {
        return context_.positive_quantity(written, Dimension::flow);
    }
    const Scope::Binding* given = scope.find(written.text());
    if (given != nullptr && given->quantity && given->quantity->dimension == Dimension::flow) {
        return given->quantity;
    }
    if (given != nullptr && given->quantity) {
        context_.complain("wrong-dimension", written.span(), fmt::format("`{}` is no flow", written.text()), nullptr,
                          {"what it gives is so much in a time, as in `8 L/min`"});
    } else if (given == nullptr) {
        if (const Thing* thing = context_.resolve(written, scope)) {
            context_.wrong_sort(written, *thing, "a flow: a quantity or a given", scope);
        }
    }
    return std::nullopt;
}

void SystemBuilder::add_source(const Instance& instance, syntax::Node node, ExpressionId condition) {
    const Scope& scope = instance.scope;
    const Part& part = system_[instance.part];
    condition = system_.expressions.both(condition, while_clause(node, scope));
    Source source{{part.name, part.label, part.doc, node.span()}};
    source.part = instance.part;
    source.on = condition;
    source.span = node.span();
    if (const auto up_to = node.find(Syntax::up_to_)) {
        const syntax::Node limit = up_to->child(0);
        if (limit.is(Syntax::quantity_)) {
            source.pressure = context_.positive_quantity(limit, Dimension::pressure);
        } else if (const Scope::Binding* given = scope.find(limit.text()); given != nullptr && given->quantity) {
            if (given->quantity->dimension == Dimension::pressure) {
                source.pressure = given->quantity;
            } else {
                context_.complain("wrong-dimension", limit.span(), fmt::format("`{}` is no pressure", limit.text()));
            }
        } else if (given == nullptr) {
            const Thing* thing = context_.resolve(limit, scope);
            if (thing != nullptr && thing->sort == Sort::dial) {
                source.dial = thing->variable;
            } else if (thing != nullptr) {
                context_.wrong_sort(limit, *thing, "a pressure: a quantity, a given or a dial", scope);
            }
        }
    }
    if (const auto giving = node.find(Syntax::giving_)) {
        source.gives = flow_rate(giving->child(0), scope);
    }
    switch (node.kind()) {
    case Syntax::supplies_: {
        source.kind = SourceKind::supply;
        const auto fluid = context_.fluid(node.child(0), &scope);
        const auto at = context_.node(node.child(1), scope);
        if (!fluid || !at) {
            return;
        }
        source.fluid = *fluid;
        source.node = *at;
        break;
    }
    case Syntax::lifts_: {
        source.kind = SourceKind::lift;
        const auto suction = context_.node(node.child(0), scope);
        const auto delivery = context_.node(node.child(1), scope);
        if (!suction || !delivery) {
            return;
        }
        source.suction = *suction;
        source.node = *delivery;
        source.own_switch = node.has(Syntax::own_switch_);
        const bool there = std::ranges::any_of(system_.ways, [&](const Way& way) {
            return way.kind == WayKind::lift && way.from == *suction && way.to == *delivery;
        });
        if (!there) {
            push_way({.kind = WayKind::lift,
                      .from = *suction,
                      .to = *delivery,
                      .part = instance.part,
                      .condition = part.exists,
                      .exists = part.exists,
                      .span = node.span()});
        }
        break;
    }
    case Syntax::stores_: {
        source.kind = SourceKind::store;
        const auto at = context_.node(node.child(0), scope);
        if (!at) {
            return;
        }
        source.node = *at;
        break;
    }
    default: {
        source.kind = SourceKind::heat;
        const auto chamber = context_.chamber(node.child(0), scope);
        if (!chamber) {
            return;
        }
        source.heats = *chamber;
        source.node = system_[*chamber].node;
        if (const auto to = node.find(Syntax::quantity_)) {
            source.heats_to = context_.quantity(*to, Dimension::temperature);
        }
        break;
    }
    }
    // The same source in several positions of one part is one source.
    for (Source& earlier : system_.sources) {
        if (earlier.part == source.part && earlier.kind == source.kind && earlier.node == source.node &&
            earlier.suction == source.suction && earlier.fluid == source.fluid && earlier.dial == source.dial &&
            earlier.own_switch == source.own_switch && earlier.pressure.has_value() == source.pressure.has_value() &&
            (!source.pressure || earlier.pressure->value == source.pressure->value) && earlier.gives == source.gives) {
            earlier.on = system_.expressions.either(earlier.on, source.on);
            return;
        }
    }
    system_.sources.push_back(std::move(source));
}

void SystemBuilder::add_guards(const Instance& instance) {
    const KindInfo& kind = *instance.kind;
    const Part& part = system_[instance.part];
    std::vector<NodeId> own_ports;
    for (const NodeId node : part.nodes) {
        if (system_[node].kind != meaning::NodeKind::chamber) {
            own_ports.push_back(node);
        }
    }
    const auto position_index = [&](syntax::Node name) -> std::optional<std::uint32_t> {
        const auto index = kind.position(name.text());
        if (!index) {
            context_.complain("unknown-position", name.span(),
                              fmt::format("kind `{}` has no position `{}`", kind.name, name.text()));
        }
        return index;
    };
    for (const syntax::Node item : kind.guards) {
        const auto value = position_index(item.child(0));
        const auto needs = expression_from(context_, item.child(1), instance.scope, own_ports);
        if (value && needs && part.variable.valid()) {
            system_.guards.push_back({item.is(Syntax::guard_set_) ? GuardKind::set : GuardKind::while_standing,
                                      part.variable, *value, *needs, text_of(item.child(2)), item.span()});
        }
    }
    for (const syntax::Node item : kind.hazards) {
        const auto value = position_index(item.child(1));
        const auto signal = signal_from_name(item.child(0).text());
        if (value && signal && part.variable.valid()) {
            const bool while_hot = item.has(Syntax::while_hot_);
            system_.hazards.push_back(
                {part.variable, *value, *signal, text_of(item.child(while_hot ? 3 : 2)), item.span(), while_hot});
        }
    }
}

void SystemBuilder::join_runs() {
    for (const syntax::Node item : declaration_.children()) {
        if (!item.is(Syntax::run_)) {
            continue;
        }
        const auto from = context_.node(item.child(0), Scope{});
        const auto to = context_.node(item.child(1), Scope{});
        const auto length = context_.positive_quantity(item.child(3), Dimension::length);
        const auto pipe = context_.declarations.pipes.find(item.child(2).text());
        if (!pipe) {
            const auto meant = context_.declarations.pipes.nearest(item.child(2).text());
            context_.complain("unknown-name", item.child(2).span(),
                              fmt::format("there is no pipe `{}`", item.child(2).text()), nullptr, {},
                              meant ? std::vector{fmt::format("did you mean `{}`?", *meant)}
                                    : std::vector<std::string>{});
        }
        if (!from || !to || !length || !pipe) {
            continue;
        }
        if (*from == *to) {
            context_.complain("run-to-itself", item.span(), "a run joins two places, this one joins a place to itself");
            continue;
        }
        Run run{*from, *to, label_of(*pipe), *length, {}, {}, existence(item), item.span()};
        for (const NodeId end : {*from, *to}) {
            if (system_[end].part.valid()) {
                run.exists = system_.expressions.both(run.exists, system_[system_[end].part].exists);
            }
        }
        if (const auto bore = pipe->find(Syntax::bore_)) {
            run.bore = context_.positive_quantity(bore->child(0), Dimension::length);
        }
        if (const auto rated = pipe->find(Syntax::rated_)) {
            if (const auto limit = context_.positive_quantity(rated->child(0), Dimension::pressure)) {
                const std::string label = fmt::format("{} at {}", label_of(*pipe), system_[*from].label);
                system_.ratings.push_back({*from, *limit, run.exists, label});
                system_.ratings.push_back({*to, *limit, run.exists, label});
            }
        }
        if (const auto falls = item.find(Syntax::falls_to_)) {
            if (const auto low = context_.node(falls->child(0), Scope{})) {
                if (*low != *from && *low != *to) {
                    context_.complain(
                        "falls-elsewhere", falls->span(), "a run falls to one of its own two ends", nullptr, {},
                        {fmt::format("write `falls to {}` or `falls to {}`", system_[*from].name, system_[*to].name)});
                }
                run.falls_to = *low;
            }
        }
        const auto index = static_cast<std::uint32_t>(system_.runs.size());
        push_way({.kind = WayKind::two_way,
                  .from = *from,
                  .to = *to,
                  .run = index,
                  .condition = run.exists,
                  .exists = run.exists,
                  .span = item.span()});
        system_.runs.push_back(std::move(run));
    }
}

void SystemBuilder::add_end_ways() {
    for (std::size_t i = 0; i < system_.nodes.size(); ++i) {
        const NodeId id(i);
        if (system_[id].kind != meaning::NodeKind::end) {
            continue;
        }
        const VariableId variable_id = system_[id].end;
        const Variable& variable = system_[variable_id];
        const PartId part = system_[id].part;
        Outlet outlet{{variable.name, variable.label, "", variable.span}, part, id};
        outlet.below = true;
        outlet.lands = part.valid() ? system_[part].below : NodeId(0);
        outlet.height = system_[id].height;
        const OutletId outlet_id = add_outlet(std::move(outlet));
        if (part.valid()) {
            system_.parts[part.value].outlets.push_back(outlet_id);
        }
        const auto when = [&](std::size_t value) {
            return system_.expressions.both(
                variable.exists, system_.expressions.stands(variable_id, ValueSet{1} << value, variable.span));
        };
        const WayId open = push_way({.kind = WayKind::open_end,
                                     .from = id,
                                     .part = part,
                                     .condition = when(0),
                                     .exists = variable.exists,
                                     .outlet = outlet_id,
                                     .span = variable.span});
        system_.outlets[outlet_id.value].ways.push_back(open);
        for (std::size_t value = 1; value < variable.values.size(); ++value) {
            const NodeId partner = variable.values[value].partner;
            if (!partner.valid() || (system_[partner].kind == meaning::NodeKind::end && partner < id)) {
                continue; // a coupling is one way, made by the end declared first
            }
            ExpressionId condition = when(value);
            if (system_[partner].part.valid()) {
                condition = system_.expressions.both(condition, system_[system_[partner].part].exists);
            }
            push_way({.kind = WayKind::two_way,
                      .from = id,
                      .to = partner,
                      .part = part,
                      .condition = condition,
                      .exists = variable.exists,
                      .span = variable.span});
        }
    }
}

void SystemBuilder::add_fill_outlets() {
    for (std::size_t i = 0; i < system_.chambers.size(); ++i) {
        const Chamber& chamber = system_.chambers[i];
        if (chamber.vented == Expressions::never()) {
            continue;
        }
        Outlet outlet{{chamber.name, chamber.label, "", chamber.span}, chamber.part};
        outlet.fills = ChamberId(i);
        outlet.lands = chamber.node;
        const OutletId id = add_outlet(std::move(outlet));
        if (chamber.part.valid()) {
            system_.parts[chamber.part.value].outlets.push_back(id);
        }
    }
}

void SystemBuilder::collect_ratings() {
    for (const Part& part : system_.parts) {
        for (const NodeId node : part.nodes) {
            if (part.rated) {
                system_.ratings.push_back({node, *part.rated, part.exists, part.label});
            }
        }
    }
    for (const Rating& rating : system_.ratings) {
        auto& least = system_.nodes[rating.node.value].rated;
        if (!least || rating.limit.value < least->value) {
            least = rating.limit;
        }
    }
}

void SystemBuilder::check_tees() {
    std::vector<std::uint32_t> joined(system_.nodes.size());
    for (const Run& run : system_.runs) {
        ++joined[run.from.value];
        ++joined[run.to.value];
    }
    for (std::size_t i = 0; i < system_.nodes.size(); ++i) {
        const Node& node = system_.nodes[i];
        if (node.kind == meaning::NodeKind::tee && joined[i] < 2) {
            context_.complain("loose-tee", node.span,
                              fmt::format("tee `{}` joins {}", node.name, joined[i] == 0 ? "no run" : "one run only"),
                              nullptr, {"a tee is where two runs or more meet"});
        }
    }
}

} // namespace curbstop::meaning
