// What one pocket may hold, as bounds, and how they combine. The rules are those of compiler/reference/proofs.md.
// Must not know: pockets, ways, configurations.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <span>
#include <vector>

#include "meaning/system.h"
#include "proofs/contents.h"
#include "proofs/transport/hygiene.h"
#include "proofs/transport/shares.h"

namespace curbstop::proofs {

/// Traces: at most this part of what is in a pocket. Common practice, no source.
inline constexpr double traces = 0.01;
/// What a flow that has swept a pocket leaves of what was there. Common practice, no source.
inline constexpr double left_by_sweeping = 0.005;
/// Gas in a run that was blown out or drained. Common practice, no source.
inline constexpr double gas_after_emptying = 0.9;
/// Gas in the housing of a pump that has drawn air. Common practice, no source.
inline constexpr double gas_in_housing = 0.3;
/// Gas in a chamber that was emptied: its heel is the rest. Common practice, no source.
inline constexpr double gas_in_emptied_chamber = 0.95;
/// Gas that the freezing water in a pocket needs, per volume of that water: it expands by 9.06 % (densities of ice and
/// water at 0 degC, 0.9168 and 0.99984 g/cm3), and half as much again because gas is not spread evenly.
inline constexpr double gas_to_freeze = 1.5 * 0.0906;
/// The pressure of the air, Pa (NIST SP 811: the standard atmosphere).
inline constexpr double air_pressure = 101'325;
/// EN 1717: categories 1 and 2 are drinking water, and the same spoiled in taste or warmth; what lies above spoils it.
inline constexpr int harmless_category = 2;

/// A set of liquids by number (Liquids), dirt among them. A file declares at most `most_fluids`.
using LiquidSet = std::uint64_t;

/// Liquids of a system by number; the last number is dirt: what comes in while a pocket stands open.
class Liquids {
  public:
    explicit Liquids(const meaning::System& system);
    /// UINT32_MAX for a gas.
    std::uint32_t of(meaning::FluidId fluid) const { return number_[fluid.value]; }
    meaning::FluidId fluid(std::uint32_t number) const { return fluids_[number]; }
    std::uint32_t dirt() const { return static_cast<std::uint32_t>(fluids_.size()); }
    std::uint32_t count() const { return dirt() + 1; }
    /// How strong and how long, of a disinfectant; empty for the rest, and for no liquid.
    std::span<const Dose> doses(std::uint32_t liquid) const {
        return liquid < doses_.size() ? std::span<const Dose>(doses_[liquid]) : std::span<const Dose>();
    }
    bool disinfects(std::uint32_t liquid) const { return !doses(liquid).empty(); }
    /// What is not told from clear water by looking. Dirt is.
    LiquidSet unseen() const { return unseen_; }

  private:
    LiquidSet unseen_ = 0;
    std::vector<std::vector<Dose>> doses_;
    std::vector<std::uint32_t> number_;
    std::vector<meaning::FluidId> fluids_;
};

/// What comes from outside and is this fluid spoils nothing: drinking water, the same warmed, or a disinfectant.
bool is_clean(const meaning::System& system, meaning::FluidId fluid);

/// How much gas is left in a pocket at least, and what may have become of it since that was found.
struct Gas {
    double part = 0;    ///< least part of the volume, when `squeeze` is off
    double squeeze = 0; ///< highest pressure since, Pa above the air
    /// Gas gathers where it will once liquid presses on a leg: the greatest volume that it may have gathered in
    /// elsewhere since, as a part of this pocket's own.
    double shared = 0;
    /// Something may have fallen into it where its gas was: the liquids (by number) of which that may have held more
    /// than traces.
    LiquidSet flooded = 0;

