// The sums that a plumber does on the back of the sheet: how long, how often, how much bleach, how strong afterwards.
// Pure functions of numbers. Must not know: systems, procedures.
#pragma once

#include <cstdint>
#include <optional>

#include "meaning/quantity.h"
#include "meaning/system.h"

namespace curbstop::quantities {

/// Time to move a volume (m3) at a rate (m3/s), in minutes: t = V / Q. The rate is greater than nothing.
[[nodiscard]] double minutes(double volume, double rate);

/// How often a vessel that holds `capacity` has to be filled for `volume` (both m3): the next whole number up. Nothing
/// for a vessel that holds nothing.
[[nodiscard]] std::optional<std::uint32_t> trips(double volume, double capacity);

/// Bleach for a volume of water, in the unit of `volume`: C1 V1 = C2 V2, the volume that the bleach adds left out.
/// `concentration` and `strength` are fractions by mass: 50 mg/L is 0.00005, 5 % is 0.05.
/// Source: Maine CDC, Disinfection Equations: volume of hypochlorite = (ppm / (1,000,000 x strength)) x volume of
/// water.
[[nodiscard]] double bleach(double volume, double concentration, double strength);

/// What becomes of a strength (fraction by volume) where a part of the pocket was left full of water.
[[nodiscard]] double diluted(double strength, double water);

/// A volume (m3) rounded up to what one can buy and measure, never down: to 0.1 L below 2 L, to 0.5 L below 10 L, to
/// whole litres beyond. Less than a millilitre beyond such a measure is the measure itself. Whoever tells it in other
/// units tells this same amount.
[[nodiscard]] meaning::Quantity rounded_up(double volume);

/// Freezing point of a fluid of this strength, degC, on the straight line between the points of its table (water, 0
/// degC, being one); nothing where the table does not go so far.
[[nodiscard]] std::optional<double> freezes_at(const meaning::Fluid& fluid, double strength);

} // namespace curbstop::quantities
