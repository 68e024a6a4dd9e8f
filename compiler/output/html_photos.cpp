#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sha256.h"
#include "output/tongue.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {

std::string html_photo(const Sheet& sheet, meaning::PhotoId id, const Wording& words) {
    if (sheet.all_photos == nullptr || id.value >= sheet.all_photos->size()) {
        return {};
    }
    const meaning::Photo& photo = (*sheet.all_photos)[id.value];
    // An attribute cannot mark a stretch of itself: the words of a photograph are in one language as a whole.
    const std::string language =
        words.foreign.empty() ? "" : fmt::format(" lang=\"{}\"", meaning::code(words.foreign.front().language));
    return fmt::format("<img src=\"data:{};base64,{}\" alt=\"{}\"{} width=\"{}\" height=\"{}\">\n", photo.media_type,
                       to_base64(photo.bytes), html_escaped(words), language, photo.width, photo.height);
}

std::string html_part_photos(const Sheet& sheet) {
    if (sheet.photos.empty()) {
        return {};
    }
    const Tongue tongue(sheet.language);
    std::string out = "<div class=\"photos\">\n";
    for (std::size_t i = 0; i < sheet.photos.size(); ++i) {
        const PartPhoto& each = sheet.photos[i];
        std::vector<Phrase> steps; // the way back to them
        for (const std::uint32_t step : each.steps) {
            Piece piece{plain(tongue.say<Saying::step_number>(in<"number">(tongue.number(step))))};
            piece.step = step;
            steps.push_back(phrase(piece));
        }
        fmt::format_to(std::back_inserter(out),
                       "<figure id=\"photo-{}\">\n{}<figcaption>{}{}</figcaption>\n</figure>\n", i + 1,
                       html_photo(sheet, each.photo, each.words), html_label(each.part),
                       steps.empty() ? std::string()
                                     : " <span class=\"used-in\">" + html_phrase(tongue.all_of(steps)) + "</span>");
    }
    return html_fold("looks", "<h2>" + html_escaped(tongue.text(Saying::photos_heading)) + "</h2>", out + "</div>\n");
}

} // namespace curbstop::output
