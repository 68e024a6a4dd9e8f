#include "command/compile.h"

#include "command/module_finder.h"
#include "command/photos.h"
#include "meaning/build.h"
#include "proofs/prove.h"

#include <algorithm>

namespace curbstop::command {

std::unique_ptr<Compiled> compile(const std::string& path, const CompileSettings& settings,
                                  const text::FileReader& reader) {
    auto compiled = std::make_unique<Compiled>();
    compiled->path = path;
    text::ReadResult text = reader.read(path);
    if (const auto* error = std::get_if<text::ReadError>(&text)) {
        compiled->sink.add({"unreadable-file", text::Severity::error, {}, path + " " + error->message});
        compiled->readable = false;
        return compiled;
    }
    const text::SourceId root = compiled->sources.add(path, std::move(std::get<std::string>(text)));
    Modules modules(compiled->sources, compiled->sink, reader, settings.stdlib,
                    settings.stdlib ? std::nullopt : installed_stdlib());
    compiled->model = meaning::build(
        compiled->sources, root,
        [&](std::string_view name, text::SourceId used_by, text::Span use) { return modules.find(name, used_by, use); },
        compiled->sink);
    compiled->readable = !modules.unreadable();
    if (compiled->model && !load_photos(compiled->model->system, compiled->sources, compiled->sink, reader)) {
        compiled->model.reset();
    }
    if (compiled->model && settings.prove) {
        proofs::Settings proof;
        proof.detail = settings.detail;
        compiled->reports = proofs::prove(*compiled->model, compiled->sink, proof);
    }
    return compiled;
}

const proofs::ProcedureReport* find_report(const Compiled& compiled, std::string_view procedure) {
    const auto found = std::find_if(compiled.reports.begin(), compiled.reports.end(),
                                    [&](const auto& report) { return report.procedure->name == procedure; });
    return found == compiled.reports.end() ? nullptr : &*found;
}

bool is_proved(const Compiled& compiled, const proofs::ProcedureReport& report) {
    // Procedures that start as each other ends cannot be in a circle; the count bounds the walk even if they were.
    const proofs::ProcedureReport* at = &report;
    for (std::size_t i = 0; i <= compiled.reports.size(); ++i) {
        if (!at->proved) {
            return false;
        }
        if (!at->procedure->as_left_by) {
            return true;
        }
        at = &compiled.reports[at->procedure->as_left_by->value];
    }
    return false;
}

} // namespace curbstop::command
