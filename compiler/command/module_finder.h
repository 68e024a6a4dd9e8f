// Where modules come from: beside the file that uses them, then from the standard library. Must not know: the language;
// a module is a name and a text.
#pragma once

#include "meaning/build.h"
#include "text/diagnostic.h"
#include "text/read_file.h"
#include "text/source.h"

#include <optional>
#include <string>

namespace curbstop::command {

/// Folder of the standard library that belongs to this program: `../share/curbstop/stdlib` from where the program lies,
/// else, for a program that was built and not installed, `stdlib` of the source tree above it. Nothing where neither is
/// there: then the one inside the program is used.
[[nodiscard]] std::optional<std::string> installed_stdlib();

/// Finds modules by name. A name holds no path, so a module is a file of exactly that name in exactly one of these
/// folders; a link that leads out of the folder is refused.
class Modules {
  public:
    /// `stdlib` is the folder that was asked for; `fallback` is used without it, and what it gives is named
    /// `stdlib/NAME.curb` in messages, wherever it lies. All but the strings outlive this.
    Modules(text::SourceSet& sources, text::DiagnosticSink& sink, const text::FileReader& reader,
            std::optional<std::string> stdlib, std::optional<std::string> fallback)
        : sources_(&sources)
        , sink_(&sink)
        , reader_(&reader)
        , stdlib_(std::move(stdlib))
        , fallback_(std::move(fallback)) {}

    [[nodiscard]] meaning::FoundModule find(std::string_view name, text::SourceId used_by, text::Span use);

    /// Some module was there and could not be read.
    [[nodiscard]] bool unreadable() const { return unreadable_; }

  private:
    [[nodiscard]] std::optional<meaning::FoundModule> look_in(const std::string& folder, std::string_view name,
                                                              text::Span use, bool as_stdlib);
    [[nodiscard]] meaning::FoundModule refuse(text::Span use, std::string message);

    text::SourceSet* sources_;
    text::DiagnosticSink* sink_;
    const text::FileReader* reader_;
    std::optional<std::string> stdlib_;
    std::optional<std::string> fallback_;
    bool unreadable_ = false;
};

} // namespace curbstop::command
