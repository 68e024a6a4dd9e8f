// The sheet as one HTML file: nothing fetched, the same on a phone, on paper and from a memory stick. Its own script
// makes it work on screen; without script it is complete and still.
// Must not know: files, how anything was proved.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/sheet_info.h"
#include "proofs/report.h"

#include <string>

namespace curbstop::output {

/// A whole document (HTML Living Standard). Its Content-Security-Policy lets in nothing but its own style and scripts,
/// by hash.
/// `report` must be of a proved procedure, with its steps filled in: there is no sheet for any other.
[[nodiscard]] std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                                     const proofs::ProcedureReport& report, const SheetInfo& info);

/// The same from a composed sheet.
[[nodiscard]] std::string html_sheet(const Sheet& sheet);

/// The pocket form: a line per step on one page, or as many as it takes, for those who know the full sheet. As
/// self-contained as that.
[[nodiscard]] std::string html_pocket(const Sheet& sheet);
[[nodiscard]] std::string html_pocket(const meaning::Model& model, const meaning::Procedure& procedure,
                                      const proofs::ProcedureReport& report, const SheetInfo& info);

} // namespace curbstop::output
