// One object per statement, told apart by `kind`.
#include "output/json_parts.h"

#include "meaning/quantity.h"

namespace curbstop::output {

using namespace meaning;

namespace {

struct StatementJson {
    const JsonContext& context;

    [[nodiscard]] text::JsonWriter& json() const { return context.json; }
    void kind(std::string_view name) const { json().member("kind", name); }
    void value(VariableId variable, std::uint32_t index) const {
        json().member("value", context.words.system()[variable].values[index].name);
    }
    void setting(const Setting& s) const {
        json_ref(json(), "variable", s.variable);
        value(s.variable, s.value);
    }
    void operator()(const SetStatement& s) const {
        kind("set");
        json().key("settings").begin_array();
        for (const Setting& each : s.settings) {
            json().begin_object();
            setting(each);
            json().end_object();
        }
        json().end_array();
    }
    void operator()(const HoldStatement& s) const {
        kind("hold");
        setting(s.setting);
        json_statements(context, "body", s.body);
    }
    void operator()(const CoupleStatement& s) const {
        kind("couple");
        json_ref(json(), "a", s.a);
        json_ref(json(), "b", s.b);
    }
    void operator()(const UncoupleStatement& s) const {
        kind("uncouple");
        json_ref(json(), "end", s.end);
    }
    void operator()(const CapStatement& s) const {
        kind(s.cap ? "cap" : "uncap");
        json_ref(json(), "end", s.end);
    }
    void operator()(const DipStatement& s) const {
        kind("dip");
        json_ref(json(), "end", s.end);
        json_ref(json(), "vessel", s.vessel);
    }
    void operator()(const LiftOutStatement& s) const {
        kind("lift_out");
        json_ref(json(), "end", s.end);
    }
    void operator()(const PlaceStatement& s) const {
        kind("place");
        json_ref(json(), "vessel", s.chamber);
        json_ref(json(), "under", s.under);
    }
    void operator()(const TakeAwayStatement& s) const {
        kind("take_away");
        json_ref(json(), "vessel", s.chamber);
    }
    void operator()(const VerifyStatement& s) const {
        kind("verify");
        json_expression(context, "expression", s.expression);
        json().member("words", s.words);
        json_refs(json(), "looked_at", s.looked_at);
    }
    void operator()(const FlowStatement& s) const {
        kind("flow");
        json_flow(context, s.flow);
    }
    void operator()(const KeepStatement& s) const {
        kind("keep");
        json_flow(context, s.flow);
    }
    void operator()(const PressuriseStatement& s) const {
        kind("pressurise");
        json_refs(json(), "supplies", s.supplies);
        json_refs(json(), "chambers", s.chambers);
        json_texts(json(), "labels", s.labels);
        json_observation(context, s.until);
        json_quantity(json(), "at_most", s.at_most);
    }
    void operator()(const PourStatement& s) const {
        kind("pour");
        json_ref(json(), "vessel", s.vessel);
        json_ref(json(), "into", s.into);
        json_text(json(), "into_label", s.into_label);
        json_quantity(json(), "dose", s.dose);
    }
    void operator()(const RepeatStatement& s) const {
        kind("repeat");
        json().member("at_most", s.at_most);
        json_observation(context, s.until);
        json_statements(context, "body", s.body);
    }
    void operator()(const WatchStatement& s) const {
        kind("watch");
        json_text(json(), "words", s.words);
        json_ref(json(), "zone", s.zone);
        json_ref(json(), "part", s.part);
    }
    void operator()(const HelperStatement& s) const {
        kind("helper");
        json_text(json(), "words", s.words);
    }
    void operator()(const WaitStatement& s) const {
        kind("wait");
        json_quantity(json(), "time", s.time);
    }
    void operator()(const WearStatement& s) const {
        kind("wear");
        json_texts(json(), "items", s.items);
    }
    void operator()(const BringStatement& s) const {
        kind("bring");
        json_text(json(), "item", s.item);
        json_ref(json(), "fluid", s.fluid);
        json_quantity(json(), "amount", s.amount);
    }
    void operator()(const RecordStatement& s) const {
        kind("record");
        json_text(json(), "words", s.words);
        json().member("dimension", s.kind == RecordKind::date    ? "date"
                                   : s.kind == RecordKind::clock ? "clock"
                                                                 : dimension_name(s.dimension));
        json().member("unit",
                      s.kind != RecordKind::measured ? "" : unit_info(s.unit.value_or(unit_of(s.dimension))).ucum);
        json_quantity(json(), "at_least", s.at_least);
        json_quantity(json(), "at_most", s.at_most);
    }
    void operator()(const PhotoStatement& s) const {
        kind("photo");
        json_ref(json(), "photo", s.photo);
    }
    void operator()(const NoteStatement& s) const {
        kind("note");
        json_text(json(), "text", s.text);
    }
    void operator()(const SignalStatement& s) const {
        kind("signal");
        json().member("signal", json_name(s.signal));
        json_text(json(), "text", s.text);
    }
    void operator()(const ContractStatement& s) const {
        kind(s.requires_ ? "requires" : "ensures");
        json_expression(context, "expression", s.expression);
        json().member("words", s.words);
    }
    void operator()(const ConditionalStatement& s) const {
        kind("conditional");
        json_expression(context, "condition", s.condition);
        json().member("words", s.words);
        json_statements(context, "body", s.body);
    }
    void operator()(const InCaseStatement& s) const {
        kind("in_case");
        json_text(json(), "words", s.words);
        json_ref(json(), "in_case", s.branch);
        json_statements(context, "body", s.body);
    }
};

} // namespace

void json_statements(const JsonContext& context, std::string_view key, const Statements& statements) {
    context.json.key(key).begin_array();
    for (const Statement& statement : statements) {
        context.json.begin_object();
        std::visit(StatementJson{context}, statement.what);
        json_expression(context, "exists", statement.exists);
        json_source(context, statement.span);
        context.json.end_object();
    }
    context.json.end_array();
}

} // namespace curbstop::output
