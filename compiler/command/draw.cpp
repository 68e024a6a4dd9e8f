#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"
#include "output/drawing.h"
#include "output/trace.h"
#include "output/words.h"
#include "text/nearest.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace curbstop::command {

namespace {

/// The place that is to be drawn; complains where there is none of that name, or nothing there to draw.
std::optional<meaning::ZoneId> find_zone(const Compiled& compiled, const output::Words& words,
                                         const std::string& name) {
    const meaning::System& system = words.system();
    std::vector<std::string> names;
    std::string list;
    for (const meaning::ZoneId zone : output::drawn_zones(words)) {
        if (system[zone].name == name) {
            return zone;
        }
        names.push_back(system[zone].name);
        list += (list.empty() ? "" : ", ") + names.back();
    }
    if (list.empty()) {
        complain(fmt::format("{} has no zone with plumbing; without --zone all of it is drawn", compiled.path));
    } else if (std::ranges::find(system.zones, name, &meaning::Zone::name) != system.zones.end()) {
        complain(fmt::format("nothing that water passes is at {}; there is something at: {}", name, list));
    } else {
        const auto meant = text::nearest(name, names);
        complain(fmt::format("{} has no zone {}; {}: {}", compiled.path, name, meant ? "did you mean" : "it has",
                             meant ? std::string(*meant) : list));
    }
    return std::nullopt;
}

} // namespace

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
    const output::Words words(system, output::Tongue(arguments.language.value_or(system.label.language)));
    std::string name = system.name;
    output::Drawing drawing;
    if (arguments.zone) {
        const auto zone = find_zone(*compiled, words, *arguments.zone);
        if (!zone) {
            return unusable;
        }
        name += "." + system[*zone].name;
        drawing = output::draw_zone(words, *zone, state);
    } else {
        drawing = output::draw_system(words, state);
    }
    if (!drawing.error.empty()) {
        complain(drawing.error);
        return unusable;
    }
    const std::string path = arguments.output.value_or(name + ".svg");
    const int written = write_out(path, drawing.svg);
    if (written == proved && path != "-") {
        print_error(fmt::format("wrote {}\n", path));
    }
    return worse(status, written);
}

} // namespace curbstop::command
