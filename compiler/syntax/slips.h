// What people write that is no token of the language, and what they probably meant.
// Must not know: the grammar.
#pragma once

#include "syntax/token_kind.h"

#include <optional>
#include <string>
#include <string_view>

namespace curbstop::syntax {

struct Slip {
    std::string message;
    std::string remedy;                  ///< empty where nothing is likely
    std::optional<TokenKind> meant = {}; ///< the token that it is taken for, so that the rest can be read
};

/// Explains one stray character, or a longer slip that the lexical grammar takes whole.
Slip explain_slip(std::string_view written);

} // namespace curbstop::syntax
