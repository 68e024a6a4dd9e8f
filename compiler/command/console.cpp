#include "command/console.h"

#include "command/exit_status.h"
#include "text/utf8.h"
#include "text/write_file.h"

#include <cerrno>
#include <cstdlib>
#include <unistd.h>

namespace curbstop::command {

bool wants_colour(Colour colour, int stream) {
    switch (colour) {
    case Colour::always:
        return true;
    case Colour::never:
        return false;
    case Colour::automatic: {
        const char* no_colour = std::getenv("NO_COLOR");
        const char* terminal = std::getenv("TERM");
        const bool dumb = terminal == nullptr || std::string_view(terminal) == "dumb";
        return (no_colour == nullptr || *no_colour == '\0') && !dumb && ::isatty(stream) == 1;
    }
    }
    return false;
}

void print_error(std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(STDERR_FILENO, text.data(), text.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return;
        }
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

void complain(std::string_view message) {
    print_error("curbstop: " + text::printable(message) + "\n");
}

int write_out(const std::string& path, std::string_view contents) {
    errno = 0;
    const auto error = text::write_file(path, contents);
    if (!error) {
        return proved;
    }
    if (path != "-" || errno != EPIPE) {
        complain(error->path + ": " + error->message);
    }
    return unusable;
}

} // namespace curbstop::command
