// The sheet as Markdown, for wikis and pull requests: CommonMark 0.31 with task lists and tables as GitHub Flavored
// Markdown has them, one line for each thing said, so that a change of the procedure reads as a change of those lines.
// Must not know: files, how anything was proved.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/sheet_info.h"
#include "proofs/report.h"

#include <string>
#include <string_view>

namespace curbstop::output {

/// `report` must be of a proved procedure, with its steps filled in: there is no sheet for any other.
[[nodiscard]] std::string markdown_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                                         const proofs::ProcedureReport& report, const SheetInfo& info);
[[nodiscard]] std::string markdown_sheet(const Sheet& sheet);

/// One line of text with everything escaped that Markdown would take for its own; with `starts_line` also what is
/// special at the start of a line only.
[[nodiscard]] std::string markdown_escaped(std::string_view line, bool starts_line);
/// The same of what has literals: they become code spans.
[[nodiscard]] std::string markdown_words(const Wording& text, bool starts_line);

} // namespace curbstop::output
