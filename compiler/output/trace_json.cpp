#include "output/json.h"
#include "output/json_parts.h"
#include "output/trace.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

void name_and_label(text::JsonWriter& json, const Named& thing, const std::string& label) {
    json.member("name", thing.name).member("label", label);
}

void step(const JsonContext& context, std::string_view key, const TraceStep& step, bool with_source) {
    context.json.key(key).begin_object();
    context.json.member("number", step.number).member("title", step.title);
    if (with_source) {
        json_source(context, step.span);
    }
    context.json.end_object();
}

void standing(const JsonContext& context, const TraceStanding& each) {
    context.json.begin_object();
    name_and_label(context.json, context.words.system()[each.variable], context.words.variable(each.variable));
    json_values(context, "values", each.variable, each.values);
    context.json.member("words", context.words.values(each.variable, each.values)).member("changed", each.changed);
    step(context, "since", each.since, true);
    context.json.end_object();
}

void held_back(const JsonContext& context, const proofs::HeldBack& held) {
    text::JsonWriter& json = context.json;
    const System& system = context.words.system();
    json.begin_object();
    name_and_label(json, system[held.source], context.words.source(held.source));
    json.key("by").begin_array();
    for (const proofs::Barrier& barrier : held.barriers) {
        json.begin_object();
        name_and_label(json, system[barrier.variable], context.words.variable(barrier.variable));
        json.member("words", context.words.values(barrier.variable, barrier.values)).end_object();
    }
    json.end_array().end_object();
}

void contents(const JsonContext& context, const proofs::StepReport& report, std::size_t i) {
    text::JsonWriter& json = context.json;
    const ChamberId chamber = report.may_hold[i];
    json.begin_object();
    name_and_label(json, context.words.system()[chamber], context.words.chamber(chamber));
    json.member("surely", std::find(report.surely_holds.begin(), report.surely_holds.end(), chamber) !=
                              report.surely_holds.end());
    json.key("fluids").begin_array();
    if (i < report.fluids.size()) {
        for (const FluidId fluid : report.fluids[i]) {
            json.value(context.words.system()[fluid].name);
        }
    }
    json.end_array().end_object();
}

void pocket(const JsonContext& context, const proofs::PocketReport& pocket) {
    text::JsonWriter& json = context.json;
    json.begin_object().member("label", pocket.label);
    if (pocket.volume) {
        json.member("volume_L", *pocket.volume * 1000);
    }
    json.member("least_gas", pocket.gas).key("fluids").begin_array();
    for (const proofs::PocketReport::Part& part : pocket.fluids) {
        json.begin_object().member("fluid", context.words.fluid(part.fluid)).member("most", part.most).end_object();
    }
    json.end_array().key("disinfectant");
    if (pocket.disinfectant.valid()) {
        json.begin_object().member("fluid", context.words.fluid(pocket.disinfectant));
        json.member("least_mg_per_L", pocket.reading * 1e6).member("stood_h", pocket.stood / 3600).end_object();
    } else {
        json.null();
    }
    json.member("disinfected", pocket.sanitised).member("stood_open", pocket.dirt).member("cause", pocket.cause);
    json.member("step", static_cast<std::int64_t>(pocket.step)).end_object();
}

} // namespace

std::string trace_json(const Trace& trace, const text::SourceSet& sources) {
    text::JsonWriter json;
    const System& system = trace.model->system;
    const Words words(system);
    const JsonContext context{json, sources, words};
    json.begin_object().member("format", "curbstop-trace").member("version", json_version);
    json.member("proved", trace.proved);
    json.key("procedure").begin_object();
    name_and_label(json, *trace.procedure, trace.procedure->label);
    json.end_object();
    step(context, "after", trace.after, false);
    json.key("standing").begin_array();
    for (const TraceStanding& each : trace.standing) {
        standing(context, each);
    }
    json.end_array();
    // Of the start nothing but how things stand is known: empty arrays would claim more.
    if (trace.report != nullptr) {
        const proofs::StepReport& report = *trace.report;
        json.key("running").begin_array();
        for (const SourceId source : report.running) {
            json.begin_object();
            name_and_label(json, system[source], words.source(source));
            json.end_object();
        }
        json.end_array().key("pressurised").begin_array();
        for (const NodeId node : trace.pressurised) {
            json.begin_object();
            name_and_label(json, system[node], words.node(node));
            json.end_object();
        }
        json.end_array().key("held_back").begin_array();
        for (const proofs::HeldBack& held : report.held_back) {
            held_back(context, held);
        }
        json.end_array().key("contents").begin_array();
        for (const std::size_t i : trace.contents) {
            contents(context, report, i);
        }
        json.end_array().key("pockets").begin_array();
        for (const std::size_t i : trace.pockets) {
            pocket(context, report.pockets[i]);
        }
        json.end_array().key("discharges").begin_array();
        for (const proofs::Discharge& discharge : report.discharges) {
            json.begin_object().member("source", words.source(discharge.source));
            json.member("outlet", words.outlet(discharge.outlet)).end_object();
        }
        json.end_array().member("safe_to_stop", report.safe_to_stop);
    }
    json.end_object();
    return json.take();
}

} // namespace curbstop::output
