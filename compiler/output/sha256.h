// SHA-256 (FIPS 180-4), for the content version of a sheet and the hash of its style in the page's own policy.
// Must not know: what is hashed. Not for secrets: nothing here is written to resist timing.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace curbstop::output {

using Sha256 = std::array<std::uint8_t, 32>;

[[nodiscard]] Sha256 sha256(std::string_view bytes);

/// 64 lower-case hexadecimal digits.
[[nodiscard]] std::string to_hex(const Sha256& hash);

/// Base 64 with padding (RFC 4648 section 4), as Content-Security-Policy wants it.
[[nodiscard]] std::string to_base64(const Sha256& hash);
/// The same of any bytes.
[[nodiscard]] std::string to_base64(std::string_view bytes);

} // namespace curbstop::output
