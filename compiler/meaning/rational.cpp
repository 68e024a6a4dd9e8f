#include "meaning/rational.h"

namespace curbstop::meaning {
namespace {

struct Division {
    Integer quotient; // rounded down
    Integer rest;     // 0 <= rest < divisor
};

Division divide_down(Integer dividend, Integer divisor) {
    Division result{dividend / divisor, dividend % divisor};
    if (result.rest < 0) {
        result.rest += divisor;
        --result.quotient;
    }
    return result;
}

} // namespace

double Rational::to_double() const {
    return static_cast<double>(static_cast<long double>(numerator_) / static_cast<long double>(denominator_));
}

std::strong_ordering operator<=>(const Rational& a, const Rational& b) {
    if (a.denominator_ == b.denominator_) {
        return a.numerator_ <=> b.numerator_;
    }
    Integer an = a.numerator_;
    Integer ad = a.denominator_;
    Integer bn = b.numerator_;
    Integer bd = b.denominator_;
    // Compares whole parts; where they are equal, what is left is compared by its inverse, which turns the order round.
    for (bool turned = false;; turned = !turned) {
        const Division left = divide_down(an, ad);
        const Division right = divide_down(bn, bd);
        if (left.quotient != right.quotient) {
            return (left.quotient < right.quotient) != turned ? std::strong_ordering::less
                                                              : std::strong_ordering::greater;
        }
        if (left.rest == 0 && right.rest == 0) {
            return std::strong_ordering::equal;
        }
        if (left.rest == 0 || right.rest == 0) {
            return (left.rest == 0) != turned ? std::strong_ordering::less : std::strong_ordering::greater;
        }
        an = ad;
        ad = left.rest;
        bn = bd;
        bd = right.rest;
    }
}

std::optional<Rational> add(const Rational& a, const Rational& b) {
    const Integer divisor = greatest_common_divisor(a.denominator(), b.denominator());
    Integer left = 0;
    Integer right = 0;
    Integer sum = 0;
    Integer denominator = 0;
    if (__builtin_mul_overflow(a.numerator(), b.denominator() / divisor, &left) ||
        __builtin_mul_overflow(b.numerator(), a.denominator() / divisor, &right) ||
        __builtin_add_overflow(left, right, &sum) ||
        __builtin_mul_overflow(a.denominator(), b.denominator() / divisor, &denominator)) {
        return std::nullopt;
    }
    return Rational::ratio(sum, denominator);
}

std::optional<Rational> subtract(const Rational& a, const Rational& b) {
    if (b.sign() == 0) {
        return a;
    }
    const auto negated = Rational::ratio(-b.numerator(), b.denominator());
    return negated ? add(a, *negated) : std::nullopt;
}

std::optional<Rational> multiply(const Rational& a, const Rational& b) {
    // Cancelled before, not after, so that only results that do not fit are refused.
    const Integer first = greatest_common_divisor(a.numerator(), b.denominator());
    const Integer second = greatest_common_divisor(b.numerator(), a.denominator());
    Integer numerator = 0;
    Integer denominator = 0;
    if (__builtin_mul_overflow(a.numerator() / first, b.numerator() / second, &numerator) ||
        __builtin_mul_overflow(a.denominator() / second, b.denominator() / first, &denominator)) {
        return std::nullopt;
    }
    return Rational::ratio(numerator, denominator);
}

std::optional<Rational> divide(const Rational& a, const Rational& b) {
    const auto inverse = Rational::ratio(b.denominator(), b.numerator());
    return inverse ? multiply(a, *inverse) : std::nullopt;
}

} // namespace curbstop::meaning
