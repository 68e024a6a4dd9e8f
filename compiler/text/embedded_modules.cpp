#include "text/embedded_modules.h"

#include <algorithm>

namespace curbstop::text {

std::optional<std::string_view> find_embedded_module(std::string_view name) {
    const auto modules = embedded_stdlib();
    const auto found =
        std::find_if(modules.begin(), modules.end(), [name](const EmbeddedModule& m) { return m.name == name; });
    if (found == modules.end()) {
        return std::nullopt;
    }
    return found->text;
}

} // namespace curbstop::text
