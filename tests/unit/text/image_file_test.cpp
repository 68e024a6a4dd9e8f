#include "text/image_file.h"

#include <catch2/catch.hpp>

#include <string>

using namespace curbstop::text;

namespace {

std::string be32(std::uint32_t value) {
    std::string out;
    for (int shift = 24; shift >= 0; shift -= 8) {
        out += static_cast<char>(value >> static_cast<unsigned>(shift) & 0xFFU);
    }
    return out;
}

// The check value of the polynomial: "123456789" has CBF43926 (published with ISO/IEC 3309 implementations; value from
// memory). Bit by bit here, as in the standard's text, so that no table is shared with what is tried.
std::uint32_t crc(const std::string& bytes) {
    std::uint32_t sum = ~0U;
    for (const char each : bytes) {
        for (unsigned bit = 0; bit < 8; ++bit) {
            const bool one = ((static_cast<unsigned char>(each) >> bit ^ sum) & 1U) != 0;
            sum = one ? sum >> 1U ^ 0xEDB88320U : sum >> 1U;
        }
    }
    return ~sum;
}

std::string chunk(const std::string& type, const std::string& data) {
    return be32(static_cast<std::uint32_t>(data.size())) + type + data + be32(crc(type + data));
}

std::string png(std::uint32_t width, std::uint32_t height) {
    using namespace std::string_literals;
    return "\x89PNG\r\n\x1A\n"s + chunk("IHDR", be32(width) + be32(height) + "\x08\x00\x00\x00\x00"s) +
           chunk("IDAT", "x") + chunk("IEND", "");
}

// SOI, a start of frame, a scan of two bytes with a stuffed and a restart marker, EOI (T.81, annex B).
std::string jpeg(const std::string& size) {
    using namespace std::string_literals;
    return "\xFF\xD8\xFF\xC0\x00\x0B\x08"s + size + "\x01\x01\x11\x00"s + "\xFF\xDA\x00\x08\x01\x01\x00\x00\x3F\x00"s +
           "a\xFF\x00\xFF\xD0z"s + "\xFF\xD9"s;
}

bool is_image(const std::string& bytes) {
    return std::holds_alternative<ImageInfo>(read_image(bytes));
}
std::string refusal(const std::string& bytes) {
    const auto result = read_image(bytes);
    return std::holds_alternative<std::string>(result) ? std::get<std::string>(result) : "";
}

} // namespace

TEST_CASE("the sums of the tests are those of the standard") {
    CHECK(crc("123456789") == 0xCBF43926U);
    // The checksum of every IEND, as any PNG ends (PNG, third edition, section 11.2.5).
    CHECK(crc("IEND") == 0xAE426082U);
}

TEST_CASE("a whole PNG and a whole JPEG are told by their structure, with their size") {
    const auto one = read_image(png(640, 480));
    REQUIRE(std::holds_alternative<ImageInfo>(one));
    CHECK(std::get<ImageInfo>(one).sort == ImageSort::png);
    CHECK(std::get<ImageInfo>(one).width == 640);
    CHECK(std::get<ImageInfo>(one).height == 480);
    using namespace std::string_literals;
    const auto other = read_image(jpeg("\x01\xE0\x02\x80"s));
    REQUIRE(std::holds_alternative<ImageInfo>(other));
    CHECK(std::get<ImageInfo>(other).sort == ImageSort::jpeg);
    CHECK(std::get<ImageInfo>(other).width == 640);
    CHECK(std::get<ImageInfo>(other).height == 480);
    CHECK(media_type(ImageSort::jpeg) == "image/jpeg");
}

TEST_CASE("no image that is cut off anywhere is one, nor one with a byte turned round") {
    using namespace std::string_literals;
    for (const std::string& whole : {png(2, 3), jpeg("\x00\x02\x00\x03"s)}) {
        REQUIRE(is_image(whole));
        for (std::size_t length = 0; length < whole.size(); ++length) {
            CHECK_FALSE(is_image(whole.substr(0, length)));
        }
    }
    const std::string whole = png(2, 3);
    for (std::size_t at = 0; at < whole.size(); ++at) {
        std::string turned = whole;
        turned[at] = static_cast<char>(~turned[at]);
        CHECK_FALSE(is_image(turned));
    }
}

TEST_CASE("nothing hides behind the end of an image") {
    using namespace std::string_literals;
    CHECK(refusal(png(2, 3) + "<script>") == "holds 8 more bytes behind the end of its PNG image");
    CHECK(refusal(jpeg("\x00\x02\x00\x03"s) + "PK") == "holds 2 more bytes behind the end of its JPEG image");
}

TEST_CASE("absurd dimensions are refused") {
    using namespace std::string_literals;
    CHECK(is_image(png(max_image_side, 1)));
    CHECK_FALSE(is_image(png(max_image_side + 1, 1)));
    CHECK(refusal(png(0xFFFFFFFFU, 7)) == "is 4294967295 by 7 pixels: a side has 1 to 16384");
    CHECK_FALSE(is_image(png(0, 5)));
    CHECK_FALSE(is_image(jpeg("\x00\x00\x00\x03"s)));
}

TEST_CASE("what is no image says so") {
    for (const std::string& other :
         {std::string(), std::string("GIF89a"), std::string("<svg/>"), std::string("\xFF")}) {
        CHECK(refusal(other) == "is neither a PNG nor a JPEG image, whatever its name says");
    }
}
