// A folder of its own for each test, and the program run in it with its output caught.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace curbstop::command::tests {

struct Outcome {
    int status = 0;
    std::string out;
    std::string err;
};

class Sandbox {
  public:
    Sandbox();
    Sandbox(const Sandbox&) = delete;
    Sandbox& operator=(const Sandbox&) = delete;
    ~Sandbox();

    [[nodiscard]] std::filesystem::path path(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& text) const;
    [[nodiscard]] std::string read(const std::string& name) const;
    [[nodiscard]] std::vector<std::string> names() const; ///< of what lies in the folder, sorted

    /// Runs the program with this as the current folder. `out_to` is where standard output goes instead of being
    /// caught.
    [[nodiscard]] Outcome run(std::vector<std::string> arguments, const std::string& in = {},
                              const std::string& out_to = {}) const;

  private:
    std::filesystem::path folder_;
};

/// A hut with one tap, and one procedure `close_up` that is proved; and the same with one that is refused.
[[nodiscard]] std::string proved_hut();
[[nodiscard]] std::string refused_hut();

} // namespace curbstop::command::tests
