#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "output/drawing.h"
#include "output/html.h"
#include "output/json.h"
#include "output/markdown.h"

#include <fmt/format.h>

namespace curbstop::command {
namespace {

std::string_view extension(SheetForm form, bool pocket) {
    switch (form) {
    case SheetForm::html:
        return pocket ? "pocket.html" : "html";
    case SheetForm::markdown:
        return "md";
    case SheetForm::json:
        return "json";
    }
    return {};
}

std::string rendered(const Compiled& compiled, const proofs::ProcedureReport& report, const SheetArguments& arguments,
                     const output::SheetInfo& info) {
    switch (arguments.form) {
    case SheetForm::html:
        if (arguments.pocket) {
            return output::html_pocket(*compiled.model, *report.procedure, report, info);
        }
        return output::html_sheet(*compiled.model, *report.procedure, report, info);
    case SheetForm::markdown:
        return output::markdown_sheet(*compiled.model, *report.procedure, report, info);
    case SheetForm::json:
        return output::procedure_json(*compiled.model, *report.procedure, report, compiled.sources, info);
    }
    return {};
}

std::vector<const proofs::ProcedureReport*> chosen(const Compiled& compiled, const SheetArguments& arguments) {
    std::vector<const proofs::ProcedureReport*> reports;
    if (arguments.procedure || arguments.output || compiled.reports.empty()) {
        if (const auto* report = choose_report(compiled, arguments.procedure)) {
            reports.push_back(report);
        }
        return reports;
    }
    for (const proofs::ProcedureReport& report : compiled.reports) {
        reports.push_back(&report);
    }
    return reports;
}

} // namespace

int sheet(const SheetArguments& arguments, const text::FileReader& reader, std::string_view version) {
    if (!stdlib_is_there(arguments.common)) {
        return unusable;
    }
    if (arguments.drawing && arguments.form != SheetForm::html) {
        complain("--drawing goes with --as html only");
        return unusable;
    }
    if (arguments.pocket && (arguments.form != SheetForm::html || arguments.drawing)) {
        complain(arguments.drawing ? "--pocket and --drawing do not go together: the pocket form has no room for it"
                                   : "--pocket goes with --as html only");
        return unusable;
    }
    const auto compiled = compile(arguments.file, {arguments.common.stdlib, true, true}, reader);
    print_messages(*compiled, arguments.common.colour);
    if (!compiled->model || !compiled->readable) {
        return compiled->readable ? refused : unusable;
    }
    const auto reports = chosen(*compiled, arguments);
    if (reports.empty()) {
        return unusable;
    }
    // All or nothing: a sheet that is there must not suggest that the others are in order too.
    for (const proofs::ProcedureReport* report : reports) {
        if (!is_proved(*compiled, *report)) {
            complain(fmt::format("no sheet is written: {} is refused", report->procedure->name));
            return refused;
        }
    }
    output::SheetInfo info{std::string(version),
                           output::content_version(compiled->sources),
                           {},
                           arguments.language.value_or(compiled->model->system.label.language)};
    if (arguments.drawing) {
        output::Drawing drawing = output::draw_system(compiled->model->system);
        if (!drawing.error.empty()) {
            complain(drawing.error);
            return unusable;
        }
        info.drawing = std::move(drawing.svg);
    }
    std::string names;
    for (const proofs::ProcedureReport* report : reports) {
        const std::string path = arguments.output.value_or(
            fmt::format("{}.{}", report->procedure->name, extension(arguments.form, arguments.pocket)));
        const std::string contents = rendered(*compiled, *report, arguments, info);
        if (write_out(path, contents) != proved) {
            return unusable;
        }
        names += path == "-" ? "" : fmt::format("wrote {}\n", path);
    }
    print_error(names);
    return proved;
}

} // namespace curbstop::command