    friend auto operator<=>(const Gas&, const Gas&) = default;
    /// Under the highest pressure it has seen (Boyle), wherever it has gathered.
    double left() const { return std::max(0.0, part * air_pressure / (air_pressure + squeeze) - shared); }
    /// The same; none where something may have fallen into it.
    double now() const { return flooded != 0 ? 0 : left(); }
    /// No more than is left in either. The one that leaves less now may leave more at rest, so the pressure it saw goes
    /// along.
    void join(const Gas& other) {
        part = std::min(part, other.part);
        squeeze = std::max(squeeze, other.squeeze);
        shared = std::max(shared, other.shared);
        flooded |= other.flooded;
    }
    /// Whether join() with the other would change nothing.
    bool allows(const Gas& other) const {
        return other.part >= part && other.squeeze <= squeeze && other.shared <= shared &&
               (other.flooded & ~flooded) == 0;
    }
};

/// Of so much of each: those (by number) that are more than traces.
LiquidSet liquids_above_traces(const Shares& shares);

struct Bounds {
    Gas gas;
    bool full = false;         ///< surely no gas
    Shares most;               ///< per liquid: the greatest part of the liquid that it may be
    Shares least;              ///< the least part that it is
    LiquidSet squeezed_in = 0; ///< liquids (by number) that have only been pressed in, and never flowed through
    Hygiene hygiene;

    friend auto operator<=>(const Bounds&, const Bounds&) = default;
    /// The greatest part of its volume that a liquid may be. Of one that has fallen in only as traces: what was there.
    double part_of_volume(std::uint32_t liquid) const {
        return most[liquid] * ((gas.flooded >> liquid & 1) != 0 ? 1 : 1 - gas.left());
    }
    bool more_than_traces(std::uint32_t liquid) const { return most[liquid] > traces; }
    /// Liquids (by number) of which it may be more than traces.
    LiquidSet more_than_traces() const { return liquids_above_traces(most); }
    /// More than traces of it may have come in otherwise than by being squeezed in.
    bool had(std::uint32_t liquid) const { return more_than_traces(liquid) && (squeezed_in >> liquid & 1) == 0; }
};

/// Full, or every wall has met what is in it.
inline bool stands_full(const Bounds& bounds) {
    return bounds.full || bounds.hygiene.brimful || bounds.hygiene.wetted;
}

/// What is carried along: the greatest part of each liquid, the least gas, whether all of it was full.
struct Carried {
    Shares most, least;
    Gas gas{.part = 1};
    bool full = true;
    Brought hygiene;

    friend bool operator==(const Carried&, const Carried&) = default;

    /// Liquids of which it may be more than traces.
    LiquidSet more_than_traces() const { return liquids_above_traces(most); }

    void join(const Bounds& bounds);
    void join(const Carried& other);
};

Bounds joined(const Bounds& a, const Bounds& b);
/// `earlier` or `later`, and what may become of it if what changed between them goes on changing so.
Bounds widened(const Bounds& earlier, const Bounds& later);
/// A pocket on the way of a flow. `liquid`: what is pushed is no gas. `keeps_gas`: a run that runs out by itself.
Bounds flowed_through(const Bounds& own, const Carried& before, bool liquid, bool keeps_gas);
/// Whether flowed_through() would leave it as it is, which is so most times that something goes on flowing.
bool has_flowed_through(const Bounds& own, const Carried& before, bool liquid, bool keeps_gas);
/// Something falls from above, and it lies beside the way: it may run in wherever there is gas. `keeps_gas`: it runs
/// out again by itself, or is charged with air.
Bounds flooded_by(const Bounds& own, const Carried& before, bool keeps_gas);
/// What a pocket takes in, while it is full, when it is pressed on: where it is no mouth, where it is the mouth of a
/// leg, and where something behind it gives way.
enum class WhileFull : std::uint8_t { nothing, traces, all };
/// Pressed on at no flow, by at most `pressure` (Pa). `shared`: how much else its gas may gather in, as a part of its
/// own volume.
Bounds pressed_on(const Bounds& own, const Carried& ahead, double pressure, WhileFull takes, double shared);
/// A bladder that had pushed out what it held and is pressed on again.
Bounds refilled(const Bounds& own, const Carried& ahead, double pressure);
/// Swept by what is carried.
Bounds swept_by(const Bounds& own, const Carried& what);
/// `times` its volume has passed a chamber that is well mixed: e^-times of its own is left.
Bounds mixed_with(const Bounds& own, const Carried& what, double times);
/// Some was let out of a chamber: its walls have met what is in it, and it is full no longer.
Bounds drawn_on(const Bounds& own);
/// Emptied to this much gas.
Bounds emptied(const Bounds& own, double gas);

} // namespace curbstop::proofs
