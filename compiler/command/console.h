// Standard output and standard error: written whole or complained about. Must not know: subcommands.
#pragma once

#include "command/arguments.h"

#include <string>
#include <string_view>

namespace curbstop::command {

/// Whether messages that go to a stream (1 or 2) are to be coloured: as asked for, else where it is a terminal that
/// does not call itself dumb and NO_COLOR is not set.
[[nodiscard]] bool wants_colour(Colour colour, int stream);

/// Writes to `path` (text::write_file). Gives ExitStatus `proved`, or complains and gives `unusable`. A reader of a
/// pipe that has gone away is no reason to complain.
[[nodiscard]] int write_out(const std::string& path, std::string_view contents);

/// `curbstop: MESSAGE` on standard error, on one line and made printable. Failure to say so is nothing we could report.
void complain(std::string_view message);

/// Text that is fit to print already, on standard error.
void print_error(std::string_view text);

} // namespace curbstop::command
