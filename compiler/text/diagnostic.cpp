#include "text/diagnostic.h"

#include <tuple>

namespace curbstop::text {

std::string_view severity_name(Severity severity) {
    switch (severity) {
    case Severity::error:
        return "error";
    case Severity::warning:
        return "warning";
    case Severity::note:
        return "note";
    }
    return "error"; // not reached: the switch names every severity
}

void DiagnosticSink::add(Diagnostic diagnostic) {
    std::size_t* count = nullptr;
    switch (diagnostic.severity) {
    case Severity::error:
        count = &errors_;
        break;
    case Severity::warning:
        count = &warnings_;
        break;
    case Severity::note:
        count = &notes_;
        break;
    }
    if ((*count)++ < limit_) {
        diagnostics_.push_back(std::move(diagnostic));
    }
}

std::vector<Diagnostic> DiagnosticSink::sorted() const {
    std::vector<Diagnostic> all = diagnostics_;
    const auto key = [](const Diagnostic& d) {
        return std::tuple(d.span.source.valid(), d.span.source, d.span.begin, d.span.end);
    };
    std::stable_sort(all.begin(), all.end(),
                     [&key](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
    return all;
}

} // namespace curbstop::text
