// Work that may end the process that does it, done in another: a library that checks itself with assertions takes no
// drawing, and nothing else, with it.
// Must not know: what the work is.
#pragma once

#include <functional>
#include <optional>
#include <vector>

namespace curbstop::output {

/// What `work` gives, done in a child process; nothing where it gives nothing or the child came to an untimely end.
/// What it writes to standard error is lost, so `work` tells what goes wrong by giving nothing.
[[nodiscard]] std::optional<std::vector<double>>
run_apart(const std::function<std::optional<std::vector<double>>()>& work);

} // namespace curbstop::output
