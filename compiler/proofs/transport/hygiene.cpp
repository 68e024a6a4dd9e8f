#include "proofs/transport/hygiene.h"

#include <algorithm>
#include <cmath>

namespace curbstop::proofs {

namespace {

// The weaker of two readings; of two disinfectants neither is known.
void weaken(std::uint32_t& agent, double& reading, std::uint32_t other_agent, double other) {
    if (std::isinf(other)) {
        return;
    }
    if (std::isinf(reading)) {
        agent = other_agent;
        reading = other;
    } else if (agent != other_agent) {
        reading = 0;
    } else {
        reading = std::min(reading, other);
    }
    if (reading <= 0) {
        agent = no_liquid;
        reading = 0;
    }
}

} // namespace

void Brought::join(const Hygiene& own) {
    weaken(agent, reading, own.agent, own.reading);
    clean = clean && own.clean;
}

void Brought::join(const Brought& other) {
    weaken(agent, reading, other.agent, other.reading);
    clean = clean && other.clean;
    fresh = fresh && other.fresh;
}

void Brought::no_reading() {
    agent = no_liquid;
    reading = 0;
}

Hygiene joined(const Hygiene& a, const Hygiene& b) {
    Hygiene result = a;
    weaken(result.agent, result.reading, b.agent, b.reading);
    for (std::size_t i = 0; i < result.stood.size(); ++i) {
        result.stood[i] = i < b.stood.size() && a.agent == b.agent ? std::min(a.stood[i], b.stood[i]) : 0;
    }
    result.brimful = a.brimful && b.brimful;
    result.wetted = a.wetted && b.wetted;
    result.sanitised = a.sanitised && b.sanitised;
    result.clean = a.clean && b.clean;
    result.stale = std::max(a.stale, b.stale);
    if (b.lost_in > a.lost_in) {
        result.loss = b.loss;
        result.lost_in = b.lost_in;
    }
    if (result.reading <= 0) {
        result.stood.clear();
    }
    return result;
}

Hygiene widened(const Hygiene& earlier, const Hygiene& later) {
    Hygiene result = joined(earlier, later);
    if (later.reading < earlier.reading) {
        result.agent = no_liquid;
        result.reading = 0;
        result.stood.clear();
    }
    return result;
}

bool covers(const Brought& carried, const Hygiene& own) {
    const bool weaker = carried.reading <= 0 || (carried.agent == own.agent && carried.reading <= own.reading);
    return weaker && (!carried.clean || own.clean);
}

bool has_taken_in(const Hygiene& own, const Brought& what) {
    const bool weaker =
        own.reading <= 0 || std::isinf(what.reading) || (what.agent == own.agent && own.reading <= what.reading);
    return weaker && (what.clean || (!own.clean && !own.sanitised));
}

void take_in(Hygiene& own, const Brought& what) {
    if (own.reading > 0) {
        weaken(own.agent, own.reading, what.agent, what.reading);
    }
    own.clean = own.clean && what.clean;
    own.sanitised = own.sanitised && what.clean;
}

void swept(Hygiene& own, const Brought& what, double left) {
    own.clean = what.clean;
    own.sanitised = own.sanitised && what.clean;
    own.stale = what.fresh ? std::min(own.stale, left) : own.stale;
}

void displaced(Hygiene& own, const Brought& by, double left) {
    own.agent = by.agent;
    own.reading = by.agent == no_liquid ? 0 : by.reading * (1 - left);
}

void thinned(Hygiene& own, const Brought& what, double left) {
    own.stale = what.fresh ? own.stale * left : own.stale;
}

void emptied(Hygiene& own, double left) {
    own.brimful = false;
    own.wetted = false;
    own.stale = std::min(own.stale, left);
}

void opened(Hygiene& own) {
    own.agent = no_liquid;
    own.reading = 0;
    own.clean = false;
    own.sanitised = false;
}

void read(Hygiene& own, std::uint32_t agent, double reading) {
    if (own.agent != agent) {
        own.agent = agent;
        own.reading = 0;
        own.stood.clear();
    }
    own.reading = std::max(own.reading, reading);
    own.loss = Loss::none;
    own.lost_in = 0;
}

bool stand(Hygiene& own, std::span<const Dose> doses, double time) {
    own.stood.resize(doses.size(), 0);
    for (std::size_t i = 0; i < doses.size(); ++i) {
        if (own.reading >= doses[i].concentration) {
            own.stood[i] += time;
            if (own.stood[i] >= doses[i].time) {
                own.sanitised = true;
                own.clean = true;
            }
        }
    }
    return own.sanitised;
}

void note_losses(Hygiene& own, const Hygiene& before, std::span<const Dose> doses, std::uint32_t step,
                 bool was_opened) {
    if (own.reading <= 0) {
        own.agent = no_liquid;
        own.stood.clear();
    }
    for (std::size_t i = 0; i < own.stood.size(); ++i) {
        if (i >= doses.size() || own.reading < doses[i].concentration) {
            own.stood[i] = 0;
        }
    }
    const bool lost = before.sanitised && !own.sanitised;
    if (lost || (!before.sanitised && own.reading < before.reading && own.loss == Loss::none)) {
        own.loss = was_opened ? Loss::opened : lost ? Loss::spoilt : Loss::weakened;
        own.lost_in = step;
    }
}

} // namespace curbstop::proofs
