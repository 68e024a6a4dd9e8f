// Pockets told in the owner's labels: where, how much, what may be in them since which step and why.
// Must not know: what any obligation demands.
#pragma once

#include <string>

#include "proofs/obligation.h"
#include "proofs/report.h"
#include "proofs/transport/claims.h"

namespace curbstop::proofs {

/// "Pump strainer, 50 mL, Rear bench".
std::string pocket_label(const meaning::System& system, const Pocket& pocket);
/// "0.83 L"; empty where the volume is not known.
std::string volume_text(std::optional<double> volume);
/// "step 12, `Drain the tank`"; "the start".
std::string step_text(const instants::Program& program, std::uint32_t number);
/// What may be in every pocket that is there, for the report.
std::vector<PocketReport> pocket_reports(Engine& engine);
/// What the pocket may hold in these configurations and since when: "may be full of Drinking water since the start".
/// `dirt`: whether that it stood open is told, too.
std::string what_it_holds(Event& event, const Shortfall& shortfall, bool dirt);

} // namespace curbstop::proofs
