#include "text/write_file.h"

#include <cerrno>
#include <climits>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <memory>
#include <sys/stat.h>
#include <unistd.h>

namespace curbstop::text {
namespace {

WriteError failed(const std::string& path, int error) {
    if (error == EISDIR) {
        return {path, "is a directory, not a file"};
    }
    return {path, fmt::format("cannot be written: {}", std::strerror(error))};
}

/// Writes everything, or returns errno.
int write_all(int number, std::string_view contents) {
    while (!contents.empty()) {
        const ssize_t written = ::write(number, contents.data(), contents.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written < 0) {
            return errno;
        }
        contents.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// Some file systems report a full disk only when the file is closed.
int close_file(int number) {
    return ::close(number) != 0 && errno != EINTR ? errno : 0;
}

std::optional<WriteError> write_directly(const std::string& path, std::string_view contents) {
    const int number = ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (number < 0) {
        return failed(path, errno);
    }
    const int writing = write_all(number, contents);
    const int closing = close_file(number);
    if (writing != 0 || closing != 0) {
        return failed(path, writing != 0 ? writing : closing);
    }
    return std::nullopt;
}

/// Where the links of an existing path lead.
std::string resolved(const std::string& path) {
    const std::unique_ptr<char, decltype(&std::free)> real(::realpath(path.c_str(), nullptr), &std::free);
    return real ? std::string(real.get()) : path;
}

struct Temporary {
    int number = -1;
    std::string path;
};

/// A new file beside `target`, with a name that no other file has. The mode is that of any new file (umask).
Temporary create_beside(const std::string& target) {
    constexpr int tries = 100;
    for (int i = 0; i < tries; ++i) {
        Temporary temporary{-1, fmt::format("{}.{}-{}.part", target, ::getpid(), i)};
        temporary.number = ::open(temporary.path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (temporary.number >= 0 || errno != EEXIST) {
            return temporary;
        }
    }
    return {};
}

/// Puts the name itself on the disk. Best effort: the contents are safe already.
void flush_folder(const std::string& target) {
    const std::size_t slash = target.rfind('/');
    const std::string folder = slash == std::string::npos ? "." : target.substr(0, slash + 1);
    const int number = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (number >= 0) {
        ::fsync(number);
        ::close(number);
    }
}

} // namespace

std::optional<WriteError> write_file(const std::string& path, std::string_view contents) {
    if (path == "-") {
        const int error = write_all(STDOUT_FILENO, contents);
        return error != 0 ? std::optional(WriteError{"standard output", failed(path, error).message}) : std::nullopt;
    }
    if (path.empty() || path.find('\0') != std::string::npos) {
        return WriteError{path, "cannot be written: the path is empty or holds a NUL byte"};
    }
    struct stat about {};
    const bool exists = ::stat(path.c_str(), &about) == 0;
    if (exists && S_ISDIR(about.st_mode)) {
        return failed(path, EISDIR);
    }
    if (exists && !S_ISREG(about.st_mode)) {
        return write_directly(path, contents);
    }
    // A file that may not be written must not be replaced either, though its folder would permit it.
    if (exists && ::access(path.c_str(), W_OK) != 0) {
        return failed(path, errno);
    }
    const std::string target = exists ? resolved(path) : path;
    const Temporary temporary = create_beside(target);
    if (temporary.number < 0) {
        return failed(path, errno);
    }
    int error = write_all(temporary.number, contents);
    if (error == 0 && exists && ::fchmod(temporary.number, about.st_mode & 07777U) != 0) {
        error = errno;
    }
    if (error == 0 && ::fsync(temporary.number) != 0 && errno != EINVAL) {
        error = errno;
    }
    const int closing = close_file(temporary.number);
    error = error != 0 ? error : closing;
    if (error == 0 && ::rename(temporary.path.c_str(), target.c_str()) != 0) {
        error = errno;
    }
    if (error != 0) {
        ::unlink(temporary.path.c_str());
        return failed(path, error);
    }
    flush_folder(target);
    return std::nullopt;
}

} // namespace curbstop::text
