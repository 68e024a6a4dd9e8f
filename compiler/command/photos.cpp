#include "command/photos.h"

#include "text/image_file.h"
#include "text/utf8.h"

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <system_error>
#include <utility>

namespace curbstop::command {
namespace {

namespace fs = std::filesystem;

/// Links on the way count as what they lead to. What is not there leads nowhere.
bool leads_outside(const fs::path& folder, const fs::path& file) {
    std::error_code problem;
    const fs::path target = fs::canonical(file, problem);
    if (problem) {
        return false;
    }
    const fs::path root = fs::canonical(folder.empty() ? fs::path(".") : folder, problem);
    const fs::path relative = target.lexically_relative(root);
    return problem || relative.empty() || *relative.begin() == "..";
}

void complain(text::DiagnosticSink& sink, std::string_view slug, const meaning::Photo& photo, std::string what) {
    text::Diagnostic diagnostic;
    diagnostic.slug = slug;
    diagnostic.severity = text::Severity::error;
    diagnostic.span = photo.span;
    diagnostic.message = fmt::format("`{}` {}", text::printable(photo.file), what);
    sink.add(std::move(diagnostic));
}

bool load(meaning::Photo& photo, const text::SourceSet& sources, text::DiagnosticSink& sink,
          const text::FileReader& reader) {
    const std::string& source = sources[photo.span.source].path;
    const fs::path folder = source == "-" ? fs::path() : fs::path(source).parent_path();
    const fs::path path = folder / photo.file;
    if (leads_outside(folder, path)) {
        complain(sink, "photo-outside", photo, "is a link that leads out of the folder of this file");
        return false;
    }
    text::ReadResult read = reader.read_bytes(path.string(), max_photo_bytes);
    if (const auto* error = std::get_if<text::ReadError>(&read)) {
        const bool large = error->kind == text::ReadFailure::too_large;
        complain(sink, large ? "photo-too-large" : "missing-photo", photo,
                 large ? fmt::format("is larger than {} MiB: save it smaller", max_photo_bytes >> 20U)
                       : error->message);
        return false;
    }
    photo.bytes = std::move(std::get<std::string>(read));
    const auto image = text::read_image(photo.bytes);
    if (const auto* why = std::get_if<std::string>(&image)) {
        complain(sink, "not-a-photo", photo, *why);
        return false;
    }
    const auto& info = std::get<text::ImageInfo>(image);
    photo.media_type = text::media_type(info.sort);
    photo.width = info.width;
    photo.height = info.height;
    return true;
}

} // namespace

bool load_photos(meaning::System& system, const text::SourceSet& sources, text::DiagnosticSink& sink,
                 const text::FileReader& reader) {
    bool usable = true;
    std::size_t bytes = 0;
    for (meaning::Photo& photo : system.photos) {
        usable = load(photo, sources, sink, reader) && usable;
        bytes += photo.bytes.size();
        if (bytes > max_photos_bytes) {
            complain(sink, "photo-too-large", photo,
                     fmt::format("and those before it are larger than {} MiB together", max_photos_bytes >> 20U));
            return false;
        }
    }
    return usable;
}

} // namespace curbstop::command
