#include "meaning/system.h"

namespace curbstop::meaning {

std::optional<Signal> signal_from_name(std::string_view name) {
    if (name == "danger") {
        return Signal::danger;
    }
    if (name == "warning") {
        return Signal::warning;
    }
    if (name == "caution") {
        return Signal::caution;
    }
    if (name == "notice") {
        return Signal::notice;
    }
    return std::nullopt;
}

} // namespace curbstop::meaning
