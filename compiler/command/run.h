// The program but for `main`, so that tests can call it. Must not know: what the subcommands do.
#pragma once

#include <string_view>

namespace curbstop::command {

/// Reads the arguments, does what they ask for and gives an ExitStatus. Nothing is thrown: an error of our own becomes
/// a message and `unusable`.
[[nodiscard]] int run(int count, const char* const* words, std::string_view version) noexcept;

} // namespace curbstop::command
