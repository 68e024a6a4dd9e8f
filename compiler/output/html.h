// The sheet as one HTML file: nothing fetched, the same on a phone, on paper and from a memory stick; complete without
// script.
// Must not know: files, how anything was proved.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/sheet_info.h"
#include "proofs/report.h"

#include <string>

namespace curbstop::output {

/// A whole document (HTML Living Standard). Its Content-Security-Policy lets in nothing but its own style
/// and script, by hash.
/// `report` must be of a proved procedure, with its steps filled in: there is no sheet for any other.
[[nodiscard]] std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                                     const proofs::ProcedureReport& report, const SheetInfo& info);

/// The same from a composed sheet.
[[nodiscard]] std::string html_sheet(const Sheet& sheet);

} // namespace curbstop::output
