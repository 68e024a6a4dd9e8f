// Exact fractions: what quantities are counted in, so that 45 psi written twice is one pressure and a comparison with a
// rating is never decided by rounding.
// Must not know: units.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>

namespace curbstop::meaning {

/// 128-bit integer of the compiler (GCC and Clang).
__extension__ typedef __int128 Integer;

/// A fraction in lowest terms, with a denominator above zero. Arithmetic that would leave 128 bits gives nothing
/// instead of a wrong value.
class Rational {
  public:
    constexpr Rational() = default;
    constexpr Rational(std::int64_t whole)
        : numerator_(whole) {} // NOLINT(google-explicit-constructor): lossless

    /// Nothing for a denominator of zero, or for the one value whose negation overflows.
    [[nodiscard]] static constexpr std::optional<Rational> ratio(Integer numerator, Integer denominator);

    [[nodiscard]] constexpr Integer numerator() const { return numerator_; }
    [[nodiscard]] constexpr Integer denominator() const { return denominator_; }
    [[nodiscard]] constexpr bool is_whole() const { return denominator_ == 1; }
    [[nodiscard]] constexpr int sign() const { return numerator_ > 0 ? 1 : numerator_ < 0 ? -1 : 0; }
    /// Nearest double, to within a rounding of each of numerator, denominator and quotient.
    [[nodiscard]] double to_double() const;

    friend constexpr bool operator==(const Rational&, const Rational&) = default;
    /// By continued fractions, which never overflow.
    friend std::strong_ordering operator<=>(const Rational& a, const Rational& b);

  private:
    Integer numerator_ = 0;
    Integer denominator_ = 1;
};

/// Sum, difference, product and quotient; nothing on overflow or division by zero.
[[nodiscard]] std::optional<Rational> add(const Rational& a, const Rational& b);
[[nodiscard]] std::optional<Rational> subtract(const Rational& a, const Rational& b);
[[nodiscard]] std::optional<Rational> multiply(const Rational& a, const Rational& b);
[[nodiscard]] std::optional<Rational> divide(const Rational& a, const Rational& b);

/// Greatest common divisor, at least 1.
[[nodiscard]] constexpr Integer greatest_common_divisor(Integer a, Integer b) {
    a = a < 0 ? -a : a;
    b = b < 0 ? -b : b;
    while (b != 0) {
        const Integer rest = a % b;
        a = b;
        b = rest;
    }
    return a == 0 ? 1 : a;
}

constexpr std::optional<Rational> Rational::ratio(Integer numerator, Integer denominator) {
    constexpr Integer least = static_cast<Integer>(1) << 126;
    constexpr Integer below = -least - least; // the one value without a negation
    if (denominator == 0 || numerator == below || denominator == below) {
        return std::nullopt;
    }
    if (denominator < 0) {
        numerator = -numerator;
        denominator = -denominator;
    }
    const Integer divisor = greatest_common_divisor(numerator, denominator);
    Rational result;
    result.numerator_ = numerator / divisor;
    result.denominator_ = denominator / divisor;
    return result;
}

} // namespace curbstop::meaning
