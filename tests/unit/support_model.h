// A model from a text, for tests: own kinds only, no modules, no errors allowed.
#pragma once

#include "meaning/build.h"
#include "meaning/procedure.h"
#include "text/diagnostic.h"
#include "text/source.h"

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace curbstop {

struct ModelFromText {
    text::SourceSet sources;
    text::DiagnosticSink sink;
    meaning::Model model;
};

/// Throws with the first message where the text is no good: a test that writes nonsense is a broken test.
inline std::unique_ptr<ModelFromText> model_from(std::string text) {
    auto made = std::make_unique<ModelFromText>();
    const text::SourceId root = made->sources.add("test.curb", std::move(text));
    const auto no_modules = [](std::string_view, text::SourceId, text::Span) { return meaning::FoundModule{}; };
    auto model = meaning::build(made->sources, root, no_modules, made->sink);
    if (!model) {
        throw std::logic_error(made->sink.diagnostics().empty() ? "no model"
                                                                : made->sink.diagnostics().front().message);
    }
    made->model = std::move(*model);
    return made;
}

/// The notes of the first message with this slug, a line each; empty where there is none.
inline std::string notes_of(const text::DiagnosticSink& sink, std::string_view slug) {
    std::string notes;
    for (const text::Diagnostic& told : sink.diagnostics()) {
        if (told.slug == slug) {
            for (const auto& note : told.notes) {
                notes += note + "\n";
            }
            break;
        }
    }
    return notes;
}

inline bool names(const std::string& notes, const std::string& what) {
    return notes.find(what) != std::string::npos;
}

} // namespace curbstop
