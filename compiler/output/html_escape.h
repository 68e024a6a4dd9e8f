// Escaping for HTML, SVG and the strings of a style sheet: the one place that knows which characters are special there.
// Must not know: what is written.
#pragma once

#include <string>
#include <string_view>

namespace curbstop::output {

/// For text and for attribute values in double quotes, in HTML and in XML alike. What neither may hold (controls,
/// bytes that are not UTF-8, the non-characters U+FFFE and U+FFFF) becomes U+FFFD.
[[nodiscard]] std::string html_escaped(std::string_view text);

/// A CSS string with its quotes (CSS Syntax level 3, section 4.3.5). All but ASCII letters, digits, spaces and what is
/// not ASCII is written as a hexadecimal escape, so that no text can end the string, the style or the element.
[[nodiscard]] std::string css_string(std::string_view text);

} // namespace curbstop::output
