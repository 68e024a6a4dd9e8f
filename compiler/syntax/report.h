// Where lexer and parser leave their messages: the sink, for one source, with a bound.
// Must not know: the grammar.
#pragma once

#include "text/diagnostic.h"
#include "text/source.h"

#include <cstddef>
#include <utility>

namespace curbstop::syntax {

/// Messages about one file. After text::max_diagnostics errors it is full: what follows is of no help to anybody, and
/// a hostile file must not cost the time to find all of it.
class Report {
  public:
    Report(text::SourceId source, text::DiagnosticSink& sink)
        : source_(source)
        , sink_(&sink) {}

    [[nodiscard]] text::SourceId source() const { return source_; }
    [[nodiscard]] bool full() const { return errors_ >= text::max_diagnostics; }

    void add(text::Diagnostic diagnostic) {
        if (full()) {
            return;
        }
        errors_ += diagnostic.severity == text::Severity::error ? 1 : 0;
        sink_->add(std::move(diagnostic));
    }

  private:
    text::SourceId source_;
    text::DiagnosticSink* sink_;
    std::size_t errors_ = 0;
};

} // namespace curbstop::syntax
