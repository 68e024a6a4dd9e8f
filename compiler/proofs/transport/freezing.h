// When a fluid freezes, from the points that its declaration gives. Nothing is guessed beyond them.
// Must not know: pockets, how fluids get anywhere.
#pragma once

#include <optional>

#include "meaning/system.h"

namespace curbstop::proofs {

enum class Point : std::uint8_t {
    freezes, ///< first ice
    bursts,  ///< solid enough to split a pipe
};

/// The point of a fluid of this strength (a fraction by volume), degC: on the straight line between the two points of
/// its table that lie around it, water (0 degC at 0 %) being one. Nothing for a fluid without such a table; a strength
/// beyond the last point is taken as that point.
std::optional<double> freezing_point(const meaning::Fluid& fluid, double strength, Point point = Point::freezes);

} // namespace curbstop::proofs
