#include "text/read_file.h"

#include "temporary_folder.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace curbstop::text;
using namespace std::string_literals;

namespace {

ReadError error_of(const ReadResult& result) {
    REQUIRE(std::holds_alternative<ReadError>(result));
    return std::get<ReadError>(result);
}

std::string text_of(const ReadResult& result) {
    REQUIRE(std::holds_alternative<std::string>(result));
    return std::get<std::string>(result);
}

/// Standard input from a descriptor for as long as this lives.
class StandardInput {
  public:
    explicit StandardInput(int number)
        : saved_(::dup(STDIN_FILENO)) {
        ::dup2(number, STDIN_FILENO);
        ::close(number);
    }
    StandardInput(const StandardInput&) = delete;
    StandardInput& operator=(const StandardInput&) = delete;
    ~StandardInput() {
        ::dup2(saved_, STDIN_FILENO);
        ::close(saved_);
    }

  private:
    int saved_;
};

} // namespace

TEST_CASE("a file is read as it is") {
    const TemporaryFolder folder;
    CHECK(text_of(DiskFileReader().read(folder.write("a.curb", "kind tap {\r\n\t}\n"))) == "kind tap {\r\n\t}\n");
    CHECK(text_of(DiskFileReader().read(folder.write("empty.curb", ""))).empty());
}

TEST_CASE("a byte order mark is dropped, and only at the start") {
    CHECK(text_of(check_text("a", "\xEF\xBB\xBFuse b")) == "use b");
    CHECK(text_of(check_text("a", "x\xEF\xBB\xBF")) == "x\xEF\xBB\xBF");
}

TEST_CASE("what is no text is refused, with the place in the file") {
    ReadError error = error_of(check_text("a", "ab\0c"s));
    CHECK(error.kind == ReadFailure::binary);
    CHECK(error.offset == 2);
    CHECK(error.message == "is not a text: control character 0x00 at byte 2");
    error = error_of(check_text("a", "\xEF\xBB\xBF\x1b"));
    CHECK(error.kind == ReadFailure::binary);
    CHECK(error.offset == 3); // counted in the file, byte order mark included
    CHECK(error_of(check_text("a", "one\rtwo\n")).offset == 3);
    CHECK(error_of(check_text("a", "\x7f")).kind == ReadFailure::binary);
    error = error_of(check_text("a", "sch\xF6n"));
    CHECK(error.kind == ReadFailure::not_utf8);
    CHECK(error.offset == 3);
    CHECK(error.message == "is not UTF-8: byte 0xF6 at byte 3");
}

TEST_CASE("what is no readable file is refused with its reason") {
    const TemporaryFolder folder;
    const DiskFileReader reader;
    CHECK(error_of(reader.read(folder.path("none.curb"))).kind == ReadFailure::missing);
    CHECK(error_of(reader.read(folder.path("none.curb"))).message == "cannot be read: No such file or directory");
    CHECK(error_of(reader.read(folder.write("a.curb", "") + "/b.curb")).kind == ReadFailure::missing);
    CHECK(error_of(reader.read("")).kind == ReadFailure::missing);
    CHECK(error_of(reader.read("a\0b"s)).kind == ReadFailure::missing);
    CHECK(error_of(reader.read(folder.path())).kind == ReadFailure::directory);
    CHECK(error_of(reader.read("/dev/zero")).kind == ReadFailure::not_a_file);
    CHECK(error_of(reader.read("/dev/zero")).message == "is a pipe or a device; give `-` to read standard input");
}

TEST_CASE("a pipe that nobody writes to does not make the program wait") {
    const TemporaryFolder folder;
    const std::string path = folder.path("pipe");
    REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
    CHECK(error_of(DiskFileReader().read(path)).kind == ReadFailure::not_a_file);
}

TEST_CASE("a file without permission is unreadable") {
    if (::geteuid() == 0) {
        WARN("not tried: the superuser may read everything");
        return;
    }
    const TemporaryFolder folder;
    const std::string path = folder.write("a.curb", "x");
    REQUIRE(::chmod(path.c_str(), 0) == 0);
    CHECK(error_of(DiskFileReader().read(path)).kind == ReadFailure::unreadable);
}

TEST_CASE("the size limit is met to the byte") {
    const TemporaryFolder folder;
    const DiskFileReader reader;
    const std::string path = folder.write("a.curb", "");
    const std::string most(max_source_bytes, '#');
    CHECK(text_of(reader.read(folder.write("most.curb", most))).size() == max_source_bytes);
    const ReadError error = error_of(reader.read(folder.write("more.curb", most + '#')));
    CHECK(error.kind == ReadFailure::too_large);
    CHECK(error.message == "is larger than 16 MiB, the most that a source may have");
    // A sparse terabyte: refused by its size, without reading it.
    REQUIRE(::truncate(path.c_str(), off_t{1} << 40) == 0);
    CHECK(error_of(reader.read(path)).kind == ReadFailure::too_large);
}

TEST_CASE("standard input is read to its end, and an endless one is refused") {
    const TemporaryFolder folder;
    {
        const StandardInput input(::open(folder.write("a.curb", "use b").c_str(), O_RDONLY));
        CHECK(text_of(DiskFileReader().read("-")) == "use b");
    }
    const StandardInput input(::open("/dev/zero", O_RDONLY));
    CHECK(error_of(DiskFileReader().read("-")).kind == ReadFailure::too_large);
}

TEST_CASE("the reader in memory agrees with the one on disk") {
    MemoryFileReader memory;
    memory.set("a.curb", "\xEF\xBB\xBFkind");
    memory.set("bad.curb", "\xFF");
    CHECK(text_of(memory.read("a.curb")) == "kind");
    CHECK(error_of(memory.read("bad.curb")).kind == ReadFailure::not_utf8);
    const ReadError missing = error_of(memory.read("b.curb"));
    const ReadError on_disk = error_of(DiskFileReader().read("no/such/file"));
    CHECK(missing.kind == on_disk.kind);
    CHECK(missing.message == on_disk.message);
}
