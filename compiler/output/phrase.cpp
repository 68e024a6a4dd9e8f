#include "output/phrase.h"

#include <cstddef>

namespace curbstop::output {

Phrase joined(const std::vector<Phrase>& phrases, const std::string& last_word) {
    Phrase result;
    for (std::size_t i = 0; i < phrases.size(); ++i) {
        if (i > 0) {
            append(result, i + 1 == phrases.size() ? " " + last_word + " " : ", ");
        }
        append(result, phrases[i]);
    }
    return result;
}

std::string plain(const Phrase& phrase) {
    std::string text;
    for (const Piece& piece : phrase) {
        text += piece.text;
    }
    return text;
}

} // namespace curbstop::output
