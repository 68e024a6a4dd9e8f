// What sort of image some bytes are, and how large, read off their structure and never off a name. Nothing is decoded:
// a file is gone through from its first byte to its last, so that nothing can hide behind the picture. Must not know:
// files, the language.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace curbstop::text {

/// Most pixels along a side. Our choice: more than any camera in use has, few enough for every browser.
inline constexpr std::uint32_t max_image_side = 16384;

enum class ImageSort : std::uint8_t { png, jpeg };

struct ImageInfo {
    ImageSort sort = ImageSort::png;
    std::uint32_t width = 0, height = 0; ///< in pixels, both at least 1 and at most max_image_side
};

/// "image/png", "image/jpeg" (RFC 2083, RFC 2046).
[[nodiscard]] std::string_view media_type(ImageSort sort);

/// Or, as a sentence part that the name of the file stands before, why it is none.
[[nodiscard]] std::variant<ImageInfo, std::string> read_image(std::string_view bytes);

} // namespace curbstop::text
