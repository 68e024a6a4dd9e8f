// Flows and drains: where the fluid comes from, where it comes out, what is seen.
#include <algorithm>

#include <fmt/format.h>

#include "meaning/procedure_builder.h"

namespace curbstop::meaning {

namespace {

// The part itself and, of an assembly, the parts inside it.
std::vector<PartId> with_inner_parts(const System& system, PartId part) {
    std::vector<PartId> parts{part};
    for (std::size_t i = 0; i < system.parts.size(); ++i) {
        PartId owner = system.parts[i].parent;
        while (owner.valid() && owner != part) {
            owner = system[owner].parent;
        }
        if (owner.valid()) {
            parts.emplace_back(i);
        }
    }
    return parts;
}

} // namespace

std::optional<Observation> ProcedureBuilder::observation(syntax::Node until, const Scope& scope) {
    const syntax::Node seen = until.child(0);
    const std::string_view word = seen.child(0).text();
    Observation observation;
    observation.span = until.span();
    if (word.starts_with("stops")) {
        observation.kind = ObservationKind::stops;
    } else if (word.starts_with("only")) {
        observation.kind = ObservationKind::only_air;
    } else if (word.starts_with("shows")) {
        observation.kind = ObservationKind::shows;
        const auto fluid = context_.fluid(seen.child(1), &scope);
        if (!fluid) {
            return std::nullopt;
        }
        observation.fluid = *fluid;
    } else if (word.starts_with("clear")) {
        observation.kind = ObservationKind::clear;
    } else if (word.starts_with("full")) {
        observation.kind = ObservationKind::full;
    } else if (word.starts_with("holds")) {
        observation.kind = ObservationKind::holds_pressure;
    } else {
        observation.kind = ObservationKind::reads_at_least;
        const syntax::Node least = seen.child(1);
        // A gauge, a thermometer, a test strip: any dimension whose unit is known.
        const auto unit = least.find(Syntax::unit_);
        const auto known = unit_from_name(unit ? unit->text() : std::string_view{});
        const auto quantity = context_.quantity(least, known ? unit_info(*known).dimension : Dimension::pressure);
        if (!quantity) {
            return std::nullopt;
        }
        observation.least = quantity;
    }
    if (const auto string = until.find(Syntax::string_)) {
        observation.words = words(*string, scope);
    }
    return observation;
}

bool ProcedureBuilder::add_origin(Flow& flow, syntax::Node ref, const Scope& scope, ExpressionId& exists) {
    if (flow.gravity && ref.is(Syntax::ref_) && dotted(ref) == "pipes" && context_.names.find("pipes") == nullptr) {
        flow.pipes = true;
        flow.origin_labels.emplace_back("the pipes");
        flow.origins.push_back({.label = "the pipes", .pipes = true});
        exists = Expressions::always();
        return true;
    }
    const Thing* thing = context_.resolve(ref, scope);
    if (thing == nullptr) {
        return false;
    }
    flow.origin_labels.push_back(thing->label);
    FlowOrigin origin{.label = thing->label, .exists = exists_of(*thing)};
    exists = system_.expressions.either(exists, exists_of(*thing));
    if (thing->chamber.valid()) {
        flow.chambers.push_back(thing->chamber);
        origin.chambers.push_back(thing->chamber);
        flow.origins.push_back(std::move(origin));
        return true;
    }
    if (thing->sort != Sort::part) {
        context_.wrong_sort(ref, *thing, "where the fluid comes from: a supply, a chamber or a vessel", scope);
        return false;
    }
    const std::vector<PartId> parts = with_inner_parts(system_, thing->part);
    const auto within = [&](PartId part) { return std::ranges::find(parts, part) != parts.end(); };
    bool lifts = false;
    std::size_t found = 0;
    for (std::size_t i = 0; i < system_.sources.size(); ++i) {
        const Source& source = system_.sources[i];
        if (!within(source.part)) {
            continue;
        }
        lifts = lifts || source.kind == SourceKind::lift;
        if (source.kind == SourceKind::supply && !flow.gravity) {
            flow.supplies.emplace_back(i);
            origin.supplies.emplace_back(i);
            ++found;
        }
    }
    for (std::size_t i = 0; i < system_.chambers.size(); ++i) {
        if (system_.chambers[i].part.valid() && within(system_.chambers[i].part)) {
            flow.chambers.emplace_back(i);
            origin.chambers.emplace_back(i);
            ++found;
        }
    }
    if (found == 0) {
        context_.complain(
            "not-an-origin", ref.span(),
            fmt::format("nothing flows from `{}`: it holds nothing and supplies nothing", thing->label), &scope, {},
            lifts ? std::vector<std::string>{"name the tank, vessel or supply that it draws on, not the pump"}
                  : std::vector<std::string>{});
        return false;
    }
    flow.origins.push_back(std::move(origin));
    return true;
}

bool ProcedureBuilder::add_outlet(Flow& flow, syntax::Node ref, const Scope& scope) {
    const Thing* thing = context_.resolve(ref, scope);
    if (thing == nullptr) {
        return false;
    }
    std::vector<OutletId> outlets;
    const auto take = [&](auto&& belongs) {
        for (std::size_t i = 0; i < system_.outlets.size(); ++i) {
            if (belongs(system_.outlets[i])) {
                outlets.emplace_back(i);
            }
        }
    };
    if (thing->sort == Sort::end) {
        take([&](const Outlet& outlet) { return outlet.end == thing->node; });
    } else if (thing->chamber.valid()) {
        take([&](const Outlet& outlet) {
            return outlet.fills == thing->chamber ||
                   (!outlet.fills.valid() && outlet.lands == system_[thing->chamber].node);
        });
    } else if (thing->sort == Sort::part) {
        outlets = system_[thing->part].outlets;
        if (outlets.empty()) { // of an assembly without its own: what its parts have
            for (const PartId part : with_inner_parts(system_, thing->part)) {
                const auto& more = system_[part].outlets;
                outlets.insert(outlets.end(), more.begin(), more.end());
            }
        }
    } else {
        context_.wrong_sort(ref, *thing, "where it comes out: a part, an end, or what is filled", scope);
        return false;
    }
    if (outlets.empty()) {
        context_.complain("not-an-outlet", ref.span(), fmt::format("nothing can come out at `{}`", thing->label),
                          &scope, {"an outlet is a part with a `~>` or a `breach`, a free end, or a vented chamber"});
        return false;
    }
    flow.outlet_labels.push_back(thing->label);
    flow.outlets.insert(flow.outlets.end(), outlets.begin(), outlets.end());
    flow.outlet_groups.push_back(std::move(outlets));
    flow.outlet_exists.push_back(exists_of(*thing));
    return true;
}

void ProcedureBuilder::read_bounds(Flow& flow, syntax::Node node, const Scope& scope) {
    for (const syntax::Node child : node.children()) {
        switch (child.kind()) {
        case Syntax::until_:
            flow.until = observation(child, scope);
            break;
        case Syntax::at_least_:
            flow.at_least = context_.positive_quantity(child.child(0), Dimension::volume);
            break;
        case Syntax::at_most_:
            flow.at_most = context_.positive_quantity(child.child(0), Dimension::volume);
            break;
        case Syntax::at_rate_:
            flow.rate = context_.positive_quantity(child.child(0), Dimension::flow);
            if (flow.gravity) {
                context_.complain("wrong-dimension", child.span(), "how fast something drains, nobody can choose",
                                  &scope, {}, {"leave it out"});
            }
            break;
        case Syntax::seen_at_: {
            const Thing* thing = context_.resolve(child.child(0), scope);
            if (thing != nullptr && thing->sort == Sort::part) {
                flow.seen_at = thing->part;
            } else if (thing != nullptr) {
                context_.wrong_sort(child.child(0), *thing, "a part", scope);
            }
            break;
        }
        default:
            break;
        }
    }
    if (flow.at_least && flow.at_most && flow.at_most->value < flow.at_least->value) {
        context_.complain("impossible-quantity", node.span(), "`at most` is less than `at least`", &scope);
    }
}

bool ProcedureBuilder::read_bounds(RecordStatement& record, syntax::Node node, const Scope& scope) {
    for (const syntax::Node child : node.children()) {
        const bool least = child.is(Syntax::at_least_);
        if (!least && !child.is(Syntax::at_most_)) {
            continue;
        }
        if (record.kind != RecordKind::measured) {
            context_.complain("wrong-dimension", child.span(), "only what is measured has bounds", &scope, {},
                              {"leave the bound out, and say in `WORDS` what will do"});
            return false;
        }
        std::optional<Quantity>& bound = least ? record.at_least : record.at_most;
        if (bound) {
            context_.complain("impossible-quantity", child.span(),
                              fmt::format("`{}` stands here twice", least ? "at least" : "at most"), &scope, {},
                              {"leave one of them out"});
            return false;
        }
        bound = context_.quantity(child.child(0), record.dimension);
        if (!bound) {
            return false;
        }
    }
    if (record.at_least && record.at_most && record.at_most->value < record.at_least->value) {
        context_.complain("impossible-quantity", node.span(), "`at most` is less than `at least`: no reading fits",
                          &scope);
        return false;
    }
    return true;
}

std::optional<Flow> ProcedureBuilder::flow(syntax::Node node, const Scope& scope) {
    Flow flow;
    flow.gravity = node.is(Syntax::drain_);
    flow.span = node.span();
    ExpressionId origin_exists = Expressions::never();
    bool complete = true;
    for (const syntax::Node ref : node.child(0).children()) {
        complete = add_origin(flow, ref, scope, origin_exists) && complete;
    }
    for (const syntax::Node ref : node.child(1).children()) {
        complete = add_outlet(flow, ref, scope) && complete;
    }
    read_bounds(flow, node, scope);
    if (!complete) {
        return std::nullopt;
    }
    flow.origin_exists = origin_exists;
    flow.parts_exist = system_.expressions.both(origin_exists, system_.expressions.any_of(flow.outlet_exists));
    if (!flow.until && !node.is(Syntax::keep_flow_)) {
        context_.complain("no-until", node.span(),
                          fmt::format("how does one see that this {} is done?", flow.gravity ? "drain" : "flow"),
                          &scope, {},
                          {flow.gravity ? "write `until stops \"what is seen\"`"
                                        : "write `until clear \"what is seen\"` (or shows, full, only air, …)"});
        return std::nullopt;
    }
    if (flow.until && !fits(*flow.until, flow, scope)) {
        return std::nullopt;
    }
    return flow;
}

bool ProcedureBuilder::fits(const Observation& seen, const Flow& flow, const Scope& scope) {
    const auto wrong = [&](std::string message, std::string remedy) {
        context_.complain("wrong-observation", seen.span, std::move(message), &scope, {}, {std::move(remedy)});
        return false;
    };
    if (flow.gravity && seen.kind != ObservationKind::stops) {
        return wrong("a drain is done when it stops", "write `until stops \"what is seen\"`");
    }
    if (flow.gravity) {
        return true;
    }
    switch (seen.kind) {
    case ObservationKind::holds_pressure:
        return wrong("what holds pressure does not flow", "use `pressurise … until holds pressure`");
    case ObservationKind::full: {
        // Something must be there to be filled.
        const bool fills = std::ranges::any_of(flow.outlets, [&](OutletId outlet) {
            const NodeId lands = system_[outlet].lands;
            return lands.valid() && system_[lands].chamber.valid();
        });
        const bool into_vessel =
            std::ranges::any_of(system_.chambers, [](const Chamber& chamber) { return chamber.vessel; });
        return fills || into_vessel ? true
                                    : wrong("nothing fills here: it runs out in the open",
                                            "write `until clear`, `shows …` or another thing that is seen there");
    }
    case ObservationKind::shows:
    case ObservationKind::stops:
    case ObservationKind::only_air:
    case ObservationKind::clear:
    case ObservationKind::reads_at_least:
        return true;
    }
    return true;
}

} // namespace curbstop::meaning
