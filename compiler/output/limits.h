// What a green verdict does not cover, in the words of every output, so that none of them promises more.
// Must not know: how anything is proved.
#pragma once

#include "meaning/system.h"
#include "output/tongue.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// Whether this version proves an expression of such a kind (reference/proofs.md); where an expression has parts, all
/// of them must be proved.
[[nodiscard]] bool is_proved(const meaning::System& system, meaning::ExpressionId expression);

/// What is proved of every procedure that is not refused, each a clause fit for a list.
[[nodiscard]] std::vector<std::string> always_proved(const Tongue& tongue);

/// What is not proved of any procedure, each a clause fit for a list.
[[nodiscard]] std::vector<std::string> never_proved(const Tongue& tongue = Tongue(Language::english));

} // namespace curbstop::output
