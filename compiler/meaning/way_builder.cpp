// The ways of parts: what lies between their ports, chambers and outlets, and what guards them.
#include <algorithm>

#include <fmt/format.h>

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

} // namespace curbstop::meaning
