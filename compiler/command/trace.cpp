#include "output/trace.h"

#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "text/nearest.h"

#include <fmt/format.h>

#include <algorithm>

namespace curbstop::command {
namespace {

/// `of` names something; complains where it does not.
bool is_known(const Compiled& compiled, const std::string& of) {
    const std::vector<std::string> names = output::traceable_names(compiled.model->system);
    if (of.empty() || std::find(names.begin(), names.end(), of) != names.end()) {
        return true;
    }
    const auto meant = text::nearest(of, names);
    complain(fmt::format("{} has no {}{}", compiled.path, of, meant ? fmt::format("; did you mean {}?", *meant) : ""));
    return false;
}

} // namespace

int trace(const TraceArguments& arguments, const text::FileReader& reader) {
    if (!stdlib_is_there(arguments.common)) {
        return unusable;
    }
    const auto compiled = compile(arguments.file, {arguments.common.stdlib, true, true}, reader);
    print_messages(*compiled, arguments.common.colour);
    if (!compiled->model || !compiled->readable) {
        return compiled->readable ? refused : unusable;
    }
    const proofs::ProcedureReport* report = choose_report(*compiled, arguments.procedure);
    if (report == nullptr || !is_known(*compiled, arguments.of)) {
        return unusable;
    }
    if (arguments.after > output::last_step(*report)) {
        complain(fmt::format("{} can be traced up to step {}, not to step {}", report->procedure->name,
                             output::last_step(*report), arguments.after));
        return unusable;
    }
    const output::Trace made =
        output::make_trace(*compiled->model, *report->procedure, *report, arguments.after, arguments.of);
    const std::string contents = arguments.form == CheckForm::json ? output::trace_json(made, compiled->sources)
                                                                   : output::trace_text(made, compiled->sources);
    const int status = is_proved(*compiled, *report) ? proved : refused;
    return worse(status, write_out(arguments.output.value_or("-"), contents));
}

} // namespace curbstop::command
