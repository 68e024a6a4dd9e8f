// What is left when the last step is done: tags for what must stay as it is, what was written down, what comes next.
// Must not know: HTML, Markdown.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "proofs/report.h"

namespace curbstop::output {

/// One tag per part that is left otherwise than it stands in use (`lineup ... for use`); where nothing is declared for
/// use, otherwise than it was found. None where the procedure brings everything back into use.
[[nodiscard]] TagSheet tag_sheet(const Words& words, const meaning::Model& model, const meaning::Procedure& procedure,
                                 const proofs::ProcedureReport& report);

/// Every `record`, in order.
[[nodiscard]] RecordSheet record_sheet(const Words& words, const meaning::Procedure& procedure);

/// The procedure that a declared season lets follow, and what may be moved until then; no lines where there is none.
[[nodiscard]] InfoCard next_card(const Words& words, const meaning::Model& model, const meaning::Procedure& procedure);

} // namespace curbstop::output
