// Everything the checker knows, as JSON with a published schema (output/schema/), for tools that come after.
// Must not know: files, how anything was proved.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet_info.h"
#include "proofs/report.h"
#include "text/diagnostic.h"
#include "text/source.h"

#include <span>
#include <string>

namespace curbstop::output {

/// The number that `version` has in every document. It grows when a reader of the old form would be misled; new members
/// may come without that.
inline constexpr int json_version = 1;

/// One file that was checked.
struct CheckedFile {
    std::string path;
    const text::SourceSet* sources = nullptr;
    const text::DiagnosticSink* sink = nullptr;
    std::span<const proofs::ProcedureReport> reports; ///< empty where the file could not be understood
    bool proved = false;                              ///< no error of any sort
};

/// `curbstop-check`: the verdict on some files. Schema: check.schema.json.
[[nodiscard]] std::string check_json(std::span<const CheckedFile> files);

/// `curbstop-procedure`: the system, the procedure and what is known after each of its steps. Things that others refer
/// to stand in arrays and are referred to by their index there. Quantities are numbers in the unit that is named with
/// them (UCUM). Schema: procedure.schema.json.
[[nodiscard]] std::string procedure_json(const meaning::Model& model, const meaning::Procedure& procedure,
                                         const proofs::ProcedureReport& report, const text::SourceSet& sources,
                                         const SheetInfo& info);

} // namespace curbstop::output
