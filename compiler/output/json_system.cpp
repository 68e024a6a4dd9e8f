// What a person finds: zones, covers, parts and how they may stand. Pipes and what flows are in json_plumbing.cpp.
#include "output/json_parts.h"

namespace curbstop::output {

using namespace meaning;

namespace {

void work_places(const JsonContext& context, const std::vector<WorkPlace>& places) {
    text::JsonWriter& json = context.json;
    json.key("places").begin_array();
    for (const WorkPlace& place : places) {
        json.begin_object();
        json_ref(json, "zone", place.zone);
        json_refs(json, "behind", place.covers);
        json.end_object();
    }
    json.end_array();
}

void variable(const JsonContext& context, const Variable& variable) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, variable);
    json.member("kind", json_name(variable.kind));
    json_ref(json, "part", variable.part);
    json.key("values").begin_array();
    for (const Value& value : variable.values) {
        json.begin_object().member("name", value.name);
        json_text(json, "label", value.label);
        if (!value.to_do.empty()) {
            json_text(json, "to_do", value.to_do);
        }
        if (value.setting) {
            json_quantity(json, "setting", value.setting);
        }
        if (value.partner) {
            json_ref(json, "partner", value.partner);
        }
        json.end_object();
    }
    json.end_array();
    json_expression(context, "exists", variable.exists);
    if (variable.springs_back) {
        json.member("springs_back", variable.values[*variable.springs_back].name);
    }
    if (variable.at_start) {
        json.member("at_start", variable.values[*variable.at_start].name);
    }
    json.end_object();
}

void part(const JsonContext& context, const Part& part) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, part);
    json.member("kind", part.kind_name);
    json_text(json, "kind_label", part.kind_label);
    json_ref(json, "parent", part.parent);
    work_places(context, part.places);
    json_expression(context, "exists", part.exists);
    json_ref(json, "variable", part.variable);
    json_refs(json, "dials", part.dials);
    json_refs(json, "nodes", part.nodes);
    json_refs(json, "outlets", part.outlets);
    json_refs(json, "groups", part.groups);
    json_ref(json, "below", part.below);
    json_quantity(json, "height", part.height);
    json_quantity(json, "rated", part.rated);
    json_quantity(json, "body", part.body);
    json_quantity(json, "may_run_dry", part.may_run_dry);
    json.member("sight_glass", part.sight_glass);
    json_refs(json, "photos", part.photos);
    json.end_object();
}

void fluid(const JsonContext& context, const Fluid& fluid) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_named(context, fluid);
    json.member("category", fluid.category).member("gas", fluid.gas);
    json_text(json, "shows", fluid.shows);
    json.key("strengths").begin_array();
    for (const Fluid::Strength& strength : fluid.strengths) {
        json.begin_object();
        json_quantity(json, "concentration", strength.concentration);
        json_quantity(json, "freezes", strength.freezes);
        json_quantity(json, "bursts", strength.bursts);
        json.end_object();
    }
    json.end_array();
    json.key("disinfects").begin_array();
    for (const Fluid::Disinfection& disinfection : fluid.disinfects) {
        json.begin_object();
        json_quantity(json, "concentration", disinfection.concentration);
        json_quantity(json, "time", disinfection.time);
        json.end_object();
    }
    json.end_array().key("warnings").begin_array();
    for (const Fluid::Warning& warning : fluid.warnings) {
        json.begin_object().member("signal", json_name(warning.signal));
        json_text(json, "text", warning.text);
        json.end_object();
    }
    json.end_array();
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

void named_only(const JsonContext& context, const Named& thing) {
    context.json.begin_object();
    json_named(context, thing);
    context.json.end_object();
}

} // namespace

void json_system(const JsonContext& context, const System& system) {
    text::JsonWriter& json = context.json;
    json.key("system").begin_object();
    json_named(context, system);
    array(context, "options", system.options, named_only);
    array(context, "photos", system.photos, [](const JsonContext& c, const Photo& photo) {
        c.json.begin_object().member("file", photo.file);
        json_text(c.json, "words", photo.words);
        c.json.member("media_type", photo.media_type).member("width", photo.width).member("height", photo.height);
        json_source(c, photo.span);
        c.json.end_object();
    });
    array(context, "zones", system.zones, [](const JsonContext& c, const Zone& zone) {
        c.json.begin_object();
        json_named(c, zone);
        json_quantity(c.json, "height", zone.height);
        c.json.end_object();
    });
    array(context, "walks", system.walks, [](const JsonContext& c, const Walk& walk) {
        c.json.begin_object();
        json_ref(c.json, "a", walk.a);
        json_ref(c.json, "b", walk.b);
        json_quantity(c.json, "length", walk.length);
        c.json.end_object();
    });
    array(context, "fluids", system.fluids, fluid);
    array(context, "groups", system.groups, [](const JsonContext& c, const Group& group) {
        c.json.begin_object();
        json_named(c, group);
        json_refs(c.json, "parts", group.parts);
        c.json.end_object();
    });
    array(context, "covers", system.covers, [](const JsonContext& c, const Cover& cover) {
        c.json.begin_object();
        json_named(c, cover);
        json_ref(c.json, "variable", cover.variable);
        json_ref(c.json, "zone", cover.place.zone);
        json_refs(c.json, "behind", cover.place.covers);
        c.json.end_object();
    });
    array(context, "variables", system.variables, variable);
    array(context, "parts", system.parts, part);
    array(context, "guards", system.guards, [](const JsonContext& c, const Guard& guard) {
        c.json.begin_object().member("kind", json_name(guard.kind));
        json_ref(c.json, "variable", guard.variable);
        c.json.member("value", c.words.system()[guard.variable].values[guard.value].name);
        json_expression(c, "needs", guard.needs);
        c.json.member("why", guard.why);
        json_source(c, guard.span);
        c.json.end_object();
    });
    array(context, "hazards", system.hazards, [](const JsonContext& c, const Hazard& hazard) {
        c.json.begin_object().member("signal", json_name(hazard.signal));
        json_ref(c.json, "variable", hazard.variable);
        c.json.member("value", c.words.system()[hazard.variable].values[hazard.value].name);
        c.json.member("while_hot", hazard.while_hot);
        json_text(c.json, "text", hazard.text);
        json_source(c, hazard.span);
        c.json.end_object();
    });
    array(context, "lineups", system.lineups, [](const JsonContext& c, const Lineup& lineup) {
        c.json.begin_object();
        json_named(c, lineup);
        c.json.key("entries").begin_array();
        for (const Lineup::Entry& entry : lineup.entries) {
            c.json.begin_object();
            json_ref(c.json, "variable", entry.variable);
            json_values(c, "values", entry.variable, entry.values);
            c.json.end_object();
        }
        c.json.end_array();
        c.json.end_object();
    });
    json_plumbing(context, system);
    json.end_object();
}

} // namespace curbstop::output
