// Whether what the pockets may hold keeps a promise: frost-safe, drinkable. Says which pockets do not, and where.
// Must not know: events, how findings are worded.
#pragma once

#include <optional>
#include <vector>

#include "proofs/engine.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

/// A pocket that does not keep the promise, in these configurations (within possible(), and only where it is there).
struct Shortfall {
    PocketIndex pocket = no_pocket;
    instants::Set where = instants::nothing;
};

/// Least strength of each fluid among the vessels that are filled with it, as a fraction; nothing of what no vessel
/// brings, for then nobody knows.
std::vector<std::optional<double>> strengths_brought(const meaning::System& system);

/// Freezing point of what a pocket may hold, taken on the unsafe side; nothing where it may be water.
std::optional<double> protected_to(const meaning::System& system, const Liquids& liquids, const Bounds& bounds);

std::vector<Shortfall> not_frost_safe(Engine& engine, const meaning::Quantity& temperature);
std::vector<Shortfall> not_drinkable(Engine& engine);
/// But for what the claim leaves out.
std::vector<Shortfall> not_sanitised(Engine& engine, const meaning::Expression& claim);
/// Pockets of the drinking-water system that may hold stale water.
std::vector<Shortfall> never_flushed(Engine& engine);
/// This liquid does not belong into drinking water, and may be more than traces of the pocket's volume.
bool is_spoilt_by(const meaning::System& system, const Liquids& liquids, std::uint32_t liquid, const Bounds& bounds);

} // namespace curbstop::proofs
