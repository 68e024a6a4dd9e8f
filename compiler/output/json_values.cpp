#include "output/json_parts.h"
#include "output/quantity_words.h"

#include "meaning/quantity.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

void json_place(text::JsonWriter& json, const text::SourceSet& sources, text::Span span) {
    if (!span.source.valid()) {
        return;
    }
    const text::Source& source = sources[span.source];
    const text::Position begin = source.position(span.begin);
    const text::Position end = source.position(span.end);
    json.member("file", source.path);
    json.member("line", begin.line).member("column", begin.column);
    json.member("end_line", end.line).member("end_column", end.column);
}

void json_source(const JsonContext& context, text::Span span) {
    context.json.key("source");
    if (!span.source.valid()) {
        context.json.null();
        return;
    }
    context.json.begin_object();
    json_place(context.json, context.sources, span);
    context.json.end_object();
}

namespace {

bool only_english(const meaning::Text& text) {
    return text.others.empty() && text.language == meaning::Language::english;
}

void languages(text::JsonWriter& json, const meaning::Text& text) {
    json.begin_object();
    for (const meaning::Language language : meaning::all_languages) {
        if (const meaning::Told told = text.in(language); told.language == language) {
            json.member(meaning::code(language), told.text);
        }
    }
    json.end_object();
}

} // namespace

void json_text(text::JsonWriter& json, std::string_view key, const meaning::Text& text) {
    json.member(key, std::string_view(text));
    if (!only_english(text)) {
        json.key(std::string(key) + "_in");
        languages(json, text);
    }
}

void json_texts(text::JsonWriter& json, std::string_view key, const std::vector<meaning::Text>& texts) {
    json.key(key).begin_array();
    for (const meaning::Text& text : texts) {
        json.value(std::string_view(text));
    }
    json.end_array();
    if (!std::ranges::all_of(texts, only_english)) {
        json.key(std::string(key) + "_in").begin_array();
        for (const meaning::Text& text : texts) {
            languages(json, text);
        }
        json.end_array();
    }
}

void json_named(const JsonContext& context, const Named& thing) {
    context.json.member("name", thing.name);
    json_text(context.json, "label", thing.label);
    if (!thing.doc.empty()) {
        context.json.member("doc", thing.doc);
    }
    json_source(context, thing.span);
}

void json_quantity(text::JsonWriter& json, std::string_view key, const std::optional<Quantity>& quantity) {
    json.key(key);
    if (!quantity) {
        json.null();
        return;
    }
    const Unit unit = unit_of(quantity->dimension);
    json.begin_object();
    json.member("value", to_double(*quantity, unit)).member("unit", unit_info(unit).ucum);
    json.member("text", quantity_words(*quantity));
    json.end_object();
}

void json_values(const JsonContext& context, std::string_view key, VariableId id, ValueSet values) {
    context.json.key(key).begin_array();
    const Variable& variable = context.words.system()[id];
    for (std::size_t i = 0; i < variable.values.size(); ++i) {
        if ((values >> i & 1U) != 0) {
            context.json.value(variable.values[i].name);
        }
    }
    context.json.end_array();
}

void json_expression(const JsonContext& context, std::string_view key, ExpressionId id) {
    const Expression& e = context.words.system()[id];
    text::JsonWriter& json = context.json;
    if (!key.empty()) {
        json.key(key);
    }
    json.begin_object();
    json.member("kind", json_name(e.kind));
    if (!e.operands.empty()) {
        json.key("operands").begin_array();
        for (const ExpressionId operand : e.operands) {
            json_expression(context, {}, operand);
        }
        json.end_array();
    }
    if (e.kind == ExpressionKind::stands) {
        json_ref(json, "variable", e.variable);
        json_values(context, "values", e.variable, e.values);
    }
    if (e.kind == ExpressionKind::option) {
        json_ref(json, "option", e.option);
    }
    if (e.kind == ExpressionKind::branch) {
        json_ref(json, "in_case", e.branch);
    }
    if (e.node) {
        json_ref(json, "node", e.node);
    }
    if (e.chamber) {
        json_ref(json, "chamber", e.chamber);
    }
    if (e.fluid) {
        json_ref(json, "fluid", e.fluid);
    }
    if (e.kind == ExpressionKind::sanitised) {
        json_refs(json, "except", e.parts);
    }
    if (e.kind == ExpressionKind::pressure_below || e.kind == ExpressionKind::frost_safe) {
        json_quantity(json, "quantity", e.quantity);
    }
    json.end_object();
}

} // namespace curbstop::output
