// Text to tokens. Reports what is no token and goes on after it.
// Must not know: what may follow what.
#pragma once

#include "syntax/report.h"
#include "syntax/token_kind.h"
#include "syntax/tree.h"
#include "text/source.h"

#include <string>
#include <vector>

namespace curbstop::syntax {

struct Lexed {
    std::vector<Token> tokens;   ///< ends with a token of the kind `end`, of no length
    std::string kinds;           ///< the TokenKind of each, as a byte
    std::vector<Token> comments; ///< where the plain `#` comments are, without their line ends
    bool too_deep = false;       ///< braces nest deeper than max_nesting: the tokens stop there
};

/// Splits one text. After an unclosed text or a stray character the tokens go on as if it had been put right, so that
/// one slip makes one message. A number that is too long is cut after max_number_digits digits.
Lexed lex(const text::Source& source, Report& report);

} // namespace curbstop::syntax
