#include "command/run.h"

#include "command/arguments.h"
#include "command/commands.h"
#include "command/console.h"
#include "command/exit_status.h"

#include <csignal>
#include <exception>
#include <new>

namespace curbstop::command {
namespace {

struct Dispatch {
    const text::FileReader& reader;
    std::string_view version;

    int operator()(const CheckArguments& arguments) const { return check(arguments, reader); }
    int operator()(const SheetArguments& arguments) const { return sheet(arguments, reader, version); }
    int operator()(const TraceArguments& arguments) const { return trace(arguments, reader); }
    int operator()(const DrawArguments& arguments) const { return draw(arguments, reader); }
    int operator()(const Answer& answer) const {
        if (answer.status != proved) {
            print_error(answer.text);
            return answer.status;
        }
        return write_out("-", answer.text);
    }
};

} // namespace

int run(int count, const char* const* words, std::string_view version) noexcept {
    try {
        // A reader that goes away must not kill us half-way; writing tells us of it.
        std::signal(SIGPIPE, SIG_IGN);
        // A file that may not grow further is a failed write, not a reason to die and leave it half written.
        std::signal(SIGXFSZ, SIG_IGN);
        const text::DiskFileReader reader;
        return std::visit(Dispatch{reader, version}, read_arguments(count, words, version));
    } catch (const std::bad_alloc&) {
        print_error("curbstop: out of memory\n");
    } catch (const std::exception& error) {
        try {
            complain(std::string("internal error, please report it: ") + error.what());
        } catch (...) {
            print_error("curbstop: internal error, please report it\n");
        }
    } catch (...) {
        print_error("curbstop: internal error, please report it\n");
    }
    return unusable;
}

} // namespace curbstop::command
