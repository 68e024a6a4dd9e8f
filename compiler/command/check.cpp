#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "output/clean_text.h"
#include "output/json.h"
#include "output/limits.h"
#include "text/render.h"
#include "text/utf8.h"

#include <fmt/format.h>

#include <iterator>
#include <unistd.h>

namespace curbstop::command {
namespace {

int status_of(const Compiled& compiled) {
    return !compiled.readable ? unusable : compiled.proved() ? proved : refused;
}

std::string plural(std::uint64_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string configurations(std::uint64_t log2) {
    constexpr std::uint64_t readable_bits = 20;
    return log2 == 0               ? "1 start configuration"
           : log2 <= readable_bits ? fmt::format("up to {} start configurations", std::uint64_t{1} << log2)
                                   : fmt::format("up to 2^{} start configurations", log2);
}

std::string summary(const Compiled& compiled, const proofs::ProcedureReport& report) {
    const meaning::Procedure& procedure = *report.procedure;
    std::string line = fmt::format("{}: {}: ", text::printable(compiled.path), procedure.name);
    if (!report.proved) {
        return line + "refused\n";
    }
    if (!is_proved(compiled, report)) {
        return line + "refused: what it starts from is refused\n";
    }
    fmt::format_to(std::back_inserter(line), "proved: {}, {}, {}", plural(count_steps(procedure), "step"),
                   plural(report.instants, "instant"), configurations(report.configurations_log2));
    for (std::size_t i = 0; i < report.not_proved.size(); ++i) {
        line += (i == 0 ? "; asked for and not proved: " : ", ") + output::one_line(report.not_proved[i]);
    }
    return line + "\n";
}

std::string text_of(const Compiled& compiled, text::RenderOptions options) {
    std::string out = text::render(compiled.sink, compiled.sources, options);
    for (const proofs::ProcedureReport& report : compiled.reports) {
        out += summary(compiled, report);
    }
    if (compiled.model && compiled.reports.empty()) {
        out += fmt::format("{}: no procedure to prove\n", text::printable(compiled.path));
    }
    return out;
}

/// Lets each report say of its procedure what is_proved says: JSON has one word for both.
void settle(Compiled& compiled) {
    std::vector<bool> verdicts;
    for (const proofs::ProcedureReport& report : compiled.reports) {
        verdicts.push_back(is_proved(compiled, report));
    }
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        compiled.reports[i].proved = verdicts[i];
    }
}

std::string limits() {
    std::string out = "not proved of any procedure: ";
    bool first = true;
    for (const std::string& clause : output::never_proved()) {
        out += first ? "" : "; ";
        out += clause;
        first = false;
    }
    return out + "\n";
}

} // namespace

int check(const CheckArguments& arguments, const text::FileReader& reader) {
    if (!stdlib_is_there(arguments.common)) {
        return unusable;
    }
    CompileSettings settings;
    settings.stdlib = arguments.common.stdlib;
    std::vector<std::unique_ptr<Compiled>> all;
    int status = proved;
    bool some_proved = false;
    for (const std::string& file : arguments.files) {
        all.push_back(compile(file, settings, reader));
        status = worse(status, status_of(*all.back()));
        for (const proofs::ProcedureReport& report : all.back()->reports) {
            some_proved = some_proved || report.proved;
        }
    }
    std::string out;
    switch (arguments.form) {
    case CheckForm::text: {
        text::RenderOptions options;
        options.colour = wants_colour(arguments.common.colour, STDOUT_FILENO);
        for (const auto& compiled : all) {
            out += text_of(*compiled, options);
        }
        out += some_proved ? limits() : "";
        break;
    }
    case CheckForm::json: {
        std::vector<output::CheckedFile> files;
        for (const auto& compiled : all) {
            settle(*compiled);
            files.push_back(
                {compiled->path, &compiled->sources, &compiled->sink, compiled->reports, compiled->proved()});
        }
        out = output::check_json(files);
        break;
    }
    }
    return worse(status, write_out("-", out));
}

} // namespace curbstop::command
