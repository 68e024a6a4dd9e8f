#include "meaning/photo_builder.h"

#include <algorithm>

#include <fmt/format.h>

namespace curbstop::meaning {

namespace {

/// From the folder of the source onward: no step up, no root, no other system's separators, no control characters.
bool stays_inside(std::string_view file) {
    if (file.starts_with('/') || file.find_first_of("\\:") != std::string_view::npos ||
        std::ranges::any_of(file, [](unsigned char each) { return each < 0x20 || each == 0x7F; })) {
        return false;
    }
    for (std::size_t at = 0; at <= file.size();) {
        const std::size_t end = std::min(file.find('/', at), file.size());
        if (file.substr(at, end - at) == "..") {
            return false;
        }
        at = end + 1;
    }
    return true;
}

} // namespace

std::optional<PhotoId> photo_from(Context& context, System& system, syntax::Node node, Text words) {
    const syntax::Node written = node.child(0);
    const std::string file = written.unquoted();
    if (words.find_first_not_of(" \t\r\n") == std::string::npos) {
        context.complain("photo-without-words", node.span(),
                         fmt::format("`{}` is not told in words: who cannot see it must be told what it shows", file),
                         nullptr, {}, {fmt::format("write `photo {} \"WHAT IT SHOWS\"`", written.text())});
        return std::nullopt;
    }
    if (!stays_inside(file)) {
        context.complain(
            "photo-outside", written.span(),
            fmt::format("`{}` leads out of the folder of this file: a photograph lies in it or below", file), nullptr,
            {}, {"put the photograph beside this file and name it from there"});
        return std::nullopt;
    }
    for (std::size_t i = 0; i < system.photos.size(); ++i) {
        const Photo& known = system.photos[i];
        if (known.file == file && known.words == words && known.words.others == words.others &&
            known.span.source == written.span().source) {
            return PhotoId(i);
        }
    }
    system.photos.push_back({file, std::move(words), written.span(), {}, 0, 0, {}});
    return PhotoId(system.photos.size() - 1);
}

} // namespace curbstop::meaning
