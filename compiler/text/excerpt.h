// The quoted lines under a message: line numbers, the text itself, and an underline.
// Must not know: messages, severities.
#pragma once

#include "text/source.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace curbstop::text {

/// ANSI escape sequences around an underline; both empty for plain text.
struct Paint {
    std::string_view begin;
    std::string_view end;
};

/// The line of `span` with `^~~~` beneath; for a span over several lines its first and its last. Tabs are widened,
/// unprintable characters escaped, a line of more than `width` columns is cut around the span and marked with `…`.
[[nodiscard]] std::string excerpt(const Source& source, Span span, std::size_t width, Paint paint);

} // namespace curbstop::text
