#include "output/phrase.h"

namespace curbstop::output {

Wording plain(const Phrase& phrase) {
    Wording text;
    for (const Piece& piece : phrase) {
        text.add(piece.text);
    }
    return text;
}

} // namespace curbstop::output
