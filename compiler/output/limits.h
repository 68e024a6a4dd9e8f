// What a green verdict does not cover, in the words of every output, so that none of them promises more.
// Must not know: how anything is proved.
#pragma once

#include "meaning/system.h"

#include <span>
#include <string_view>

namespace curbstop::output {

/// Whether this version proves an expression of such a kind (reference/proofs.md); where an expression has parts, all
/// of them must be proved.
[[nodiscard]] bool is_proved(const meaning::System& system, meaning::ExpressionId expression);

/// What is proved of every procedure that is not refused, each a clause fit for a list.
[[nodiscard]] std::span<const std::string_view> always_proved();

/// What is not proved of any procedure, each a clause fit for a list.
[[nodiscard]] std::span<const std::string_view> never_proved();

/// What the sheet does not replace.
[[nodiscard]] std::string_view replaces_nothing();

} // namespace curbstop::output
