#include "output/json.h"
#include "output/json_parts.h"
#include "output/limits.h"

#include <algorithm>

namespace curbstop::output {

void json_diagnostic(text::JsonWriter& json, const text::SourceSet& sources, const text::Diagnostic& diagnostic) {
    json.begin_object();
    json.member("slug", diagnostic.slug).member("severity", text::severity_name(diagnostic.severity));
    json.member("message", diagnostic.message);
    json_place(json, sources, diagnostic.span);
    json.key("labels").begin_array();
    for (const text::Label& label : diagnostic.labels) {
        json.begin_object().member("text", label.text);
        json_place(json, sources, label.span);
        json.end_object();
    }
    json.end_array();
    json.key("notes").begin_array();
    for (const std::string& note : diagnostic.notes) {
        json.value(note);
    }
    json.end_array().key("mend").begin_array();
    for (const std::string& remedy : diagnostic.remedies) {
        json.value(remedy);
    }
    json.end_array().end_object();
}

std::string check_json(std::span<const CheckedFile> files) {
    text::JsonWriter json;
    json.begin_object().member("format", "curbstop-check").member("version", json_version);
    json.member("proved", std::all_of(files.begin(), files.end(), [](const auto& file) { return file.proved; }));
    json.key("diagnostics").begin_array();
    std::uint64_t left_out = 0;
    for (const CheckedFile& file : files) {
        for (const text::Diagnostic& diagnostic : file.sink->sorted()) {
            json_diagnostic(json, *file.sources, diagnostic);
        }
        left_out += file.sink->errors_left_out() + file.sink->warnings_left_out();
    }
    json.end_array().member("diagnostics_left_out", left_out);
    json.key("procedures").begin_array();
    for (const CheckedFile& file : files) {
        for (const proofs::ProcedureReport& report : file.reports) {
            json.begin_object().member("file", file.path);
            json.member("name", report.procedure->name).member("label", report.procedure->label);
            json.member("proved", report.proved).member("instants", report.instants);
            json.member("configurations_log2", report.configurations_log2);
            json.key("obligations").begin_array();
            for (const proofs::ObligationCount& obligation : report.obligations) {
                json.begin_object().member("slug", obligation.slug).member("checked", obligation.checked).end_object();
            }
            json.end_array().key("not_proved").begin_array();
            for (const std::string& each : report.not_proved) {
                json.value(each);
            }
            json.end_array().end_object();
        }
    }
    json.end_array().key("never_proved").begin_array();
    for (const std::string& each : never_proved()) {
        json.value(each);
    }
    json.end_array().end_object();
    return json.take();
}

std::string procedure_json(const meaning::Model& model, const meaning::Procedure& procedure,
                           const proofs::ProcedureReport& report, const text::SourceSet& sources,
                           const SheetInfo& info) {
    text::JsonWriter json;
    const Words words(model.system);
    const JsonContext context{json, sources, words};
    json.begin_object().member("format", "curbstop-procedure").member("version", json_version);
    json.member("tool_version", info.tool_version).member("content_version", info.content_version);
    json_report(context, report);
    json_quantities(context, quantities::work_out(model.system, procedure, report));
    json_sheet(context, compose_sheet(model, procedure, report, info));
    json_procedure(context, procedure, model);
    json_system(context, model.system);
    json.end_object();
    return json.take();
}

} // namespace curbstop::output
