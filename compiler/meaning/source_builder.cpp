// What gives, lifts, heats and stores: the sources that the ways of a part name.
#include <algorithm>

#include <fmt/format.h>

#include "meaning/expression_builder.h"
#include "meaning/system_builder.h"

namespace curbstop::meaning {

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

} // namespace curbstop::meaning
