#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "output/drawing.h"
#include "output/trace.h"
#include "output/words.h"

#include <fmt/format.h>

namespace curbstop::command {

int draw(const DrawArguments& arguments, const text::FileReader& reader) {
    if (!stdlib_is_there(arguments.common)) {
        return unusable;
    }
    const bool with_state = arguments.after.has_value();
    const auto compiled = compile(arguments.file, {arguments.common.stdlib, with_state, with_state}, reader);
    print_messages(*compiled, arguments.common.colour);
    if (!compiled->model || !compiled->readable) {
        return compiled->readable ? refused : unusable;
    }
    const proofs::StepReport* state = nullptr;
    int status = proved;
    if (with_state) {
        const proofs::ProcedureReport* report = choose_report(*compiled, arguments.procedure);
        if (report == nullptr) {
            return unusable;
        }
        if (*arguments.after < 1 || *arguments.after > output::last_step(*report)) {
            complain(fmt::format("{} can be drawn after steps 1 to {}, not after step {}", report->procedure->name,
                                 output::last_step(*report), *arguments.after));
            return unusable;
        }
        state = &report->steps[*arguments.after - 1];
        status = is_proved(*compiled, *report) ? proved : refused;
    }
    const meaning::System& system = compiled->model->system;
    const output::Tongue tongue(arguments.language.value_or(system.label.language));
    const output::Drawing drawing = output::draw_system(output::Words(system, tongue), state);
    if (!drawing.error.empty()) {
        complain(drawing.error);
        return unusable;
    }
    const std::string path = arguments.output.value_or(system.name + ".svg");
    const int written = write_out(path, drawing.svg);
    if (written == proved && path != "-") {
        print_error(fmt::format("wrote {}\n", path));
    }
    return worse(status, written);
}

} // namespace curbstop::command
