#include "command/module_finder.h"

#include "text/embedded_modules.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <utility>

namespace curbstop::command {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view stdlib_prefix = "stdlib/"; // how messages name what comes with the program
constexpr int most_levels = 4;                        // from a program in a build folder up to its source tree

bool holds_stdlib(const fs::path& folder) {
    std::error_code ignored;
    return fs::is_regular_file(folder / "water.curb", ignored);
}

/// A link in `folder` may lead anywhere in `folder` and nowhere else.
bool leads_outside(const fs::path& folder, const fs::path& file) {
    std::error_code problem;
    if (!fs::is_symlink(file, problem)) {
        return false;
    }
    const fs::path root = fs::canonical(folder.empty() ? fs::path(".") : folder, problem);
    const fs::path target = problem ? fs::path() : fs::canonical(file, problem);
    if (problem) {
        return true;
    }
    const fs::path relative = target.lexically_relative(root);
    return relative.empty() || *relative.begin() == "..";
}

} // namespace

std::optional<std::string> installed_stdlib() {
    std::error_code problem;
    const fs::path program = fs::read_symlink("/proc/self/exe", problem);
    if (problem) {
        return std::nullopt;
    }
    const fs::path folder = program.parent_path();
    if (const fs::path shared = folder.parent_path() / "share" / "curbstop" / "stdlib"; holds_stdlib(shared)) {
        return shared.string();
    }
    fs::path above = folder;
    for (int level = 0; level < most_levels && above.has_relative_path(); ++level) {
        above = above.parent_path();
        if (holds_stdlib(above / "stdlib") && fs::is_directory(above / "compiler", problem)) {
            return (above / "stdlib").string();
        }
    }
    return std::nullopt;
}

meaning::FoundModule Modules::refuse(text::Span use, std::string message) {
    sink_->add({"unreadable-file", text::Severity::error, use, std::move(message)});
    unreadable_ = true;
    return {std::nullopt, true};
}

std::optional<meaning::FoundModule> Modules::look_in(const std::string& folder, std::string_view name, text::Span use,
                                                     bool as_stdlib) {
    const std::string file = fmt::format("{}.curb", name);
    const std::string path = (fs::path(folder) / file).string();
    const std::string shown = as_stdlib ? std::string(stdlib_prefix) + file : path;
    if (const auto known = sources_->find(shown)) {
        return meaning::FoundModule{*known, false};
    }
    if (leads_outside(folder, path)) {
        return refuse(use, fmt::format("`{}` is a link that leads out of its folder", shown));
    }
    text::ReadResult result = reader_->read(path);
    if (auto* text = std::get_if<std::string>(&result)) {
        return meaning::FoundModule{sources_->add(shown, std::move(*text)), false};
    }
    const auto& error = std::get<text::ReadError>(result);
    if (error.kind == text::ReadFailure::missing) {
        return std::nullopt;
    }
    return refuse(use, fmt::format("`{}` {}", shown, error.message));
}

meaning::FoundModule Modules::find(std::string_view name, text::SourceId used_by, text::Span use) {
    const std::string& user = (*sources_)[used_by].path;
    if (!user.starts_with(stdlib_prefix) || stdlib_) {
        const std::string beside = fs::path(user).parent_path().string();
        if (const auto found = look_in(beside, name, use, false)) {
            return *found;
        }
    }
    if (stdlib_) {
        return look_in(*stdlib_, name, use, false).value_or(meaning::FoundModule{});
    }
    if (fallback_) {
        return look_in(*fallback_, name, use, true).value_or(meaning::FoundModule{});
    }
    const std::string shown = fmt::format("{}{}.curb", stdlib_prefix, name);
    if (const auto known = sources_->find(shown)) {
        return {*known, false};
    }
    if (const auto text = text::find_embedded_module(name)) {
        return {sources_->add(shown, std::string(*text)), false};
    }
    return {};
}

} // namespace curbstop::command
