// The pieces of the HTML sheet, each in the file of its name. Must not know: models, proofs.
#pragma once

#include "output/phrase.h"
#include "output/sheet.h"

#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// The style sheet (output/sheet.css), embedded at build time.
[[nodiscard]] std::string_view sheet_style();

// html_text.cpp
[[nodiscard]] std::string html_phrase(const Phrase& phrase); ///< labels are set off and keep their own direction
[[nodiscard]] std::string html_words(const Wording& text);   ///< escaped, what is in another language marked
[[nodiscard]] std::string html_label(const Wording& text);   ///< someone's words inside a line of ours
[[nodiscard]] std::string html_caution(const Caution& caution, const Tongue& tongue);
/// "Only with Loft tap" as a mark after what it is about; empty for no condition.
[[nodiscard]] std::string html_condition(const Wording& condition);

// html_head.cpp
[[nodiscard]] std::string html_head(const Sheet& sheet);        ///< title, verdict, limits
[[nodiscard]] std::string html_preparation(const Sheet& sheet); ///< before you start
// html_tables.cpp
/// The first column heads its rows. `labelled_by`: the id of the heading that names it; empty inside a card.
[[nodiscard]] std::string html_table(const InfoTable& table, std::string_view labelled_by);
[[nodiscard]] std::string html_volumes(const Sheet& sheet); ///< what every pipe, body and tank holds
[[nodiscard]] std::string html_before(const Sheet& sheet);
[[nodiscard]] std::string html_after(const Sheet& sheet);
[[nodiscard]] std::string html_foot(const Sheet& sheet);
// html_steps.cpp
[[nodiscard]] std::string html_stages(const Sheet& sheet);

} // namespace curbstop::output
