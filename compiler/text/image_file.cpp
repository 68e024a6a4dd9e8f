#include "text/image_file.h"

#include <optional>

#include <fmt/format.h>

namespace curbstop::text {
namespace {

using Result = std::variant<ImageInfo, std::string>;

constexpr std::string_view png_signature = "\x89PNG\r\n\x1A\n";
constexpr std::string_view jpeg_start = "\xFF\xD8";

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
    return static_cast<unsigned char>(bytes[at]);
}
std::uint32_t big_endian(std::string_view bytes, std::size_t at, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        value = value << 8U | byte_at(bytes, at + i);
    }
    return value;
}

// PNG (third edition, W3C), annex D: the polynomial of ISO/IEC 3309.
std::uint32_t checksum(std::string_view bytes) {
    std::uint32_t sum = 0xFFFFFFFFU;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit) {
            sum = (sum & 1U) != 0 ? sum >> 1U ^ 0xEDB88320U : sum >> 1U;
        }
    }
    return ~sum;
}

std::string broken(std::string_view sort) {
    return fmt::format("begins as a {} and is cut off or damaged", sort);
}
std::string more_behind(std::string_view sort, std::size_t count) {
    return fmt::format("holds {} more bytes behind the end of its {} image", count, sort);
}

Result measured(ImageSort sort, std::uint32_t width, std::uint32_t height) {
    if (width == 0 || height == 0 || width > max_image_side || height > max_image_side) {
        return fmt::format("is {} by {} pixels: a side has 1 to {}", width, height, max_image_side);
    }
    return ImageInfo{sort, width, height};
}

// PNG (third edition, W3C), section 5: the signature, then chunks of a length, a type, data and a checksum; the first
// is IHDR, the last IEND, with IDAT between.
Result read_png(std::string_view bytes) {
    std::size_t at = png_signature.size();
    std::optional<ImageInfo> info;
    bool has_data = false;
    while (bytes.size() - at >= 12) {
        const std::size_t length = big_endian(bytes, at, 4);
        if (length > bytes.size() - at - 12) {
            return broken("PNG");
        }
        const std::string_view type = bytes.substr(at + 4, 4);
        const std::size_t data = at + 8;
        if (checksum(bytes.substr(at + 4, 4 + length)) != big_endian(bytes, data + length, 4)) {
            return broken("PNG");
        }
        if ((type == "IHDR") == info.has_value()) {
            return broken("PNG"); // not the first, or not once
        }
        if (type == "IHDR") {
            if (length != 13) {
                return broken("PNG");
            }
            Result size = measured(ImageSort::png, big_endian(bytes, data, 4), big_endian(bytes, data + 4, 4));
            if (std::holds_alternative<std::string>(size)) {
                return size;
            }
            info = std::get<ImageInfo>(size);
        }
        has_data = has_data || type == "IDAT";
        at = data + length + 4;
        if (type == "IEND") {
            if (length != 0 || !has_data) {
                return broken("PNG");
            }
            return at == bytes.size() ? Result(*info) : Result(more_behind("PNG", bytes.size() - at));
        }
    }
    return broken("PNG");
}

bool is_frame(std::uint32_t marker) { // SOF0 to SOF15 but DHT, JPG and DAC
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

// Rec. ITU-T T.81 (1992), annex B: SOI, then marker segments; a scan's data follows its header up to the next marker
// that is neither stuffed (00) nor a restart (D0 to D7); EOI ends it.
Result read_jpeg(std::string_view bytes) {
    std::size_t at = jpeg_start.size();
    std::optional<ImageInfo> info;
    bool has_scan = false;
    while (bytes.size() - at >= 2) {
        if (byte_at(bytes, at) != 0xFF) {
            return broken("JPEG");
        }
        const std::uint32_t marker = byte_at(bytes, at + 1);
        if (marker == 0xFF) { // fill
            ++at;
            continue;
        }
        at += 2;
        if (marker == 0xD9) {
            if (!info || !has_scan) {
                return broken("JPEG");
            }
            return at == bytes.size() ? Result(*info) : Result(more_behind("JPEG", bytes.size() - at));
        }
        if (marker < 0xC0 || (marker >= 0xD0 && marker <= 0xD8) || bytes.size() - at < 2) {
            return broken("JPEG");
        }
        const std::size_t length = big_endian(bytes, at, 2);
        if (length < 2 || length > bytes.size() - at) {
            return broken("JPEG");
        }
        if (is_frame(marker)) {
            if (info || length < 8) {
                return broken("JPEG");
            }
            Result size = measured(ImageSort::jpeg, big_endian(bytes, at + 5, 2), big_endian(bytes, at + 3, 2));
            if (std::holds_alternative<std::string>(size)) {
                return size;
            }
            info = std::get<ImageInfo>(size);
        }
        at += length;
        if (marker == 0xDA) {
            has_scan = true;
            while (bytes.size() - at >= 2 && (byte_at(bytes, at) != 0xFF || byte_at(bytes, at + 1) == 0 ||
                                              (byte_at(bytes, at + 1) >= 0xD0 && byte_at(bytes, at + 1) <= 0xD7))) {
                ++at;
            }
        }
    }
    return broken("JPEG");
}

} // namespace

std::string_view media_type(ImageSort sort) {
    switch (sort) {
    case ImageSort::png:
        return "image/png";
    case ImageSort::jpeg:
        return "image/jpeg";
    }
    return {};
}

Result read_image(std::string_view bytes) {
    if (bytes.starts_with(png_signature)) {
        return read_png(bytes);
    }
    if (bytes.starts_with(jpeg_start)) {
        return read_jpeg(bytes);
    }
    return std::string("is neither a PNG nor a JPEG image, whatever its name says");
}

} // namespace curbstop::text
