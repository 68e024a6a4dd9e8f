// What the program tells whoever called it. Must not know: subcommands.
#pragma once

namespace curbstop::command {

/// Published: scripts and CI rely on the numbers.
enum ExitStatus : int {
    proved = 0,   ///< every procedure that was asked for is proved, or what was asked for is done
    refused = 1,  ///< the input is understood and something is wrong with it
    unusable = 2, ///< could not be used: arguments, a file that cannot be read or written, a library that is missing
};

/// The graver of two.
[[nodiscard]] constexpr int worse(int a, int b) {
    return a > b ? a : b;
}

} // namespace curbstop::command
