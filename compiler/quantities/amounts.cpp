#include "quantities/amounts.h"

#include <algorithm>
#include <cmath>

#include "proofs/transport/freezing.h"

namespace curbstop::quantities {

using namespace meaning;

namespace {

/// Less than this, m3, is what rounding made.
constexpr double sliver = 1e-6;

} // namespace

double minutes(double volume, double rate) {
    return volume / rate / 60;
}

std::optional<std::uint32_t> trips(double volume, double capacity) {
    if (capacity <= 0 || volume / capacity > 1e6) {
        return std::nullopt;
    }
    return static_cast<std::uint32_t>(std::ceil(std::max(0.0, volume - sliver) / capacity));
}

double bleach(double volume, double concentration, double strength) {
    return concentration * volume / strength;
}

double diluted(double strength, double water) {
    return strength * (1 - water);
}

Quantity rounded_up(double volume) {
    // So many of a measure, and the measure as a part of a litre.
    const auto up = [&](double measure, std::int64_t parts) {
        const auto count = static_cast<std::int64_t>(std::ceil(std::max(0.0, volume - sliver) / measure));
        const auto number = Rational::ratio(count, parts);
        return number ? make_quantity(*number, Unit::L) : std::nullopt;
    };
    return (volume < 2e-3    ? up(0.1e-3, 10)
            : volume < 10e-3 ? up(0.5e-3, 2)
                             : up(1e-3, 1))
        .value_or(Quantity{Dimension::volume, Rational(0)});
}

std::optional<double> freezes_at(const Fluid& fluid, double strength) {
    double last = 0;
    for (const Fluid::Strength& known : fluid.strengths) {
        last = known.freezes ? std::max(last, known.concentration.value.to_double()) : last;
    }
    return strength > last + 1e-9 ? std::nullopt : proofs::freezing_point(fluid, strength);
}

} // namespace curbstop::quantities
