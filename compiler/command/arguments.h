// What was asked for on the command line, as data; reading it is one file's business (arguments.cpp, the only one that
// knows the library for it). Must not know: how anything asked for is done.
#pragma once

#include "meaning/language.h"
#include <cstdint>

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace curbstop::command {

enum class Colour : std::uint8_t { automatic, always, never };
enum class CheckForm : std::uint8_t { text, json };
enum class SheetForm : std::uint8_t { html, markdown, json };

struct CommonArguments {
    std::optional<std::string> stdlib; ///< folder of the standard library, in place of the one that comes along
    Colour colour = Colour::automatic;
};

struct CheckArguments {
    CommonArguments common;
    std::vector<std::string> files; ///< at least one; `-` is standard input
    CheckForm form = CheckForm::text;
};

struct SheetArguments {
    CommonArguments common;
    std::string file;
    std::optional<std::string> procedure;
    SheetForm form = SheetForm::html;
    std::optional<std::string> output;         ///< `-` is standard output
    std::optional<meaning::Language> language; ///< of the sheet; nothing: that of the system's file
    bool no_pictures = false;
    bool pocket = false; ///< the pocket form in place of the full sheet
};

struct TraceArguments {
    CommonArguments common;
    std::string file;
    std::uint32_t after = 0;
    std::optional<std::string> procedure;
    std::string of; ///< empty: everything
    CheckForm form = CheckForm::text;
    std::optional<std::string> output;
};

struct DrawArguments {
    CommonArguments common;
    std::string file;
    std::optional<std::string> zone; ///< only what is there
    std::optional<std::uint32_t> after;
    std::optional<std::string> procedure;
    std::optional<std::string> output;
    std::optional<meaning::Language> language; ///< of its words; nothing: that of the system's file
};

/// Nothing to do but to say this: help, the version, or what is wrong with the arguments.
struct Answer {
    std::string text;
    int status = 0;
};

using Arguments = std::variant<CheckArguments, SheetArguments, TraceArguments, DrawArguments, Answer>;

[[nodiscard]] Arguments read_arguments(int count, const char* const* words, std::string_view version);

} // namespace curbstop::command
