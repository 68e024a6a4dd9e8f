// Quantities as people read them, in the units of where they live.
// Must not know: sheets, languages other than English, the syntax tree.
#pragma once

#include "meaning/quantity.h"

#include <string>

namespace curbstop::meaning {

enum class UnitSystem : std::uint8_t { metric, us, imperial };

/// Of the units that people of a system use for this dimension, the one in which the number is handy: 250 mL, 4 L.
[[nodiscard]] Unit handy_unit(const Quantity& quantity, UnitSystem system);

/// `4 bar`, `58 psi`, `-13 °C`, `30 %`. A number that has at most six digits is written as it is, any other to three
/// significant digits (whole units are never rounded away). A unit of another dimension gives the base unit instead.
[[nodiscard]] std::string format_quantity(const Quantity& quantity, Unit unit);
/// The same in the handy unit.
[[nodiscard]] std::string format_quantity(const Quantity& quantity, UnitSystem system);

/// As the language writes it, exactly: `1.2 m`, `30 %`, `4`; in the given unit if that ends within max_digits digits,
/// else in the first unit of the dimension in which it does; nothing if there is none (a third of a litre).
[[nodiscard]] std::optional<std::string> write_quantity(const Quantity& quantity, Unit unit);

} // namespace curbstop::meaning
