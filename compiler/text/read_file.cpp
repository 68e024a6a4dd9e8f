#include "text/read_file.h"

#include "text/utf8.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace curbstop::text {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Closes a descriptor at the end of its scope.
class Descriptor {
  public:
    explicit Descriptor(int number)
        : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ > STDIN_FILENO) {
            ::close(number_);
        }
    }
    [[nodiscard]] int number() const { return number_; }

  private:
    int number_;
};

ReadError too_large(const std::string& path, std::size_t most = max_source_bytes) {
    return {ReadFailure::too_large, path,
            most == max_source_bytes
                ? fmt::format("is larger than {} MiB, the most that a source may have", max_source_bytes >> 20U)
                : fmt::format("is larger than {} bytes", most)};
}

ReadError failed(const std::string& path, int error) {
    const auto kind = error == ENOENT || error == ENOTDIR ? ReadFailure::missing
                      : error == EISDIR                   ? ReadFailure::directory
                                                          : ReadFailure::unreadable;
    return {kind, path, fmt::format("cannot be read: {}", std::strerror(error))};
}

/// Reads to the end, but never more than one byte beyond the limit.
ReadResult read_all(int number, const std::string& path, std::size_t expected, std::size_t most) {
    std::string bytes;
    bytes.reserve(std::min(expected, most) + 1);
    std::array<char, 1U << 16U> chunk{};
    while (bytes.size() <= most) {
        const ssize_t got = ::read(number, chunk.data(), std::min(chunk.size(), most + 1 - bytes.size()));
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            return failed(path, errno);
        }
        if (got == 0) {
            return bytes;
        }
        bytes.append(chunk.data(), static_cast<std::size_t>(got));
    }
    return too_large(path, most);
}

ReadResult read_disk(const std::string& path, std::size_t most) {
    if (path == "-") {
        return read_all(STDIN_FILENO, path, 0, most);
    }
    if (path.find('\0') != std::string::npos) {
        return ReadError{ReadFailure::missing, path, "cannot be read: the path holds a NUL byte"};
    }
    // Opening a pipe that nobody writes to would wait for ever, hence O_NONBLOCK.
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
    struct stat about {};
    if (file.number() < 0 || ::fstat(file.number(), &about) != 0) {
        return failed(path, errno);
    }
    if (S_ISDIR(about.st_mode)) {
        return ReadError{ReadFailure::directory, path, "is a directory, not a file"};
    }
    if (!S_ISREG(about.st_mode)) {
        return ReadError{ReadFailure::not_a_file, path, "is a pipe or a device; give `-` to read standard input"};
    }
    if (static_cast<std::uintmax_t>(about.st_size) > most) {
        return too_large(path, most);
    }
    return read_all(file.number(), path, static_cast<std::size_t>(about.st_size), most);
}

/// First byte that no text holds: a control character other than tab and line ends.
std::size_t first_control(std::string_view bytes) {
    for (std::size_t at = 0; at < bytes.size(); ++at) {
        const auto byte = static_cast<unsigned char>(bytes[at]);
        if (byte >= 0x20 && byte != 0x7F) {
            continue;
        }
        const bool line_end = byte == '\n' || (byte == '\r' && at + 1 < bytes.size() && bytes[at + 1] == '\n');
        if (!line_end && byte != '\t') {
            return at;
        }
    }
    return std::string_view::npos;
}

} // namespace

ReadResult check_text(std::string path, std::string bytes) {
    if (bytes.size() > max_source_bytes) {
        return too_large(path);
    }
    const std::size_t control = first_control(bytes);
    if (control != std::string::npos) {
        return ReadError{ReadFailure::binary, std::move(path),
                         fmt::format("is not a text: control character 0x{:02X} at byte {}",
                                     static_cast<unsigned char>(bytes[control]), control),
                         control};
    }
    if (const auto bad = first_invalid_utf8(bytes)) {
        return ReadError{
            ReadFailure::not_utf8, std::move(path),
            fmt::format("is not UTF-8: byte 0x{:02X} at byte {}", static_cast<unsigned char>(bytes[*bad]), *bad), *bad};
    }
    if (bytes.starts_with(byte_order_mark)) {
        bytes.erase(0, byte_order_mark.size());
    }
    return bytes;
}

ReadResult DiskFileReader::read(const std::string& path) const {
    ReadResult result = read_disk(path, max_source_bytes);
    if (auto* bytes = std::get_if<std::string>(&result)) {
        return check_text(path, std::move(*bytes));
    }
    return result;
}

ReadResult DiskFileReader::read_bytes(const std::string& path, std::size_t most) const {
    return read_disk(path, most);
}

ReadResult MemoryFileReader::read_bytes(const std::string& path, std::size_t most) const {
    const auto found = files_.find(path);
    if (found == files_.end()) {
        return failed(path, ENOENT);
    }
    return found->second.size() > most ? ReadResult(too_large(path, most)) : ReadResult(found->second);
}

ReadResult MemoryFileReader::read(const std::string& path) const {
    const auto found = files_.find(path);
    if (found == files_.end()) {
        return failed(path, ENOENT);
    }
    return check_text(path, found->second);
}

} // namespace curbstop::text
