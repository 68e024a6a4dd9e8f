// Texts that people wrote, made fit to stand in a line of ours: one line, no characters that cannot be seen or that
// turn the direction of what follows. Each output then escapes for its own form.
// Must not know: HTML, Markdown, models.
#pragma once

#include <string>
#include <string_view>

namespace curbstop::output {

/// White space at the ends dropped and elsewhere made one space each, line ends included; unprintable characters as
/// `\u{HEX}` (text/utf8.h). Nothing else is lost or shortened.
[[nodiscard]] std::string one_line(std::string_view text);

/// The same where there is something to see, else `otherwise`.
[[nodiscard]] std::string one_line_or(std::string_view text, std::string_view otherwise);

/// The text with its first letter a capital, where that is an ASCII letter: for our own sentences.
[[nodiscard]] std::string capital(std::string text);

} // namespace curbstop::output
