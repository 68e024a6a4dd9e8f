// The subcommands, each in the file of its name. Each gives an ExitStatus. Must not know: how arguments are written.
#pragma once

#include "command/arguments.h"
#include "command/compile.h"

#include <string_view>

namespace curbstop::command {

[[nodiscard]] int check(const CheckArguments& arguments, const text::FileReader& reader);
[[nodiscard]] int sheet(const SheetArguments& arguments, const text::FileReader& reader, std::string_view version);
[[nodiscard]] int trace(const TraceArguments& arguments, const text::FileReader& reader);
[[nodiscard]] int draw(const DrawArguments& arguments, const text::FileReader& reader);

/// Messages of a file on standard error; nothing where there are none.
void print_messages(const Compiled& compiled, Colour colour);

/// The report of the procedure of that name, or of the only one. Complains where there is none or no name was given.
[[nodiscard]] const proofs::ProcedureReport* choose_report(const Compiled& compiled,
                                                           const std::optional<std::string>& procedure);

/// A folder that was named for the standard library is there; complains where it is not.
[[nodiscard]] bool stdlib_is_there(const CommonArguments& common);

/// How many steps a procedure has, those in boxes included.
[[nodiscard]] std::uint32_t count_steps(const meaning::Procedure& procedure);

} // namespace curbstop::command
