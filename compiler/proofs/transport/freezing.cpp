#include "proofs/transport/freezing.h"

namespace curbstop::proofs {

using namespace meaning;

std::optional<double> freezing_point(const Fluid& fluid, double strength, Point point) {
    double below = 0;
    double at_below = 0;
    bool any = false;
    for (const Fluid::Strength& known : fluid.strengths) {
        const std::optional<Quantity>& told = point == Point::freezes ? known.freezes : known.bursts;
        if (!told) {
            continue;
        }
        any = true;
        const double here = known.concentration.value.to_double();
        const double at_here = told->value.to_double();
        if (strength <= here) {
            return at_below + (at_here - at_below) * (strength - below) / (here - below);
        }
        below = here;
        at_below = at_here;
    }
    return any ? std::optional(at_below) : std::nullopt;
}

} // namespace curbstop::proofs
