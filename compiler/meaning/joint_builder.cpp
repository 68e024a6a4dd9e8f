// What joins parts: runs, couplings, what fills open tanks; and what a node is rated for by all that meet there.

#include <fmt/format.h>

#include "meaning/expression_builder.h"
#include "meaning/system_builder.h"

namespace curbstop::meaning {

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
