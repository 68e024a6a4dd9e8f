// Writing results: a file is there whole or not at all.
// Must not know: what is written.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace curbstop::text {

struct WriteError {
    std::string path;
    std::string message; ///< whole sentence part, without the path
};

/// Writes `contents` to `path`, or says why it could not.
/// A regular file is written beside its place, flushed to the disk and renamed over it, and keeps its mode; on failure
/// nothing is left behind and the old file stands. A link is followed. Devices and pipes are written to directly.
/// `-` is standard output.
[[nodiscard]] std::optional<WriteError> write_file(const std::string& path, std::string_view contents);

} // namespace curbstop::text
