// What several subcommands need.
#include "command/commands.h"
#include "command/console.h"
#include "text/nearest.h"
#include "text/render.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <type_traits>
#include <unistd.h>

namespace curbstop::command {
namespace {

std::uint32_t count_in(const meaning::StageItems& items) {
    std::uint32_t count = 0;
    for (const meaning::StageItem& item : items) {
        count += std::visit(
            [](const auto& each) -> std::uint32_t {
                if constexpr (std::is_same_v<std::decay_t<decltype(each)>, meaning::Step>) {
                    return 1;
                } else {
                    return count_in(each.items);
                }
            },
            item.what);
    }
    return count;
}

} // namespace

std::uint32_t count_steps(const meaning::Procedure& procedure) {
    std::uint32_t count = 0;
    for (const meaning::Stage& stage : procedure.stages) {
        count += count_in(stage.items);
    }
    return count;
}

void print_messages(const Compiled& compiled, Colour colour) {
    text::RenderOptions options;
    options.colour = wants_colour(colour, STDERR_FILENO);
    print_error(text::render(compiled.sink, compiled.sources, options));
}

const proofs::ProcedureReport* choose_report(const Compiled& compiled, const std::optional<std::string>& procedure) {
    std::vector<std::string> names;
    for (const proofs::ProcedureReport& report : compiled.reports) {
        names.push_back(report.procedure->name);
    }
    std::string list;
    for (const std::string& name : names) {
        list += (list.empty() ? "" : ", ") + name;
    }
    if (names.empty()) {
        complain(fmt::format("{} has no procedure", compiled.path));
        return nullptr;
    }
    if (!procedure) {
        if (names.size() > 1) {
            complain(fmt::format("{} has several procedures; choose one with --procedure: {}", compiled.path, list));
            return nullptr;
        }
        return &compiled.reports.front();
    }
    const proofs::ProcedureReport* report = find_report(compiled, *procedure);
    if (report == nullptr) {
        const auto meant = text::nearest(*procedure, names);
        complain(fmt::format("{} has no procedure {}; {}: {}", compiled.path, *procedure,
                             meant ? "did you mean" : "it has", meant ? std::string(*meant) : list));
    }
    return report;
}

bool stdlib_is_there(const CommonArguments& common) {
    std::error_code problem;
    if (!common.stdlib || std::filesystem::is_directory(*common.stdlib, problem)) {
        return true;
    }
    complain(fmt::format("--stdlib {} is not a folder", *common.stdlib));
    return false;
}

} // namespace curbstop::command
