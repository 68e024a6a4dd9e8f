// The kinds of block that a file is made of, as the parser's recovery and messages tell them apart.
// Must not know: how an item reads beyond its first word.
#pragma once

#include "syntax/token_kind.h"

#include <cstdint>
#include <string_view>

namespace curbstop::syntax {

enum class Place : std::uint8_t {
    file,
    fluid,
    pipe,
    kind,
    chamber,
    ways,
    settings,
    system,
    lineup,
    procedure,
    stage, ///< also the blocks in a stage, and a fragment of steps
    step,  ///< also the blocks in a step, and a fragment of statements
    season,
};

/// "in a kind": where an item of that block stands.
std::string_view place_phrase(Place place);

/// "a statement": what an item of that block is.
std::string_view item_phrase(Place place);

/// Whether an item of that block may start with such a token. Doc comments aside. Answered from the grammar itself.
bool starts_item(Place place, TokenKind kind);

} // namespace curbstop::syntax
