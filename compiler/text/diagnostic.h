// Messages as data, and the sink that collects them. How they look is text/render.h's business.
// Must not know: terminals, JSON, which checks exist (slugs are listed in text/catalogue.h).
#pragma once

#include "text/source.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::text {

enum class Severity { error, warning, note };

[[nodiscard]] std::string_view severity_name(Severity severity);

/// A second place that a message talks about, with what is to be said there.
struct Label {
    Span span;
    std::string text;
};

/// One message. Wording: lower case, no full stop, the reader's own words in backticks; what was seen, then the rule,
/// then the remedy.
struct Diagnostic {
    std::string_view slug; ///< a catalogue entry's slug; a literal, so it outlives the message
    Severity severity = Severity::error;
    Span span; ///< the narrowest wrong thing; without a source when no place in a text is to blame
    std::string message;
    std::vector<Label> labels = {};
    std::vector<std::string> notes = {};    ///< facts and rules
    std::vector<std::string> remedies = {}; ///< what the author could write instead
};

/// Of each severity, so many messages are kept; the rest is counted.
inline constexpr std::size_t max_diagnostics = 100;

/// Collects messages. Bounded, so that a hostile text cannot fill the memory with them.
class DiagnosticSink {
  public:
    explicit DiagnosticSink(std::size_t limit = max_diagnostics)
        : limit_(limit) {}

    void add(Diagnostic diagnostic);

    [[nodiscard]] bool has_errors() const { return errors_ > 0; }
    [[nodiscard]] std::size_t error_count() const { return errors_; }     ///< those left out included
    [[nodiscard]] std::size_t warning_count() const { return warnings_; } ///< those left out included
    [[nodiscard]] std::size_t errors_left_out() const { return errors_ - std::min(errors_, limit_); }
    [[nodiscard]] std::size_t warnings_left_out() const { return warnings_ - std::min(warnings_, limit_); }
    /// Kept messages in the order in which they came.
    [[nodiscard]] const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }
    /// Kept messages by source, then place, else in the order in which they came; those without a source come first.
    [[nodiscard]] std::vector<Diagnostic> sorted() const;

  private:
    std::size_t limit_;
    std::size_t errors_ = 0;
    std::size_t warnings_ = 0;
    std::size_t notes_ = 0;
    std::vector<Diagnostic> diagnostics_;
};

} // namespace curbstop::text
