// Reading source files: bounded, checked, and through an interface with a twin in memory.
// Must not know: the language, where modules are looked for.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace curbstop::text {

/// Greatest size of one source, in bytes. Our choice: far above any procedure a person writes, far below what would
/// trouble the machine.
inline constexpr std::size_t max_source_bytes = 16U * 1024U * 1024U;

enum class ReadFailure {
    missing,
    unreadable, ///< no permission, or an error while reading
    directory,
    not_a_file, ///< a pipe, device or socket: could be endless
    too_large,  ///< more than max_source_bytes
    binary,     ///< a NUL or another control character
    not_utf8,
};

struct ReadError {
    ReadFailure kind = ReadFailure::missing;
    std::string path;
    std::string message;                    ///< whole sentence part, without the path
    std::optional<std::size_t> offset = {}; ///< byte offset in the file, for `binary` and `not_utf8`
};

/// The text, or why there is none.
using ReadResult = std::variant<std::string, ReadError>;

/// Checks bytes that came from `path` and makes them a text: a byte order mark at the start is dropped; NUL, other
/// control characters (but tab and line ends) and what is not UTF-8 are refused. "\r\n" is kept as it is: byte offsets
/// stay those of the file.
[[nodiscard]] ReadResult check_text(std::string path, std::string bytes);

/// Where the compiler gets its texts.
class FileReader {
  public:
    FileReader() = default;
    FileReader(const FileReader&) = default;
    FileReader& operator=(const FileReader&) = default;
    virtual ~FileReader() = default;

    [[nodiscard]] virtual ReadResult read(const std::string& path) const = 0;
    /// The bytes as they are, of whatever they are; at most so many.
    [[nodiscard]] virtual ReadResult read_bytes(const std::string& path, std::size_t most) const = 0;
};

/// Files on disk; the path `-` is standard input.
class DiskFileReader final : public FileReader {
  public:
    [[nodiscard]] ReadResult read(const std::string& path) const override;
    [[nodiscard]] ReadResult read_bytes(const std::string& path, std::size_t most) const override;
};

/// Files in memory, for tests and for texts that an editor holds.
class MemoryFileReader final : public FileReader {
  public:
    void set(std::string path, std::string bytes) { files_.insert_or_assign(std::move(path), std::move(bytes)); }
    [[nodiscard]] ReadResult read(const std::string& path) const override;
    [[nodiscard]] ReadResult read_bytes(const std::string& path, std::size_t most) const override;

  private:
    std::map<std::string, std::string, std::less<>> files_;
};

} // namespace curbstop::text
