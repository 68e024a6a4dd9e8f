// The standard library inside the program. The table is generated at build time from stdlib/ (embed_modules.cmake).
// Must not know: the language; to this folder a module is a name and a text.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace curbstop::text {

struct EmbeddedModule {
    std::string_view name; ///< the file's name without `.curb`
    std::string_view text;
};

/// All modules, sorted by name. They live as long as the program.
[[nodiscard]] std::span<const EmbeddedModule> embedded_stdlib();

/// The text of one module.
[[nodiscard]] std::optional<std::string_view> find_embedded_module(std::string_view name);

} // namespace curbstop::text
