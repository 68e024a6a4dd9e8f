#include "output/json_parts.h"
#include "output/limits.h"

namespace curbstop::output {

using namespace meaning;

namespace {

void step(const JsonContext& context, const proofs::StepReport& step) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json.member("number", step.number).member("stage", step.stage);
    json_text(json, "title", step.step == nullptr ? meaning::Text() : step.step->title);
    json.key("standing").begin_array();
    for (std::size_t i = 0; i < step.standing.size(); ++i) {
        json.begin_object();
        json_ref(json, "variable", VariableId(i));
        json_values(context, "values", VariableId(i), step.standing[i]);
        json.end_object();
    }
    json.end_array();
    json_refs(json, "running", step.running);
    json.key("held_back").begin_array();
    for (const proofs::HeldBack& held : step.held_back) {
        json.begin_object();
        json_ref(json, "source", held.source);
        json.key("barriers").begin_array();
        for (const proofs::Barrier& barrier : held.barriers) {
            json.begin_object();
            json_ref(json, "variable", barrier.variable);
            json_values(context, "values", barrier.variable, barrier.values);
            json.end_object();
        }
        json.end_array().end_object();
    }
    json.end_array();
    for (const auto& [name, list] : {std::pair("discharges", &step.discharges), std::pair("falls", &step.falls)}) {
        json.key(name).begin_array();
        for (const proofs::Discharge& discharge : *list) {
            json.begin_object();
            json_ref(json, "source", discharge.source);
            json_ref(json, "origin", discharge.origin);
            json_ref(json, "supply_origin", discharge.supply_origin);
            json_ref(json, "outlet", discharge.outlet);
            json.end_object();
        }
        json.end_array();
    }
    json_refs(json, "pressurised", step.pressurised);
    json_refs(json, "charged", step.charged);
    json.key("may_hold").begin_array();
    for (std::size_t i = 0; i < step.may_hold.size(); ++i) {
        json.begin_object();
        json_ref(json, "chamber", step.may_hold[i]);
        json_refs(json, "fluids", i < step.fluids.size() ? step.fluids[i] : std::vector<FluidId>{});
        json.end_object();
    }
    json.end_array();
    json_refs(json, "surely_holds", step.surely_holds);
    json_refs(json, "zones", step.zones);
    json.member("helper", step.helper).member("safe_to_stop", step.safe_to_stop);
    json.end_object();
}

} // namespace

void json_report(const JsonContext& context, const proofs::ProcedureReport& report) {
    text::JsonWriter& json = context.json;
    json.member("proved", report.proved).member("instants", report.instants);
    json.member("configurations_log2", report.configurations_log2);
    json.key("obligations").begin_array();
    for (const proofs::ObligationCount& obligation : report.obligations) {
        json.begin_object().member("slug", obligation.slug).member("checked", obligation.checked).end_object();
    }
    json.end_array();
    json.key("not_proved").begin_array();
    for (const std::string& each : report.not_proved) {
        json.value(each);
    }
    json.end_array();
    json.key("never_proved").begin_array();
    for (const std::string& each : never_proved()) {
        json.value(each);
    }
    json.end_array();
    json.key("steps").begin_array();
    for (const proofs::StepReport& each : report.steps) {
        step(context, each);
    }
    json.end_array();
}

} // namespace curbstop::output
