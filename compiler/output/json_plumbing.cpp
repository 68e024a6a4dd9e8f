// What water finds: nodes, ways, outlets, chambers, sources, runs.
#include "output/json_parts.h"

namespace curbstop::output {

using namespace meaning;

namespace {

void acceptances(const JsonContext& context, const std::vector<Chamber::Acceptance>& accepts) {
    text::JsonWriter& json = context.json;
    json.key("accepts").begin_array();
    for (const Chamber::Acceptance& acceptance : accepts) {
        json.begin_object();
        json_ref(json, "fluid", acceptance.fluid);
        json.member("grade", json_name(acceptance.grade));
        json.end_object();
    }
    json.end_array();
}

void node(const JsonContext& context, const Node& node) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, node);
    json.member("kind", json_name(node.kind));
    json_ref(json, "part", node.part);
    json_ref(json, "chamber", node.chamber);
    json_ref(json, "end", node.end);
    json.member("level", json_name(node.level));
    json_ref(json, "level_of", node.level_of);
    json_quantity(json, "height", node.height);
    json_quantity(json, "rated", node.rated);
    json.end_object();
}

void way(const JsonContext& context, const Way& way) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json.member("kind", json_name(way.kind));
    json_ref(json, "from", way.from);
    json_ref(json, "to", way.to);
    json_ref(json, "part", way.part);
    json.key("run");
    if (way.run == UINT32_MAX) {
        json.null();
    } else {
        json.value(way.run);
    }
    json_expression(context, "condition", way.condition);
    json_expression(context, "exists", way.exists);
    json_quantity(json, "limits", way.limits);
    json.key("protects");
    if (way.kind == WayKind::one_way || way.kind == WayKind::lift) {
        json.value(static_cast<std::uint32_t>(way.protects));
    } else {
        json.null();
    }
    json_quantity(json, "above", way.above);
    json_ref(json, "outlet", way.outlet);
    json_source(context, way.span);
    json.end_object();
}

void outlet(const JsonContext& context, const Outlet& outlet) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, outlet);
    json_ref(json, "part", outlet.part);
    json_ref(json, "end", outlet.end);
    json_refs(json, "ways", outlet.ways);
    json_ref(json, "lands", outlet.lands);
    json.member("below", outlet.below);
    json_quantity(json, "height", outlet.height);
    json_ref(json, "fills", outlet.fills);
    json.end_object();
}

void chamber(const JsonContext& context, const Chamber& chamber) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, chamber);
    json_ref(json, "node", chamber.node);
    json_ref(json, "part", chamber.part);
    json.member("vessel", chamber.vessel);
    json_quantity(json, "volume", chamber.volume);
    json_ref(json, "fluid", chamber.fluid);
    json_expression(context, "vented", chamber.vented);
    json_quantity(json, "cools_in", chamber.cools_in);
    acceptances(context, chamber.accepts);
    json_ref(json, "whereabouts", chamber.whereabouts);
    json.end_object();
}

void source(const JsonContext& context, const Source& source) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, source);
    json.member("kind", json_name(source.kind));
    json_ref(json, "part", source.part);
    json_ref(json, "node", source.node);
    json_ref(json, "suction", source.suction);
    json_ref(json, "fluid", source.fluid);
    json_expression(context, "on", source.on);
    json_quantity(json, "pressure", source.pressure);
    json_ref(json, "dial", source.dial);
    json_quantity(json, "gives", source.gives);
    json.member("own_switch", source.own_switch);
    json_ref(json, "heats", source.heats);
    json_quantity(json, "heats_to", source.heats_to);
    json.end_object();
}

void run(const JsonContext& context, const Run& run) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_ref(json, "from", run.from);
    json_ref(json, "to", run.to);
    json.member("pipe", run.pipe);
    json_quantity(json, "length", run.length);
    json_quantity(json, "bore", run.bore);
    json_ref(json, "falls_to", run.falls_to);
    json_expression(context, "exists", run.exists);
    json_source(context, run.span);
    json.end_object();
}

void place(const JsonContext& context, const Place& place) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, place);
    json_ref(json, "node", place.node);
    json_ref(json, "zone", place.zone);
    acceptances(context, place.accepts);
    json.end_object();
}

template <class Things, class Write>
void array(const JsonContext& context, std::string_view key, const Things& things, Write write) {
    context.json.key(key).begin_array();
    for (const auto& thing : things) {
        write(context, thing);
    }
    context.json.end_array();
}

} // namespace

void json_plumbing(const JsonContext& context, const System& system) {
    array(context, "nodes", system.nodes, node);
    array(context, "ways", system.ways, way);
    array(context, "outlets", system.outlets, outlet);
    array(context, "chambers", system.chambers, chamber);
    array(context, "sources", system.sources, source);
    array(context, "runs", system.runs, run);
    array(context, "landing_places", system.places, place);
    json_refs(context.json, "may_move_while_stored", system.may_move_while_stored);
}

} // namespace curbstop::output
