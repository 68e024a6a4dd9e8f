#include "meaning/quantity_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>

namespace curbstop::meaning {
namespace {

/// A decimal that ends: digits and how many of them follow the point.
struct Decimal {
    Integer digits;
    std::size_t after_point;
};

/// The decimal form, if it ends within max_digits digits.
std::optional<Decimal> decimal(const Rational& value) {
    Integer scale = 1;
    for (std::size_t after = 0; after <= max_digits; ++after, scale *= 10) {
        if (scale % value.denominator() != 0) {
            continue;
        }
        Integer digits = 0;
        constexpr Integer limit = 1'000'000'000'000'000'000; // 10^max_digits
        if (__builtin_mul_overflow(value.numerator(), scale / value.denominator(), &digits) || digits >= limit ||
            digits <= -limit) {
            return std::nullopt;
        }
        return Decimal{digits, after};
    }
    return std::nullopt;
}

std::string decimal_text(const Decimal& number) {
    const bool negative = number.digits < 0;
    std::string text = fmt::format("{}", static_cast<std::uint64_t>(negative ? -number.digits : number.digits));
    if (number.after_point > 0) {
        if (text.size() <= number.after_point) {
            text.insert(0, number.after_point + 1 - text.size(), '0');
        }
        text.insert(text.size() - number.after_point, ".");
    }
    return negative ? "-" + text : text;
}

std::string rounded_text(double value) {
    constexpr int significant = 3;
    const double size = std::fabs(value);
    const int before_point = size > 0 ? static_cast<int>(std::floor(std::log10(size))) + 1 : 1;
    std::string text = fmt::format("{:.{}f}", value, std::max(0, significant - before_point));
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.ends_with('.')) {
            text.pop_back();
        }
    }
    return text == "-0" ? "0" : text;
}

std::string with_unit(std::string number, std::string_view unit) {
    return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

/// The first of these units in which the quantity is at least 1 in size, else the last; nothing is told in the first.
Unit first_above_one(const Quantity& quantity, std::initializer_list<Unit> units) {
    if (quantity.value.sign() == 0) {
        return *units.begin();
    }
    for (const Unit unit : units) {
        if (std::fabs(to_double(quantity, unit)) >= 1) {
            return unit;
        }
    }
    return *(units.end() - 1);
}

/// The greatest unit in which a time is a whole number, else the greatest in which it is 1 or more.
Unit handy_time(const Quantity& quantity) {
    for (const Unit unit : {Unit::d, Unit::h, Unit::min, Unit::s}) {
        const auto value = value_in(quantity, unit);
        if (value && value->is_whole() && value->sign() != 0) {
            return unit;
        }
    }
    return first_above_one(quantity, {Unit::d, Unit::h, Unit::min, Unit::s});
}

} // namespace

Unit handy_unit(const Quantity& quantity, UnitSystem system) {
    const bool metric = system == UnitSystem::metric;
    switch (quantity.dimension) {
    case Dimension::length:
        return metric ? first_above_one(quantity, {Unit::m, Unit::mm})
                      : first_above_one(quantity, {Unit::ft, Unit::inch});
    case Dimension::volume:
        switch (system) {
        case UnitSystem::metric:
            return first_above_one(quantity, {Unit::L, Unit::mL});
        case UnitSystem::us:
            return first_above_one(quantity, {Unit::gal, Unit::floz});
        case UnitSystem::imperial:
            return first_above_one(quantity, {Unit::gal_imp, Unit::floz_imp});
        }
        return Unit::L; // not reached: the switch names every system
    case Dimension::pressure:
        return !metric                                                                          ? Unit::psi
               : quantity.value.sign() == 0 || std::fabs(to_double(quantity, Unit::bar)) >= 0.1 ? Unit::bar
                                                                                                : Unit::mbar;
    case Dimension::temperature:
        return system == UnitSystem::us ? Unit::degF : Unit::degC;
    case Dimension::time:
        return handy_time(quantity);
    case Dimension::flow:
        return system == UnitSystem::us ? Unit::gal_per_min : Unit::L_per_min;
    case Dimension::concentration:
        return std::fabs(to_double(quantity, Unit::percent)) >= 0.1 ? Unit::percent : Unit::mg_per_L;
    case Dimension::mass:
        return metric ? first_above_one(quantity, {Unit::kg, Unit::g, Unit::mg})
                      : first_above_one(quantity, {Unit::lb, Unit::oz});
    case Dimension::power:
        return first_above_one(quantity, {Unit::kW, Unit::W});
    case Dimension::count:
        return Unit::one;
    }
    return Unit::one; // not reached: the switch names every dimension
}

std::string format_quantity(const Quantity& quantity, Unit unit) {
    if (unit_info(unit).dimension != quantity.dimension) {
        unit = unit_of(quantity.dimension);
    }
    constexpr Integer six_digits = 1'000'000;
    const auto exact = value_in(quantity, unit);
    const auto digits = exact ? decimal(*exact) : std::nullopt;
    const bool as_it_is =
        digits && (digits->after_point == 0 || (digits->digits < six_digits && digits->digits > -six_digits));
    return with_unit(as_it_is ? decimal_text(*digits) : rounded_text(to_double(quantity, unit)),
                     unit_info(unit).symbol);
}

std::string format_quantity(const Quantity& quantity, UnitSystem system) {
    return format_quantity(quantity, handy_unit(quantity, system));
}

std::optional<std::string> write_quantity(const Quantity& quantity, Unit unit) {
    const auto written = [&quantity](const UnitInfo& info) -> std::optional<std::string> {
        const auto value = value_in(quantity, info.unit);
        const auto digits = value ? decimal(*value) : std::nullopt;
        // Leading zeros after the point count as digits for the reader of the language.
        if (!digits || digits->after_point >= max_digits) {
            return std::nullopt;
        }
        return with_unit(decimal_text(*digits), info.name);
    };
    if (auto text = written(unit_info(unit))) {
        return text;
    }
    for (const UnitInfo& info : all_units()) {
        if (auto text = written(info)) {
            return text;
        }
    }
    return std::nullopt;
}

} // namespace curbstop::meaning
