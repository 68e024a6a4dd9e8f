// What is known of a pocket's disinfection: how strong a disinfectant surely stands in it and for how long, whether it
// has been disinfected, and whether water that comes from it spoils that of others. The rules are those of
// compiler/reference/proofs.md. Must not know: pockets, ways, configurations.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace curbstop::proofs {

/// No liquid, by number.
inline constexpr std::uint32_t no_liquid = std::numeric_limits<std::uint32_t>::max();
/// Stale water: at most this part of what stood in a pocket at the start; as much as draining leaves in a pipe. Common
/// practice, no source.
inline constexpr double stale_left = 0.1;

/// One line of a disinfectant: at this strength it must stand so long.
struct Dose {
    double concentration = 0; ///< a fraction
    double time = 0;          ///< s
};

/// What took a reading or a disinfection away.
enum class Loss : std::uint8_t {
    none,
    weakened, ///< weaker liquid came in
    opened,   ///< it stood open
    spoilt,   ///< something came in from what is not disinfected
};

/// Of one pocket.
struct Hygiene {
    std::uint32_t agent = no_liquid; ///< the disinfectant of which there is a reading
    double reading = 0;              ///< its least concentration, a fraction
    std::vector<double> stood;       ///< per line of the agent: how long at its strength or above, s
    bool brimful = false;            ///< of what stands open: seen to be full, and not drawn on since
    bool wetted = false;             ///< not surely full, yet every wall has met what is in it
    bool sanitised = false;
    bool clean = false; ///< rinsed or disinfected: what comes from it spoils nothing
    double stale = 1;   ///< greatest part of its volume that may have been in it since the start
    Loss loss = Loss::none;
    std::uint32_t lost_in = 0; ///< number of the step

    friend auto operator<=>(const Hygiene&, const Hygiene&) = default;
};

/// What is carried along, as far as hygiene goes.
struct Brought {
    std::uint32_t agent = no_liquid;
    double reading = std::numeric_limits<double>::infinity(); ///< infinite: nothing has been carried yet
    bool clean = true;
    bool fresh = true; ///< an origin's, of category 1: as a sweep it takes stale water's place

    friend bool operator==(const Brought&, const Brought&) = default;

    void join(const Hygiene& own);
    void join(const Brought& other);
    /// Something without a disinfectant.
    void no_reading();
};

Hygiene joined(const Hygiene& a, const Hygiene& b);
Hygiene widened(const Hygiene& earlier, const Hygiene& later);
/// Whether all that a pocket could spoil by is in what is carried already.
bool covers(const Brought& carried, const Hygiene& own);

/// Whether take_in() would change nothing.
bool has_taken_in(const Hygiene& own, const Brought& what);
/// Something comes in.
void take_in(Hygiene& own, const Brought& what);
/// Pressed out by what stood farther, which is read elsewhere: it holds that, but for the part that is left.
void displaced(Hygiene& own, const Brought& by, double left);
/// Another liquid has taken the place of what was there.
void swept(Hygiene& own, const Brought& what, double left);
/// Well mixed with something that leaves this part of its own.
void thinned(Hygiene& own, const Brought& what, double left);
/// Emptied: no more than this part is left.
void emptied(Hygiene& own, double left);
/// It stood open.
void opened(Hygiene& own);
/// Read: it holds at least so much of the agent.
void read(Hygiene& own, std::uint32_t agent, double reading);
/// So long it stood. True where that is enough.
bool stand(Hygiene& own, std::span<const Dose> doses, double time);
/// Times that no longer count begin anew; what was lost since `before` is noted with its step.
void note_losses(Hygiene& own, const Hygiene& before, std::span<const Dose> doses, std::uint32_t step, bool was_opened);

} // namespace curbstop::proofs
