// The whole way from a file to what is proved of it: the one place where the folders of the compiler meet.
// Must not know: arguments, outputs, terminals.
#pragma once

#include "meaning/procedure.h"
#include "proofs/report.h"
#include "text/diagnostic.h"
#include "text/read_file.h"
#include "text/source.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace curbstop::command {

struct CompileSettings {
    std::optional<std::string> stdlib; ///< folder; nothing for the one that comes with the program
    bool prove = true;                 ///< go on after the model is built
    bool detail = false;               ///< report every step
};

/// What is known of one file. Reports point into the model, messages into the sources: hence they stay together.
struct Compiled {
    std::string path;
    text::SourceSet sources;
    text::DiagnosticSink sink;
    std::optional<meaning::Model> model;
    std::vector<proofs::ProcedureReport> reports; ///< one per procedure, in the order of the model
    bool readable = true;                         ///< the file and what it uses could be read

    /// No error of any sort.
    [[nodiscard]] bool proved() const { return readable && model.has_value() && !sink.has_errors(); }
};

[[nodiscard]] std::unique_ptr<Compiled> compile(const std::string& path, const CompileSettings& settings,
                                                const text::FileReader& reader);

/// The report of a procedure; null where there is none of that name.
[[nodiscard]] const proofs::ProcedureReport* find_report(const Compiled& compiled, std::string_view procedure);

/// The procedure is proved, and so is the one in whose wake it starts.
[[nodiscard]] bool is_proved(const Compiled& compiled, const proofs::ProcedureReport& report);

} // namespace curbstop::command
