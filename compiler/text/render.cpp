#include "text/render.h"

#include "text/excerpt.h"
#include "text/utf8.h"

#include <fmt/format.h>
#include <iterator>

namespace curbstop::text {
namespace {

constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view red = "\x1b[1;31m";
constexpr std::string_view yellow = "\x1b[1;33m";
constexpr std::string_view cyan = "\x1b[1;36m";
constexpr std::string_view plain = "\x1b[0m";

/// Where messages without a place come from, as the GNU form has it.
constexpr std::string_view program = "curbstop";

std::string_view colour_of(Severity severity) {
    switch (severity) {
    case Severity::error:
        return red;
    case Severity::warning:
        return yellow;
    case Severity::note:
        return cyan;
    }
    return plain; // not reached: the switch names every severity
}

struct Writer {
    const SourceSet& sources;
    RenderOptions options;
    std::string out = {};

    [[nodiscard]] std::string painted(std::string_view colour, std::string_view words) const {
        return options.colour ? fmt::format("{}{}{}", colour, words, plain) : std::string(words);
    }

    /// `file:line:column: severity: text [slug]` and the excerpt.
    void head(Span span, Severity severity, std::string_view message, std::string_view slug) {
        std::string place(program);
        if (span.source.valid()) {
            const Position at = sources.position(span);
            place = fmt::format("{}:{}:{}", printable(sources[span.source].path), at.line, at.column);
        }
        fmt::format_to(std::back_inserter(out), "{} {} {}", painted(bold, place + ":"),
                       painted(colour_of(severity), fmt::format("{}:", severity_name(severity))), printable(message));
        if (!slug.empty()) {
            fmt::format_to(std::back_inserter(out), " [{}]", slug);
        }
        out.push_back('\n');
        if (span.source.valid()) {
            const Paint paint = options.colour ? Paint{colour_of(severity), plain} : Paint{};
            out += excerpt(sources[span.source], span, options.width, paint);
        }
    }

    /// A note or remedy; the lines of a longer one are indented alike.
    void remark(std::string_view mark, std::string_view words) {
        const std::string indent(mark.size(), ' ');
        std::string_view before = mark;
        while (true) {
            const std::size_t end = words.find('\n');
            fmt::format_to(std::back_inserter(out), "{}{}\n", before, printable(words.substr(0, end)));
            if (end == std::string_view::npos) {
                return;
            }
            words.remove_prefix(end + 1);
            before = indent;
        }
    }

    void left_out(std::size_t count, std::string_view what) {
        if (count > 0) {
            fmt::format_to(std::back_inserter(out), "{}: {} more {}{} not shown\n", program, count, what,
                           count == 1 ? " is" : "s are");
        }
    }
};

} // namespace

std::string render(const Diagnostic& diagnostic, const SourceSet& sources, RenderOptions options) {
    Writer writer{sources, options};
    writer.head(diagnostic.span, diagnostic.severity, diagnostic.message, diagnostic.slug);
    for (const Label& label : diagnostic.labels) {
        writer.head(label.span, Severity::note, label.text, {});
    }
    for (const std::string& note : diagnostic.notes) {
        writer.remark("  = ", note);
    }
    for (const std::string& remedy : diagnostic.remedies) {
        writer.remark("  mend: ", remedy);
    }
    return std::move(writer.out);
}

std::string render(const DiagnosticSink& sink, const SourceSet& sources, RenderOptions options) {
    std::string out;
    for (const Diagnostic& diagnostic : sink.sorted()) {
        out += render(diagnostic, sources, options);
    }
    Writer writer{sources, options};
    writer.left_out(sink.errors_left_out(), "error");
    writer.left_out(sink.warnings_left_out(), "warning");
    return out + writer.out;
}

} // namespace curbstop::text
