#include "proofs/transport/bounds.h"

#include <algorithm>
#include <cmath>

namespace curbstop::proofs {

Liquids::Liquids(const meaning::System& system) {
    for (std::uint32_t i = 0; i < system.fluids.size(); ++i) {
        if (system.fluids[i].gas) {
            number_.push_back(UINT32_MAX);
        } else {
            number_.push_back(static_cast<std::uint32_t>(fluids_.size()));
            const bool clear = system.fluids[i].shows.empty() || system.fluids[i].category <= harmless_category;
            unseen_ |= clear ? LiquidSet{1} << fluids_.size() : 0;
            fluids_.emplace_back(i);
            std::vector<Dose>& doses = doses_.emplace_back();
            for (const meaning::Fluid::Disinfection& known : system.fluids[i].disinfects) {
                doses.push_back({known.concentration.value.to_double(), known.time.value.to_double()});
            }
        }
    }
}

bool is_clean(const meaning::System& system, meaning::FluidId fluid) {
    return system[fluid].category <= harmless_category || !system[fluid].disinfects.empty();
}

namespace {

// The greatest parts grow, the least shrink.
void widen(Shares& most, Shares& least, const Shares& other_most, const Shares& other_least) {
    const std::size_t count = other_most.size();
    if (most.size() < count || least.size() < most.size()) {
        most.resize(std::max(most.size(), count), 0);
        least.resize(most.size(), 1);
    }
    double* const greatest = most.begin();
    double* const smallest = least.begin();
    const double* const others_most = other_most.begin();
    const double* const others_least = other_least.begin();
    for (std::size_t i = 0; i < count; ++i) {
        greatest[i] = std::max(greatest[i], others_most[i]);
        smallest[i] = std::min(smallest[i], i < other_least.size() ? others_least[i] : 0);
    }
}

/// Whether widen() would change nothing.
bool are_wider(const Shares& most, const Shares& least, const Shares& other_most, const Shares& other_least) {
    const std::size_t count = other_most.size();
    if (most.size() < count || least.size() < most.size()) {
        return false;
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (other_most[i] > most[i] || (i < other_least.size() ? other_least[i] : 0) < least[i]) {
            return false;
        }
    }
    return true;
}

void blend(Shares& own, const Shares& other, double kept) {
    for (std::size_t i = 0; i < own.size(); ++i) {
        own[i] = kept * own[i] + (1 - kept) * (i < other.size() ? other[i] : 0);
    }
}

} // namespace

LiquidSet liquids_above_traces(const Shares& shares) {
    LiquidSet liquids = 0;
    for (std::uint32_t i = 0; i < shares.size(); ++i) {
        liquids |= shares[i] > traces ? LiquidSet{1} << i : 0;
    }
    return liquids;
}

void Carried::join(const Bounds& bounds) {
    widen(most, least, bounds.most, bounds.least);
    gas.join(bounds.gas);
    full = full && bounds.full;
    hygiene.join(bounds.hygiene);
}

void Carried::join(const Carried& other) {
    widen(most, least, other.most, other.least);
    gas.join(other.gas);
    full = full && other.full;
    hygiene.join(other.hygiene);
}

Bounds joined(const Bounds& a, const Bounds& b) {
    Bounds result = a;
    result.gas.join(b.gas);
    result.full = a.full && b.full;
    result.squeezed_in = 0;
    for (std::uint32_t i = 0; i < a.most.size(); ++i) {
        const bool had = a.had(i) || b.had(i);
        result.squeezed_in |= had ? 0 : LiquidSet{1} << i;
    }
    widen(result.most, result.least, b.most, b.least);
    result.hygiene = joined(a.hygiene, b.hygiene);
    return result;
}

Bounds widened(const Bounds& earlier, const Bounds& later) {
    Bounds result = joined(earlier, later);
    if (later.gas.part < earlier.gas.part || later.gas.shared > earlier.gas.shared) {
        result.gas.part = 0;
    }
    if (later.gas.flooded != earlier.gas.flooded) {
        result.gas.flooded = ~LiquidSet{0};
    }
    for (std::size_t i = 0; i < result.most.size(); ++i) {
        if (later.most[i] > earlier.most[i]) {
            result.most[i] = 1;
        }
        if (later.least[i] < earlier.least[i]) {
            result.least[i] = 0;
        }
    }
    result.hygiene = widened(earlier.hygiene, later.hygiene);
    return result;
}

namespace {

/// The gas that a flow leaves.
Gas gas_after(Gas own, const Gas& before, bool liquid) {
    own.join(before);
    if (liquid) {
        own.part = 0;
    }
    if (own.part <= 0) { // flooded by nothing: what falls and what blows would else take turns for ever
        own.flooded = 0;
    }
    return own;
}

} // namespace

Bounds flowed_through(const Bounds& own, const Carried& before, bool liquid, bool keeps_gas) {
    Bounds result = own;
    widen(result.most, result.least, before.most, before.least);
    result.squeezed_in &= ~before.more_than_traces();
    take_in(result.hygiene, before.hygiene);
    result.hygiene.wetted = false;
    result.hygiene.brimful = own.hygiene.brimful && liquid;
    if (!keeps_gas) {
        result.gas = gas_after(own.gas, before.gas, liquid);
        result.full = liquid && own.full && before.full;
    }
    return result;
}

bool has_flowed_through(const Bounds& own, const Carried& before, bool liquid, bool keeps_gas) {
    if ((own.squeezed_in & before.more_than_traces()) != 0 || own.hygiene.wetted || (own.hygiene.brimful && !liquid) ||
        !has_taken_in(own.hygiene, before.hygiene) || !are_wider(own.most, own.least, before.most, before.least)) {
        return false;
    }
    return keeps_gas ||
           (own.gas == gas_after(own.gas, before.gas, liquid) && own.full == (liquid && own.full && before.full));
}

Bounds flooded_by(const Bounds& own, const Carried& before, bool keeps_gas) {
    Bounds result = flowed_through(own, before, true, true);
    if (!keeps_gas && own.gas.part > 0) {
        result.gas.flooded |= before.more_than_traces();
    }
    return result;
}

Bounds pressed_on(const Bounds& own, const Carried& ahead, double pressure, WhileFull takes, double shared) {
    Bounds result = own;
    if (own.full && takes != WhileFull::all) {
        for (std::size_t i = 0; takes == WhileFull::traces && i < ahead.most.size(); ++i) {
            const bool comes = ahead.most[i] > own.most[i];
            result.most[i] = std::max(own.most[i], std::min(ahead.most[i], traces));
            result.least[i] = comes ? own.least[i] : std::min(own.least[i], std::max(ahead.least[i], 1 - traces));
        }
        return result;
    }
    widen(result.most, result.least, ahead.most, ahead.least);
    for (std::uint32_t i = 0; i < ahead.most.size(); ++i) {
        result.squeezed_in |= own.more_than_traces(i) ? 0 : LiquidSet{1} << i;
    }
    if (!own.full) {
        result.gas.squeeze = std::max(own.gas.squeeze, pressure);
        result.gas.shared = std::max(own.gas.shared, std::min(shared, 1.0));
    }
    take_in(result.hygiene, ahead.hygiene);
    return result;
}

Bounds refilled(const Bounds& own, const Carried& ahead, double pressure) {
    Bounds result = own;
    blend(result.most, ahead.most, 1 - gas_after_emptying);
    blend(result.least, ahead.least, 1 - gas_after_emptying);
    result.gas = {.squeeze = pressure};
    result.full = false;
    // A mass of chlorine, as any part of a mixture; all of the bladder is wet.
    const Brought& came = ahead.hygiene;
    const bool both = own.hygiene.reading <= 0 || own.hygiene.agent == came.agent;
    const double reading = both ? (1 - gas_after_emptying) * own.hygiene.reading + gas_after_emptying * came.reading
                                : gas_after_emptying * came.reading;
    take_in(result.hygiene, came);
    result.hygiene.agent = came.agent;
    result.hygiene.reading = came.agent == no_liquid ? 0 : reading;
    result.hygiene.wetted = true;
    return result;
}

Bounds swept_by(const Bounds& own, const Carried& what) {
    Bounds result = own;
    result.gas = {};
    result.full = true;
    result.squeezed_in = 0;
    for (std::size_t i = 0; i < result.most.size(); ++i) {
        result.most[i] = std::max(i < what.most.size() ? what.most[i] : 0, std::min(own.most[i], left_by_sweeping));
        result.least[i] = i < what.least.size() ? what.least[i] * (1 - left_by_sweeping) : 0;
    }
    swept(result.hygiene, what.hygiene, left_by_sweeping);
    return result;
}

Bounds mixed_with(const Bounds& own, const Carried& what, double times) {
    Bounds result = own;
    blend(result.most, what.most, std::exp(-times));
    blend(result.least, what.least, std::exp(-times));
    thinned(result.hygiene, what.hygiene, std::exp(-times));
    return result;
}

Bounds drawn_on(const Bounds& own) {
    Bounds result = own;
    result.hygiene.wetted = own.full || own.hygiene.brimful || own.hygiene.wetted;
    result.hygiene.brimful = false;
    result.full = false;
    return result;
}

Bounds emptied(const Bounds& own, double gas) {
    Bounds result = own;
    result.gas = {.part = gas};
    result.full = false;
    emptied(result.hygiene, 1 - gas);
    return result;
}

} // namespace curbstop::proofs
