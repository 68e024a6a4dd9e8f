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
    std::string out = "<div class=\"photos\">\n";
    for (std::size_t i = 0; i < sheet.photos.size(); ++i) {
        const PartPhoto& each = sheet.photos[i];
        fmt::format_to(std::back_inserter(out), "<figure id=\"photo-{}\">\n{}<figcaption>{}</figcaption>\n</figure>\n",
                       i + 1, html_photo(sheet, each.photo, each.words), html_label(each.part));
    }
    return html_fold("looks", "<h2>" + html_escaped(Tongue(sheet.language).text(Saying::photos_heading)) + "</h2>",
                     out + "</div>\n");
}

} // namespace curbstop::output
