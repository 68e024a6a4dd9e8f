#include "output/html_escape.h"

#include "text/utf8.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

constexpr char32_t replacement = 0xFFFD;

// XML 1.0 section 2.2, less the controls that HTML refuses.
bool may_stand(const text::CodePoint& point) {
    const char32_t value = point.value;
    return point.valid && (value >= 0x20 || value == '\t' || value == '\n') && !(value >= 0x7F && value <= 0x9F) &&
           (value & 0xFFFEU) != 0xFFFEU && !(value >= 0xFDD0 && value <= 0xFDEF);
}

} // namespace

std::string html_escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint point = text::decode_utf8(text, at);
        if (!may_stand(point)) {
            text::append_utf8(out, replacement);
        } else if (point.value == '&') {
            out += "&amp;";
        } else if (point.value == '<') {
            out += "&lt;";
        } else if (point.value == '>') {
            out += "&gt;";
        } else if (point.value == '"') {
            out += "&quot;";
        } else if (point.value == '\'') {
            out += "&#39;";
        } else {
            out.append(text.substr(at, point.length));
        }
        at += point.length;
    }
    return out;
}

std::string css_string(std::string_view text) {
    std::string out = "\"";
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint point = text::decode_utf8(text, at);
        const char32_t value = may_stand(point) ? point.value : replacement;
        const bool plain = value == ' ' || (value >= '0' && value <= '9') || (value >= 'a' && value <= 'z') ||
                           (value >= 'A' && value <= 'Z') || value > 0x9F;
        if (plain) {
            text::append_utf8(out, value);
        } else {
            // The space belongs to the escape: a space that follows it in the text would be taken for that otherwise.
            fmt::format_to(std::back_inserter(out), "\\{:x} ", static_cast<unsigned>(value));
        }
        at += point.length;
    }
    return out + '"';
}

} // namespace curbstop::output
