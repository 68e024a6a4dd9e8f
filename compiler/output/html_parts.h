// The pieces of the HTML sheet, each in the file of its name. Must not know: models, proofs.
#pragma once

#include "output/phrase.h"
#include "output/sheet.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// The style sheet (output/sheet.css), embedded at build time.
[[nodiscard]] std::string_view sheet_style();
/// Of the pictures of steps (output/pictures.css).
[[nodiscard]] std::string_view pictures_style();
/// The script that keeps the drawings as things stand (output/sheet_state.js).
[[nodiscard]] std::string_view state_script();

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
// html_pictures.cpp
[[nodiscard]] std::string html_drawings(const Sheet& sheet);
/// What keeps the drawings as things stand: the elements to put at the end of the body, and the text of the script
/// among them, for the Content-Security-Policy. Both empty where there is nothing to keep.
struct StateScript {
    std::string html;
    std::string script;
};
[[nodiscard]] StateScript html_state_script(const Sheet& sheet);
[[nodiscard]] std::string html_picture_signs(const Sheet& sheet); ///< what pictures share, and what their signs mean
[[nodiscard]] std::string html_picture(const Sheet& sheet, std::uint32_t step);
// html_photos.cpp
[[nodiscard]] std::string html_photo(const Sheet& sheet, meaning::PhotoId photo);
[[nodiscard]] std::string html_part_photos(const Sheet& sheet); ///< what parts look like
// html_steps.cpp
[[nodiscard]] std::string html_stages(const Sheet& sheet);

} // namespace curbstop::output
