// A model from a text, for tests: own kinds only, no modules, no errors allowed.
#pragma once

#include "meaning/build.h"
#include "meaning/procedure.h"
#include "text/diagnostic.h"
#include "text/source.h"

#include <memory>
#include <stdexcept>
#include <string>

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

} // namespace curbstop
