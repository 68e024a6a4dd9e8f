#include "meaning/quantity.h"

#include <algorithm>
#include <array>
#include <limits>

namespace curbstop::meaning {
namespace {

constexpr Rational ratio(Integer numerator, Integer denominator = 1) {
    return Rational::ratio(numerator, denominator).value();
}

// All factors are exact by definition. Lengths, masses, pressures: NIST Special Publication 811 (2008), appendix B.8,
// and its notes on which are exact; US volumes: NIST Handbook 44, appendix C (1 gal = 231 cubic inches); imperial
// volumes: Weights and Measures Act 1985 (1 gal = 4.54609 L, 160 fl oz).
constexpr Rational inch = ratio(254, 10'000);              // m
constexpr Rational foot = ratio(3'048, 10'000);            // m
constexpr Rational litre = ratio(1, 1'000);                // m3
constexpr Integer gallon_pl = 3'785'411'784;               // US gallon, in 10^-12 m3
constexpr Integer imperial_gallon_10uL = 454'609;          // imperial gallon, in 10^-8 m3
constexpr Rational pound = ratio(45'359'237, 100'000'000); // kg
// Pound-force (the pound times standard gravity 9.806 65 m/s2) on a square inch:
// 0.453 592 37 * 9.806 65 N / (0.0254 m)^2.
constexpr Rational psi = ratio(static_cast<Integer>(45'359'237) * 980'665, static_cast<Integer>(254) * 254 * 100'000);
// "Conventional" water of SP 811: 1000 kg/m3 at standard gravity.
constexpr Rational metre_of_water = ratio(980'665, 100); // Pa
constexpr Rational foot_of_water = ratio(static_cast<Integer>(980'665) * 3'048, 1'000'000);

using enum Dimension;

constexpr std::array units{
    UnitInfo{Unit::mm, "mm", length, ratio(1, 1'000), 0, "mm", "mm"},
    UnitInfo{Unit::cm, "cm", length, ratio(1, 100), 0, "cm", "cm"},
    UnitInfo{Unit::m, "m", length, 1, 0, "m", "m"},
    UnitInfo{Unit::inch, "inch", length, inch, 0, "in", "[in_i]"},
    UnitInfo{Unit::ft, "ft", length, foot, 0, "ft", "[ft_i]"},

    UnitInfo{Unit::mL, "mL", volume, ratio(1, 1'000'000), 0, "mL", "mL"},
    UnitInfo{Unit::cL, "cL", volume, ratio(1, 100'000), 0, "cL", "cL"},
    UnitInfo{Unit::dL, "dL", volume, ratio(1, 10'000), 0, "dL", "dL"},
    UnitInfo{Unit::L, "L", volume, litre, 0, "L", "L"},
    UnitInfo{Unit::m3, "m3", volume, 1, 0, "m³", "m3"},
    UnitInfo{Unit::gal, "gal", volume, ratio(gallon_pl, 1'000'000'000'000), 0, "US gal", "[gal_us]"},
    UnitInfo{Unit::gal_imp, "gal_imp", volume, ratio(imperial_gallon_10uL, 100'000'000), 0, "imp gal", "[gal_br]"},
    UnitInfo{Unit::floz, "floz", volume, ratio(gallon_pl, 128'000'000'000'000), 0, "US fl oz", "[foz_us]"},
    UnitInfo{Unit::floz_imp, "floz_imp", volume, ratio(imperial_gallon_10uL, 16'000'000'000), 0, "imp fl oz",
             "[foz_br]"},

    UnitInfo{Unit::Pa, "Pa", pressure, 1, 0, "Pa", "Pa"},
    UnitInfo{Unit::kPa, "kPa", pressure, 1'000, 0, "kPa", "kPa"},
    UnitInfo{Unit::MPa, "MPa", pressure, 1'000'000, 0, "MPa", "MPa"},
    UnitInfo{Unit::bar, "bar", pressure, 100'000, 0, "bar", "bar"},
    UnitInfo{Unit::mbar, "mbar", pressure, 100, 0, "mbar", "mbar"},
    UnitInfo{Unit::psi, "psi", pressure, psi, 0, "psi", "[psi]"},
    UnitInfo{Unit::mH2O, "mH2O", pressure, metre_of_water, 0, "m H₂O", "m[H2O]"},
    // UCUM has no foot of water, but the inch of it.
    UnitInfo{Unit::ftH2O, "ftH2O", pressure, foot_of_water, 0, "ft H₂O", "12.[in_i'H2O]"},

    UnitInfo{Unit::degC, "degC", temperature, 1, 0, "°C", "Cel"},
    UnitInfo{Unit::degF, "degF", temperature, ratio(5, 9), -32, "°F", "[degF]"},
    UnitInfo{Unit::K, "K", temperature, 1, ratio(-27'315, 100), "K", "K"},

    UnitInfo{Unit::s, "s", time, 1, 0, "s", "s"},
    UnitInfo{Unit::min, "min", time, 60, 0, "min", "min"},
    UnitInfo{Unit::h, "h", time, 3'600, 0, "h", "h"},
    UnitInfo{Unit::d, "d", time, 86'400, 0, "d", "d"},

    UnitInfo{Unit::L_per_min, "L/min", flow, ratio(1, 60'000), 0, "L/min", "L/min"},
    UnitInfo{Unit::L_per_h, "L/h", flow, ratio(1, 3'600'000), 0, "L/h", "L/h"},
    UnitInfo{Unit::L_per_s, "L/s", flow, litre, 0, "L/s", "L/s"},
    UnitInfo{Unit::m3_per_h, "m3/h", flow, ratio(1, 3'600), 0, "m³/h", "m3/h"},
    UnitInfo{Unit::gal_per_min, "gal/min", flow, ratio(gallon_pl, 60'000'000'000'000), 0, "US gal/min", "[gal_us]/min"},

    UnitInfo{Unit::percent, "%", concentration, ratio(1, 100), 0, "%", "%"},
    UnitInfo{Unit::ppm, "ppm", concentration, ratio(1, 1'000'000), 0, "ppm", "[ppm]"},
    // A litre of water is taken as 1 kg: common practice in disinfection, good to 1 % below 40 degC.
    UnitInfo{Unit::mg_per_L, "mg/L", concentration, ratio(1, 1'000'000), 0, "mg/L", "mg/L"},

    UnitInfo{Unit::mg, "mg", mass, ratio(1, 1'000'000), 0, "mg", "mg"},
    UnitInfo{Unit::g, "g", mass, ratio(1, 1'000), 0, "g", "g"},
    UnitInfo{Unit::kg, "kg", mass, 1, 0, "kg", "kg"},
    UnitInfo{Unit::oz, "oz", mass, ratio(45'359'237, 1'600'000'000), 0, "oz", "[oz_av]"},
    UnitInfo{Unit::lb, "lb", mass, pound, 0, "lb", "[lb_av]"},

    UnitInfo{Unit::W, "W", power, 1, 0, "W", "W"},
    UnitInfo{Unit::kW, "kW", power, 1'000, 0, "kW", "kW"},

    UnitInfo{Unit::one, "", count, 1, 0, "", "1"},
};

constexpr bool in_order() {
    for (std::size_t i = 0; i < units.size(); ++i) {
        if (static_cast<std::size_t>(units[i].unit) != i) {
            return false;
        }
    }
    return true;
}
static_assert(in_order() && units.back().unit == Unit::one, "unit_info indexes the table by the unit");

constexpr std::array dimensions{length, volume, pressure, temperature, time, flow, concentration, mass, power, count};

} // namespace

std::string_view dimension_name(Dimension dimension) {
    switch (dimension) {
    case length:
        return "length";
    case volume:
        return "volume";
    case pressure:
        return "pressure";
    case temperature:
        return "temperature";
    case time:
        return "time";
    case flow:
        return "flow";
    case concentration:
        return "concentration";
    case mass:
        return "mass";
    case power:
        return "power";
    case count:
        return "count";
    }
    return {}; // not reached: the switch names every dimension
}

std::optional<Dimension> dimension_from_name(std::string_view name) {
    const auto found = std::find_if(dimensions.begin(), dimensions.end(),
                                    [name](Dimension dimension) { return dimension_name(dimension) == name; });
    return found == dimensions.end() ? std::nullopt : std::optional(*found);
}

const UnitInfo& unit_info(Unit unit) {
    return units[static_cast<std::size_t>(unit)];
}

std::span<const UnitInfo> all_units() {
    return units;
}

std::optional<Unit> unit_from_name(std::string_view name) {
    const auto found = std::find_if(units.begin(), units.end(), [name](const UnitInfo& u) { return u.name == name; });
    return found == units.end() ? std::nullopt : std::optional(found->unit);
}

Unit unit_of(Dimension dimension) {
    switch (dimension) {
    case length:
        return Unit::m;
    case volume:
        return Unit::m3;
    case pressure:
        return Unit::Pa;
    case temperature:
        return Unit::degC;
    case time:
        return Unit::s;
    case flow:
        return Unit::m3_per_h;
    case concentration:
        return Unit::percent;
    case mass:
        return Unit::kg;
    case power:
        return Unit::W;
    case count:
        return Unit::one;
    }
    return Unit::one; // not reached: the switch names every dimension
}

std::variant<Rational, NumberError> parse_number(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative) {
        text.remove_prefix(1);
    }
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const std::size_t point = text.find('.');
    const std::string_view whole = text.substr(0, point);
    const std::string_view part = point == std::string_view::npos ? std::string_view() : text.substr(point + 1);
    if (whole.empty() || (point != std::string_view::npos && part.empty()) ||
        !std::all_of(whole.begin(), whole.end(), is_digit) || !std::all_of(part.begin(), part.end(), is_digit)) {
        return NumberError::malformed;
    }
    if (whole.size() + part.size() > max_digits) {
        return NumberError::too_long;
    }
    Integer value = 0;
    Integer scale = 1;
    for (const char digit : whole) {
        value = value * 10 + (digit - '0');
    }
    for (const char digit : part) {
        value = value * 10 + (digit - '0');
        scale *= 10;
    }
    return ratio(negative ? -value : value, scale);
}

std::optional<Quantity> make_quantity(const Rational& written, Unit unit) {
    const UnitInfo& info = unit_info(unit);
    const auto shifted = add(written, info.before);
    const auto value = shifted ? multiply(*shifted, info.factor) : std::nullopt;
    return value ? std::optional(Quantity{info.dimension, *value}) : std::nullopt;
}

std::optional<Rational> value_in(const Quantity& quantity, Unit unit) {
    const UnitInfo& info = unit_info(unit);
    if (info.dimension != quantity.dimension) {
        return std::nullopt;
    }
    const auto scaled = divide(quantity.value, info.factor);
    return scaled ? subtract(*scaled, info.before) : std::nullopt;
}

double to_double(const Quantity& quantity, Unit unit) {
    const UnitInfo& info = unit_info(unit);
    if (info.dimension != quantity.dimension) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (const auto exact = value_in(quantity, unit)) {
        return exact->to_double();
    }
    return quantity.value.to_double() / info.factor.to_double() - info.before.to_double();
}

} // namespace curbstop::meaning
