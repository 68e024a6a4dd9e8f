// Messages as text: `file:line:column: error: text [slug]` with an excerpt beneath. For people and for programs that
// read the GNU form; JSON and SARIF are made in output/ from the same data.
// Must not know: whether anything is a terminal (the caller says if colour is wanted).
#pragma once

#include "text/diagnostic.h"
#include "text/source.h"

#include <cstddef>
#include <string>

namespace curbstop::text {

struct RenderOptions {
    bool colour = false;     ///< ANSI escape sequences
    std::size_t width = 100; ///< columns of an excerpt; a longer line is cut around its span, with `…`
};

/// One message, with a line end after each line. Nothing from sources or messages reaches the result unescaped
/// (text/utf8.h, `printable`).
[[nodiscard]] std::string render(const Diagnostic& diagnostic, const SourceSet& sources, RenderOptions options = {});

/// All messages of a sink, sorted, and how many were left out.
[[nodiscard]] std::string render(const DiagnosticSink& sink, const SourceSet& sources, RenderOptions options = {});

} // namespace curbstop::text
