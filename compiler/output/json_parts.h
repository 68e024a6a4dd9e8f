// The pieces of the JSON documents, each in the file of its name. Must not know: files.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "proofs/report.h"
#include "quantities/quantities.h"
#include "text/diagnostic.h"
#include "text/json_writer.h"
#include "text/source.h"

#include <optional>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// Where to write, and what spans and labels mean. All of it outlives the writing of a document.
struct JsonContext {
    text::JsonWriter& json;
    const text::SourceSet& sources;
    const Words& words;
};

// json_values.cpp

/// An index into an array of the document; null for none.
template <class Tag>
void json_ref(text::JsonWriter& json, std::string_view key, meaning::Id<Tag> id) {
    json.key(key);
    if (id) {
        json.value(static_cast<std::uint64_t>(id.value));
    } else {
        json.null();
    }
}
template <class Tag>
void json_refs(text::JsonWriter& json, std::string_view key, const std::vector<meaning::Id<Tag>>& ids) {
    json.key(key).begin_array();
    for (const meaning::Id<Tag> id : ids) {
        json.value(static_cast<std::uint64_t>(id.value));
    }
    json.end_array();
}
/// `file`, `line`, `column`, `end_line`, `end_column` of the object that is open; nothing for a span without a source.
void json_place(text::JsonWriter& json, const text::SourceSet& sources, text::Span span);
/// The same in an object of its own, under `source`; null for a span without a source.
void json_source(const JsonContext& context, text::Span span);
/// A text under `key`; where it is given in more than English, also `KEY_in`: per ISO 639-1 code what it says there.
void json_text(text::JsonWriter& json, std::string_view key, const meaning::Text& text);
/// An array of texts under `key`, and beside it, where one of them has more than English, `KEY_in`: one such object
/// each.
void json_texts(text::JsonWriter& json, std::string_view key, const std::vector<meaning::Text>& texts);
/// `name`, `label`, `doc` and `source` of the object that is open.
void json_named(const JsonContext& context, const meaning::Named& thing);
void json_quantity(text::JsonWriter& json, std::string_view key, const std::optional<meaning::Quantity>& quantity);
/// The names of the values in a set.
void json_values(const JsonContext& context, std::string_view key, meaning::VariableId variable,
                 meaning::ValueSet values);
void json_expression(const JsonContext& context, std::string_view key, meaning::ExpressionId id);

// json_system.cpp
void json_system(const JsonContext& context, const meaning::System& system);
// json_plumbing.cpp
void json_plumbing(const JsonContext& context, const meaning::System& system);
// json_procedure.cpp
void json_procedure(const JsonContext& context, const meaning::Procedure& procedure, const meaning::Model& model);
void json_flow(const JsonContext& context, const meaning::Flow& flow);
void json_observation(const JsonContext& context, const std::optional<meaning::Observation>& observation);
// json_statements.cpp
void json_statements(const JsonContext& context, std::string_view key, const meaning::Statements& statements);
// json_report.cpp
void json_report(const JsonContext& context, const proofs::ProcedureReport& report);
// json_quantities.cpp
void json_quantities(const JsonContext& context, const quantities::Quantities& quantities);
// json_sheet.cpp
void json_sheet(const JsonContext& context, const Sheet& sheet);
// json_check.cpp
void json_diagnostic(text::JsonWriter& json, const text::SourceSet& sources, const text::Diagnostic& diagnostic);

/// Our names for enumerators, which are part of the published form.
[[nodiscard]] std::string_view json_name(meaning::Signal signal);
[[nodiscard]] std::string_view json_name(meaning::VariableKind kind);
[[nodiscard]] std::string_view json_name(meaning::NodeKind kind);
[[nodiscard]] std::string_view json_name(meaning::Level level);
[[nodiscard]] std::string_view json_name(meaning::WayKind kind);
[[nodiscard]] std::string_view json_name(meaning::SourceKind kind);
[[nodiscard]] std::string_view json_name(meaning::GuardKind kind);
[[nodiscard]] std::string_view json_name(meaning::ExpressionKind kind);
[[nodiscard]] std::string_view json_name(meaning::ObservationKind kind);
[[nodiscard]] std::string_view json_name(meaning::Chamber::Acceptance::Grade grade);

} // namespace curbstop::output
