#include "output/clean_text.h"

#include "text/utf8.h"

namespace curbstop::output {
namespace {

// Unicode's White_Space property but for the line and paragraph separators, which text::printable shows.
bool is_space(char32_t value) {
    return value == ' ' || (value >= 0x09 && value <= 0x0D) || value == 0x85 || value == 0xA0 || value == 0x1680 ||
           (value >= 0x2000 && value <= 0x200A) || value == 0x202F || value == 0x205F || value == 0x3000;
}

} // namespace

std::string one_line(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    bool space_before = false;
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint point = text::decode_utf8(text, at);
        if (point.valid && is_space(point.value)) {
            space_before = !out.empty();
        } else {
            if (space_before) {
                out += ' ';
            }
            space_before = false;
            out.append(text.substr(at, point.length));
        }
        at += point.length;
    }
    return text::printable(out);
}

std::string one_line_or(std::string_view text, std::string_view otherwise) {
    std::string line = one_line(text);
    return line.empty() ? one_line(otherwise) : line;
}

std::string capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

} // namespace curbstop::output
