#include "output/json_parts.h"

namespace curbstop::output {

using namespace meaning;

void json_observation(const JsonContext& context, const std::optional<Observation>& observation) {
    text::JsonWriter& json = context.json;
    json.key("until");
    if (!observation) {
        json.null();
        return;
    }
    json.begin_object();
    json.member("kind", json_name(observation->kind));
    json_text(json, "words", observation->words);
    if (observation->fluid) {
        json_ref(json, "fluid", observation->fluid);
    }
    if (observation->least) {
        json_quantity(json, "least", observation->least);
    }
    json_source(context, observation->span);
    json.end_object();
}

void json_flow(const JsonContext& context, const Flow& flow) {
    text::JsonWriter& json = context.json;
    json.key("flow").begin_object();
    json.member("gravity", flow.gravity).member("pipes", flow.pipes);
    json_refs(json, "chambers", flow.chambers);
    json_refs(json, "supplies", flow.supplies);
    json_refs(json, "outlets", flow.outlets);
    json_texts(json, "from", flow.origin_labels);
    json_texts(json, "to", flow.outlet_labels);
    json_expression(context, "parts_exist", flow.parts_exist);
    json_observation(context, flow.until);
    json_quantity(json, "at_least", flow.at_least);
    json_quantity(json, "at_most", flow.at_most);
    json_quantity(json, "rate", flow.rate);
    json_ref(json, "seen_at", flow.seen_at);
    json_source(context, flow.span);
    json.end_object();
}

namespace {

void contracts(const JsonContext& context, std::string_view key, const std::vector<Contract>& contracts) {
    text::JsonWriter& json = context.json;
    json.key(key).begin_array();
    for (const Contract& contract : contracts) {
        json.begin_object();
        json_expression(context, "expression", contract.expression);
        json.member("words", contract.words);
        json_source(context, contract.span);
        json.end_object();
    }
    json.end_array();
}

void items(const JsonContext& context, const StageItems& items);

struct ItemJson {
    const JsonContext& context;

    void operator()(const Step& step) const {
        context.json.member("kind", "step");
        json_text(context.json, "title", step.title);
        json_statements(context, "statements", step.statements);
    }
    void operator()(const ConditionalSteps& steps) const {
        context.json.member("kind", "conditional");
        json_expression(context, "condition", steps.condition);
        context.json.member("words", steps.words);
        items(context, steps.items);
    }
    void operator()(const InCaseSteps& steps) const {
        context.json.member("kind", "in_case");
        json_text(context.json, "words", steps.words);
        json_ref(context.json, "in_case", steps.branch);
        items(context, steps.items);
    }
    void operator()(const RepeatSteps& steps) const {
        context.json.member("kind", "repeat").member("at_most", steps.at_most);
        json_observation(context, steps.until);
        items(context, steps.items);
    }
    void operator()(const MeanwhileSteps& steps) const {
        context.json.member("kind", "meanwhile");
        json_flow(context, steps.flow);
        items(context, steps.items);
    }
};

void items(const JsonContext& context, const StageItems& items) {
    context.json.key("items").begin_array();
    for (const StageItem& item : items) {
        context.json.begin_object();
        std::visit(ItemJson{context}, item.what);
        json_source(context, item.span);
        context.json.end_object();
    }
    context.json.end_array();
}

} // namespace

void json_procedure(const JsonContext& context, const Procedure& procedure, const Model& model) {
    text::JsonWriter& json = context.json;
    json.key("procedure").begin_object();
    json_named(context, procedure);
    contracts(context, "requires", procedure.requires_);
    contracts(context, "ensures", procedure.ensures);
    json.key("as_left_by");
    if (procedure.as_left_by) {
        json.value(model.procedures[procedure.as_left_by->value].name);
    } else {
        json.null();
    }
    json.key("stages").begin_array();
    for (const Stage& stage : procedure.stages) {
        json.begin_object();
        json_text(json, "label", stage.label);
        contracts(context, "requires", stage.requires_);
        contracts(context, "ensures", stage.ensures);
        items(context, stage.items);
        json_source(context, stage.span);
        json.end_object();
    }
    json.end_array();
    json.end_object();
}

} // namespace curbstop::output
