// From syntax to meaning: reads the modules a file uses, resolves every name, checks every type, writes loops and
// fragments out. The one entry to the folder. Must not know: proofs, output, how files are read.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "meaning/procedure.h"
#include "text/diagnostic.h"
#include "text/source.h"

namespace curbstop::meaning {

/// Finds a module by its bare name, adds it to the sources and says where; nothing if there is none. Reading errors are
/// reported by the finder itself; it then returns the empty optional with `reported` set.
struct FoundModule {
    std::optional<text::SourceId> source;
    bool reported = false;
};
using ModuleFinder = std::function<FoundModule(std::string_view name, text::SourceId used_by, text::Span use)>;

/// Builds the model of the system that `root` or its modules declare. Errors go to `sink`; nothing is returned if the
/// model would be incomplete.
std::optional<Model> build(text::SourceSet& sources, text::SourceId root, const ModuleFinder& find_module,
                           text::DiagnosticSink& sink);

} // namespace curbstop::meaning
