// The pieces of the HTML sheet, each in the file of its name. Must not know: models, proofs.
#pragma once

#include "output/phrase.h"
#include "output/sheet.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

// The style sheets, each output/NAME.css, embedded at build time.
[[nodiscard]] std::string_view sheet_style();        ///< on screen, and what paper shares with it
[[nodiscard]] std::string_view pictures_style();     ///< of the pictures of steps
[[nodiscard]] std::string_view sheet_print_style();  ///< on paper only
[[nodiscard]] std::string_view sheet_pocket_style(); ///< of the pocket form, on screen and on paper
// The scripts, from output/script/ and beside it, embedded in the same way.
[[nodiscard]] std::string_view sheet_view_script(); ///< runs before anything is painted
[[nodiscard]] std::string_view state_script();      ///< keeps the drawings as things stand
[[nodiscard]] std::string_view sheet_script();      ///< a module, all else

// html.cpp
/// What a document runs and shows beside its text: nothing, where `module` is empty.
struct HtmlLetIn {
    std::string_view early = {};   ///< runs before anything is painted
    std::string_view module = {};  ///< runs when all is there
    std::string_view in_body = {}; ///< the text of a script that is among the body
    bool photos = false;
};
/// A whole document around `body`. `styles` and scripts are trusted; everything else is escaped here. `foot` stands at
/// the foot of each printed page.
[[nodiscard]] std::string html_document(const Sheet& sheet, std::string_view title, std::string_view foot,
                                        std::string_view styles, std::string_view body, const HtmlLetIn& let_in = {});

// html_text.cpp
[[nodiscard]] std::string html_phrase(const Phrase& phrase); ///< labels are set off and keep their own direction
[[nodiscard]] std::string html_words(const Wording& text);   ///< escaped, what is in another language marked
[[nodiscard]] std::string html_label(const Wording& text);   ///< someone's words inside a line of ours
[[nodiscard]] std::string html_caution(const Caution& caution, const Tongue& tongue);
/// "Only with Loft tap" as a mark after what it is about; empty for no condition.
[[nodiscard]] std::string html_condition(const Wording& condition);

// html_controls.cpp
[[nodiscard]] std::string html_skip_link(const Tongue& tongue);
/// Content under its heading, which is HTML. Open without script and on paper; a script folds it until it is wanted. No
/// details element: browsers print one in a single piece, whatever page or column that leaves half empty.
[[nodiscard]] std::string html_fold(std::string_view look, const std::string& heading, const std::string& content);
[[nodiscard]] std::string html_desk(const Tongue& tongue);  ///< how the page looks; the record to a file and back
[[nodiscard]] std::string html_picker(const Sheet& sheet);  ///< what this vehicle has
[[nodiscard]] std::string html_bar(const Tongue& tongue);   ///< progress, and what is done on the way
[[nodiscard]] std::string html_clear(const Tongue& tongue); ///< everything anew, asked about first
[[nodiscard]] std::string html_script_texts(const Tongue& tongue); ///< what the script may say
[[nodiscard]] std::string html_applies(const Applies& applies);    ///< an attribute, with a blank before it; or nothing
/// Something to tick. `id` is its name in the record, and the same in every language.
[[nodiscard]] std::string html_tick(std::string_view id, const std::string& words);
/// What a running wait shows and asks: when it began, when it is over, and whether it was waited by another clock. `id`
/// is that of its tick, `name` what is waited for.
[[nodiscard]] std::string html_wait(std::string_view id, const std::string& name, const Tongue& tongue);
/// What counts the rounds of a repeat and begins another; `id` is its name in the record.
[[nodiscard]] std::string html_rounds(std::string_view id, std::uint64_t most, const Tongue& tongue);
/// Something to fill in: `words` is HTML, `name` the same as text; of `line` only its unit is used.
[[nodiscard]] std::string html_field(std::string_view id, const std::string& words, const std::string& name,
                                     const Line& line, const Tongue& tongue);

// html_head.cpp
[[nodiscard]] std::string html_head(const Sheet& sheet);        ///< title
[[nodiscard]] std::string html_opening(const Sheet& sheet);     ///< what yours has, where to begin, what there is
[[nodiscard]] std::string html_verdict(const Sheet& sheet);     ///< what is proved, and what is not
[[nodiscard]] std::string html_preparation(const Sheet& sheet); ///< before you start
// html_tables.cpp
/// The first column heads its rows. `labelled_by`: the id of the heading that names it; empty inside a card.
[[nodiscard]] std::string html_table(const InfoTable& table, std::string_view labelled_by);
[[nodiscard]] std::string html_staying(const Sheet& sheet); ///< where fluids that were brought stand at the end
[[nodiscard]] std::string html_before(const Sheet& sheet);
[[nodiscard]] std::string html_after(const Sheet& sheet);
[[nodiscard]] std::string html_foot(const Sheet& sheet);
// html_aftercare.cpp
[[nodiscard]] std::string html_card(std::string_view heading, const std::string& content); ///< empty for no content
[[nodiscard]] std::string html_info(const InfoCard& card);
[[nodiscard]] std::string html_tags(const TagSheet& sheet, const Tongue& tongue);
[[nodiscard]] std::string html_records(const RecordSheet& sheet);
[[nodiscard]] std::string html_next(const InfoCard& next);
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
[[nodiscard]] std::string html_photo(const Sheet& sheet, meaning::PhotoId photo, const Wording& words);
[[nodiscard]] std::string html_part_photos(const Sheet& sheet); ///< what parts look like
// html_steps.cpp
[[nodiscard]] std::string html_stages(const Sheet& sheet);

} // namespace curbstop::output
