// Units as people write them elsewhere, and how the language spells them.
// Must not know: what a unit measures.
#pragma once

#include <optional>
#include <string_view>

namespace curbstop::syntax {

/// The unit that is meant by something that is no unit of the language, where that is plain: `hours` is `h`.
std::optional<std::string_view> meant_unit(std::string_view written);

} // namespace curbstop::syntax
