#include "meaning/rational.h"

#include <array>
#include <catch2/catch.hpp>
#include <limits>

using namespace curbstop::meaning;

namespace {

Rational ratio(Integer numerator, Integer denominator = 1) {
    const auto result = Rational::ratio(numerator, denominator);
    REQUIRE(result);
    return *result;
}

constexpr Integer greatest = (((static_cast<Integer>(1) << 126) - 1) << 1) + 1; // 2^127 - 1

} // namespace

TEST_CASE("fractions are kept in lowest terms, the sign above") {
    CHECK(ratio(6, -4) == ratio(-3, 2));
    CHECK((ratio(6, -4).numerator() == -3));
    CHECK((ratio(6, -4).denominator() == 2));
    CHECK(ratio(0, -7) == Rational(0));
    CHECK_FALSE(Rational::ratio(1, 0));
    CHECK_FALSE(Rational::ratio(-greatest - 1, 1)); // has no negation
    CHECK(ratio(10, 5).is_whole());
    CHECK(ratio(-1, 3).sign() == -1);
    CHECK(Rational(0).sign() == 0);
}

TEST_CASE("arithmetic is exact") {
    CHECK(add(ratio(1, 6), ratio(1, 10)) == ratio(4, 15));
    CHECK(subtract(ratio(1, 6), ratio(1, 10)) == ratio(1, 15));
    CHECK(multiply(ratio(2, 3), ratio(9, 4)) == ratio(3, 2));
    CHECK(divide(ratio(2, 3), ratio(-4, 9)) == ratio(-3, 2));
    CHECK_FALSE(divide(ratio(2, 3), Rational(0)));
    CHECK(multiply(Rational(0), ratio(1, greatest)) == Rational(0));
}

TEST_CASE("what does not fit gives nothing, what fits after cancelling is given") {
    CHECK_FALSE(add(ratio(greatest), Rational(1)));
    CHECK_FALSE(subtract(ratio(-greatest), Rational(2)));
    CHECK_FALSE(multiply(ratio(greatest), Rational(2)));
    CHECK_FALSE(add(ratio(1, greatest), ratio(1, greatest - 1)));
    CHECK(multiply(ratio(greatest, 3), ratio(3, greatest)) == Rational(1));
    CHECK(divide(ratio(greatest), ratio(greatest)) == Rational(1));
    CHECK(add(ratio(1, greatest), ratio(1, greatest)) == ratio(2, greatest));
}

TEST_CASE("comparison agrees with cross multiplication where that fits") {
    std::size_t wrong = 0;
    for (int a = -7; a <= 7; ++a) {
        for (int b = 1; b <= 7; ++b) {
            for (int c = -7; c <= 7; ++c) {
                for (int d = 1; d <= 7; ++d) {
                    wrong += (ratio(a, b) <=> ratio(c, d)) == (a * d <=> c * b) ? 0U : 1U;
                }
            }
        }
    }
    CHECK(wrong == 0);
}

TEST_CASE("comparison does not overflow") {
    // Neighbours whose cross products need 254 bits.
    const Rational below = ratio(greatest - 2, greatest - 1);
    const Rational above = ratio(greatest - 1, greatest);
    CHECK(below < above);
    CHECK(above > below);
    CHECK(below <= below);
    CHECK(ratio(-greatest) < ratio(greatest));
    CHECK(ratio(1, greatest) < ratio(1, greatest - 1));
    CHECK(ratio(-1, greatest) > ratio(-1, greatest - 1));
    // Ratios of successive Fibonacci numbers agree in every step of the continued fraction but the last.
    Integer previous = 1;
    Integer current = 1;
    while (current <= greatest - previous) {
        const Integer next = previous + current;
        previous = current;
        current = next;
    }
    const Rational golden = ratio(current, previous);
    const Rational before = ratio(previous, current - previous);
    CHECK(golden != before);
    CHECK((golden < before) == (before > golden));
    CHECK((golden < before) != (before < golden));
}

TEST_CASE("to double") {
    CHECK(ratio(1, 3).to_double() == 1.0 / 3.0);
    CHECK(ratio(-7, 4).to_double() == -1.75);
    CHECK(Rational(0).to_double() == 0.0);
}
