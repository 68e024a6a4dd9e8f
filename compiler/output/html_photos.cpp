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
    std::string out = fmt::format("<section class=\"photos\">\n<h2>{}</h2>\n",
                                  html_escaped(Tongue(sheet.language).text(Saying::photos_heading)));
    for (const PartPhoto& each : sheet.photos) {
        fmt::format_to(std::back_inserter(out), "<figure>\n{}<figcaption>{}</figcaption>\n</figure>\n",
                       html_photo(sheet, each.photo, each.words), html_label(each.part));
    }
    return out + "</section>\n";
}

} // namespace curbstop::output
