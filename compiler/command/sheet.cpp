#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "output/drawing_zones.h"
#include "output/html.h"
#include "output/json.h"
#include "output/live_states.h"
#include "output/markdown.h"
#include "output/pictures.h"
#include "output/sheet_standing.h"
#include "output/words.h"

#include <fmt/format.h>

#include <optional>

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

/// How all may stand when the procedure begins: as the one before leaves it, where it starts so.
std::vector<meaning::ValueSet> start_of(const Compiled& compiled, const meaning::Procedure& procedure) {
    if (procedure.as_left_by) {
        for (const proofs::ProcedureReport& report : compiled.reports) {
            if (report.procedure == &compiled.model->procedures[procedure.as_left_by->value] && !report.steps.empty()) {
                return report.steps.back().standing;
            }
        }
    }
    return output::required_standing(compiled.model->system, procedure);
}

output::SheetPictures pictures(const Compiled& compiled, const proofs::ProcedureReport& report,
                               const output::Words& words, const output::PlacedZones& placed) {
    const std::vector<meaning::ValueSet> start = start_of(compiled, *report.procedure);
    output::SheetPictures pictures;
    pictures.steps = output::draw_pictures(words, report, start);
    if (!placed.error.empty()) { // nothing was placed, but these need no places
        return pictures;
    }
    output::ZoneDrawings drawn = output::draw_zones(words, placed, start);
    if (!drawn.overview.empty()) {
        pictures.drawings.push_back(
            {words.tongue().text(output::Saying::drawing_overview), std::move(drawn.overview), drawn.wide_overview});
    }
    for (output::ZoneDrawing& zone : drawn.zones) {
        pictures.drawings.push_back({std::move(zone.title), std::move(zone.svg), zone.wide, std::move(zone.key)});
    }
    output::LiveStates live = output::live_states(words, report, start);
    pictures.states = std::move(live.states);
    pictures.key = std::move(live.key);
    return pictures;
}

} // namespace

int sheet(const SheetArguments& arguments, const text::FileReader& reader, std::string_view version) {
    if (!stdlib_is_there(arguments.common)) {
        return unusable;
    }
    if (arguments.pocket && arguments.form != SheetForm::html) {
        complain("--pocket goes with --as html only");
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
    const output::Tongue tongue(info.language);
    const output::Words words(compiled->model->system, tongue);
    std::optional<output::PlacedZones> placed; // the same for all sheets
    if (arguments.form == SheetForm::html && !arguments.no_pictures && !arguments.pocket) {
        placed = output::placed_zones(words);
        if (!placed->error.empty()) {
            // The sheets are complete without them.
            complain(fmt::format("the sheets have no drawings of the system: {}", placed->error));
        }
    }
    std::string names;
    for (const proofs::ProcedureReport* report : reports) {
        const std::string path = arguments.output.value_or(
            fmt::format("{}.{}", report->procedure->name, extension(arguments.form, arguments.pocket)));
        info.as_left =
            report->procedure->as_left_by ? start_of(*compiled, *report->procedure) : std::vector<meaning::ValueSet>();
        if (placed) {
            info.pictures = pictures(*compiled, *report, words, *placed);
        }
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
