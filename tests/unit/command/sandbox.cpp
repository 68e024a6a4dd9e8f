#include "command/sandbox.h"

#include "command/run.h"

#include <algorithm>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <unistd.h>

namespace curbstop::command::tests {

namespace fs = std::filesystem;

namespace {

std::string read_whole(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// Lets a file stand for one of the standard streams as long as this lives.
class Redirected {
  public:
    Redirected(int stream, const std::string& path, int flags)
        : stream_(stream)
        , saved_(::dup(stream)) {
        const int file = ::open(path.c_str(), flags | O_CLOEXEC, 0600);
        if (file < 0 || ::dup2(file, stream) < 0) {
            throw std::runtime_error("cannot redirect to " + path);
        }
        ::close(file);
    }
    Redirected(const Redirected&) = delete;
    Redirected& operator=(const Redirected&) = delete;
    ~Redirected() {
        ::dup2(saved_, stream_);
        ::close(saved_);
    }

  private:
    int stream_;
    int saved_;
};

constexpr int to_write = O_WRONLY | O_CREAT | O_TRUNC;

} // namespace

Sandbox::Sandbox() {
    std::string name = (fs::temp_directory_path() / "curbstop-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) {
        throw std::runtime_error("cannot make a folder for the test");
    }
    folder_ = name;
    fs::create_directory(folder_ / "work");
    folder_ /= "work";
}

Sandbox::~Sandbox() {
    std::error_code ignored;
    fs::remove_all(folder_.parent_path(), ignored);
}

void Sandbox::write(const std::string& name, const std::string& text) const {
    fs::create_directories(path(name).parent_path());
    std::ofstream(path(name), std::ios::binary) << text;
}

std::string Sandbox::read(const std::string& name) const {
    return read_whole(path(name));
}

std::vector<std::string> Sandbox::names() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder_)) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

Outcome Sandbox::run(std::vector<std::string> arguments, const std::string& in, const std::string& out_to) const {
    const fs::path streams = folder_.parent_path();
    std::ofstream(streams / "in", std::ios::binary) << in;
    arguments.insert(arguments.begin(), "curbstop");
    std::vector<const char*> words;
    for (const std::string& argument : arguments) {
        words.push_back(argument.c_str());
    }
    const fs::path before = fs::current_path();
    Outcome outcome;
    {
        const Redirected input(STDIN_FILENO, (streams / "in").string(), O_RDONLY);
        const Redirected output(STDOUT_FILENO, out_to.empty() ? (streams / "out").string() : out_to, to_write);
        const Redirected errors(STDERR_FILENO, (streams / "err").string(), to_write);
        fs::current_path(folder_);
        outcome.status = command::run(static_cast<int>(words.size()), words.data(), "9.9.9");
        fs::current_path(before);
    }
    outcome.out = out_to.empty() ? read_whole(streams / "out") : std::string();
    outcome.err = read_whole(streams / "err");
    return outcome;
}

namespace {

std::string hut(const std::string& steps) {
    return R"(use water
system hut "Hut" {
  zone room "Room"
  part stop_valve : mains_stop "Stop valve" at room { delivers 4 bar }
  part tap : tap "Tap" at room
  run stop_valve.house - tap.water : copper_15 2 m
}
lineup in_use "In use" on hut { stop_valve open  tap shut }
procedure close_up "Close up" on hut {
  requires in_use
  ensures stop_valve is shut
  stage "Shut" {
)" + steps +
           "  }\n}\n";
}

} // namespace

std::string proved_hut() {
    return hut("    step \"Shut the stop valve\" { set stop_valve to shut }\n"
               "    step \"Let the pressure off\" { set tap to open }\n");
}

std::string refused_hut() {
    return hut("    step \"Let the pressure off\" { set tap to open }\n"
               "    step \"Shut the stop valve\" { set stop_valve to shut }\n");
}

} // namespace curbstop::command::tests
