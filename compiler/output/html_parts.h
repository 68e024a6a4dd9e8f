// The pieces of the HTML sheet, each in the file of its name. Must not know: models, proofs.
#pragma once

#include "output/phrase.h"
#include "output/sheet.h"

#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

// The style sheets, each output/NAME.css, embedded at build time.
[[nodiscard]] std::string_view sheet_style();        ///< on screen, and what paper shares with it
[[nodiscard]] std::string_view sheet_print_style();  ///< on paper only
[[nodiscard]] std::string_view sheet_pocket_style(); ///< of the pocket form, on screen and on paper

// html.cpp
/// A whole document around `body`. `styles` are trusted; everything else is escaped here. `foot` stands at the foot of
/// each printed page.
[[nodiscard]] std::string html_document(const Sheet& sheet, std::string_view title, std::string_view foot,
                                        std::string_view styles, std::string_view body);

// html_text.cpp
[[nodiscard]] std::string html_phrase(const Phrase& phrase);   ///< labels are set off and keep their own direction
[[nodiscard]] std::string html_label(const std::string& text); ///< someone's words inside a line of ours
[[nodiscard]] std::string html_caution(const Caution& caution);
/// "Only with Loft tap" as a mark after what it is about; empty for no condition.
[[nodiscard]] std::string html_condition(const std::string& condition);

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
// html_aftercare.cpp
[[nodiscard]] std::string html_card(std::string_view heading, const std::string& content); ///< empty for no content
[[nodiscard]] std::string html_info(const InfoCard& card);
[[nodiscard]] std::string html_tags(const TagSheet& sheet);
[[nodiscard]] std::string html_records(const RecordSheet& sheet);
[[nodiscard]] std::string html_next(const InfoCard& next);
// html_steps.cpp
[[nodiscard]] std::string html_stages(const Sheet& sheet);

} // namespace curbstop::output
