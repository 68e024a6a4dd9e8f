// Quantities: a dimension and an exact value. Units are ways of writing and reading them.
// Must not know: the syntax tree, parts, fluids.
#pragma once

#include "meaning/rational.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

namespace curbstop::meaning {

/// What a quantity measures, and the unit in which `Quantity::value` counts it.
enum class Dimension : std::uint8_t {
    length,        ///< m
    volume,        ///< m3
    pressure,      ///< Pa, above the pressure of the air (gauge)
    temperature,   ///< degC; a temperature, not a difference of two
    time,          ///< s
    flow,          ///< m3/s
    concentration, ///< a fraction: 30 % is 3/10
    mass,          ///< kg
    power,         ///< W
    count,         ///< 1
};

/// The word of the language for a dimension, as in `given reach : length`.
[[nodiscard]] std::string_view dimension_name(Dimension dimension);
[[nodiscard]] std::optional<Dimension> dimension_from_name(std::string_view name);

struct Quantity {
    Dimension dimension = Dimension::count;
    Rational value; ///< in the unit beside the dimension above

    /// Orders by dimension, then value: compare only quantities of one dimension.
    friend std::strong_ordering operator<=>(const Quantity&, const Quantity&) = default;
    friend bool operator==(const Quantity&, const Quantity&) = default;
};

// One line for each dimension.
// clang-format off
enum class Unit : std::uint8_t {
    mm, cm, m, inch, ft,
    mL, cL, dL, L, m3, gal, gal_imp, floz, floz_imp,
    Pa, kPa, MPa, bar, mbar, psi, mH2O, ftH2O,
    degC, degF, K,
    s, min, h, d,
    L_per_min, L_per_h, L_per_s, m3_per_h, gal_per_min,
    percent, ppm, mg_per_L,
    mg, g, kg, oz, lb,
    W, kW,
    one,
};
// clang-format on

/// How units relate: value in the base unit = (written + before) * factor.
struct UnitInfo {
    Unit unit;
    std::string_view name; ///< as the language writes it; empty for a count
    Dimension dimension;
    Rational factor;
    Rational before;         ///< not zero for K and degF only
    std::string_view symbol; ///< as people read it: "°C", "m³"
    std::string_view ucum;   ///< code of the Unified Code for Units of Measure
};

[[nodiscard]] const UnitInfo& unit_info(Unit unit);
/// All units, in the order of the enumeration.
[[nodiscard]] std::span<const UnitInfo> all_units();
/// `%`, `psi`, `L/min` …; the empty name is the unit of a count.
[[nodiscard]] std::optional<Unit> unit_from_name(std::string_view name);
/// The base unit in which a dimension's values are counted, where the language has a name for it. Flow is counted in
/// m3/s and concentration as a fraction, which have none; they give `m3/h` and `%`.
[[nodiscard]] Unit unit_of(Dimension dimension);

enum class NumberError : std::uint8_t {
    malformed, ///< not `[-]digits[.digits]`
    too_long,  ///< more than max_digits digits
};

/// Digits of a number, those after the point included. 10^18 fits 64 bits, and times any factor of ours 128.
inline constexpr std::size_t max_digits = 18;

[[nodiscard]] std::variant<Rational, NumberError> parse_number(std::string_view text);

/// A number in a unit. Nothing if the exact value does not fit, which no number of max_digits digits brings about.
[[nodiscard]] std::optional<Quantity> make_quantity(const Rational& written, Unit unit);
/// The exact number of a quantity in a unit of its dimension; nothing for another dimension or on overflow.
[[nodiscard]] std::optional<Rational> value_in(const Quantity& quantity, Unit unit);
/// The same as a double; not a number for a unit of another dimension.
[[nodiscard]] double to_double(const Quantity& quantity, Unit unit);

} // namespace curbstop::meaning
