#include "text/write_file.h"

#include "temporary_folder.h"

#include <catch2/catch.hpp>
#include <csignal>
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace curbstop::text;

namespace {

std::string message_of(const std::optional<WriteError>& error) {
    REQUIRE(error);
    return error->message;
}

unsigned mode_of(const std::string& path) {
    struct stat about {};
    REQUIRE(::stat(path.c_str(), &about) == 0);
    return about.st_mode & 07777U;
}

/// Files of this process may grow to so many bytes only, as if the disk were full then.
class FileSizeLimit {
  public:
    explicit FileSizeLimit(rlim_t bytes)
        : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &saved_);
        const rlimit limit{bytes, saved_.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    FileSizeLimit(const FileSizeLimit&) = delete;
    FileSizeLimit& operator=(const FileSizeLimit&) = delete;
    ~FileSizeLimit() {
        ::setrlimit(RLIMIT_FSIZE, &saved_);
        std::signal(SIGXFSZ, handler_);
    }

  private:
    rlimit saved_{};
    void (*handler_)(int);
};

} // namespace

TEST_CASE("a new file takes the mode of any new file, an old one keeps its own") {
    const TemporaryFolder folder;
    const mode_t mask = ::umask(022);
    const std::string path = folder.path("sheet.html");
    CHECK_FALSE(write_file(path, "one"));
    CHECK(TemporaryFolder::read(path) == "one");
    CHECK(mode_of(path) == 0644);
    REQUIRE(::chmod(path.c_str(), 0600) == 0);
    CHECK_FALSE(write_file(path, "two"));
    CHECK(TemporaryFolder::read(path) == "two");
    CHECK(mode_of(path) == 0600);
    CHECK(folder.size() == 1); // nothing else is left
    ::umask(mask);
}

TEST_CASE("a link is followed, not replaced") {
    const TemporaryFolder folder;
    const std::string target = folder.write("target", "old");
    const std::string link = folder.path("link");
    REQUIRE(::symlink("target", link.c_str()) == 0);
    CHECK_FALSE(write_file(link, "new"));
    CHECK(std::filesystem::is_symlink(link));
    CHECK(TemporaryFolder::read(target) == "new");
}

TEST_CASE("a path without a folder is written to the current one") {
    const TemporaryFolder folder;
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(folder.path());
    const auto error = write_file("sheet.md", "x");
    std::filesystem::current_path(before);
    CHECK_FALSE(error);
    CHECK(TemporaryFolder::read(folder.path("sheet.md")) == "x");
}

TEST_CASE("what cannot be written says why") {
    const TemporaryFolder folder;
    CHECK(message_of(write_file(folder.path(), "x")) == "is a directory, not a file");
    CHECK(message_of(write_file(folder.path("none/sheet"), "x")) == "cannot be written: No such file or directory");
    CHECK(message_of(write_file("", "x")) == "cannot be written: the path is empty or holds a NUL byte");
    // A device is written to, never replaced by a file.
    CHECK(message_of(write_file("/dev/full", "x")) == "cannot be written: No space left on device");
    CHECK_FALSE(write_file("/dev/null", "x"));
    CHECK(std::filesystem::is_character_file("/dev/full"));
    CHECK(std::filesystem::is_character_file("/dev/null"));
}

TEST_CASE("when the disk is full the old file stands and nothing else is left") {
    const TemporaryFolder folder;
    const std::string path = folder.write("sheet.html", "old");
    std::optional<WriteError> error;
    {
        const FileSizeLimit limit(1000);
        error = write_file(path, std::string(5000, 'x'));
    }
    CHECK(message_of(error) == "cannot be written: File too large");
    CHECK(TemporaryFolder::read(path) == "old");
    CHECK(folder.size() == 1);
}

TEST_CASE("a file that may not be written is not replaced either") {
    if (::geteuid() == 0) {
        WARN("not tried: the superuser may write everything");
        return;
    }
    const TemporaryFolder folder;
    const std::string path = folder.write("sheet.html", "old");
    REQUIRE(::chmod(path.c_str(), 0400) == 0);
    CHECK(message_of(write_file(path, "new")) == "cannot be written: Permission denied");
    CHECK(TemporaryFolder::read(path) == "old");
}

TEST_CASE("a failing standard output is reported") {
    const int saved = ::dup(STDOUT_FILENO);
    const int full = ::open("/dev/full", O_WRONLY);
    ::dup2(full, STDOUT_FILENO);
    const auto error = write_file("-", "x");
    ::dup2(saved, STDOUT_FILENO);
    ::close(full);
    ::close(saved);
    CHECK(message_of(error) == "cannot be written: No space left on device");
    CHECK(error->path == "standard output");
}
