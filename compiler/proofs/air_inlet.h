// Where air comes in to what runs out by its own weight (reference/proofs.md, *blocked-flow*). Must not know: pressure,
// contents, what is told of it.
#pragma once

#include <vector>

#include "proofs/engine.h"

namespace curbstop::proofs {

/// Where air can come to the starts through an opening that the drain does not name and that does not stand lower than
/// all it names, or from a vented chamber.
[[nodiscard]] instants::Set air_from(Engine& engine, std::vector<Vertex> starts, const meaning::Flow& drain);

/// Where a chamber that the drain empties has an air inlet; exact within `where`.
[[nodiscard]] instants::Set air_inlet(Engine& engine, meaning::ChamberId chamber, const meaning::Flow& drain,
                                      instants::Set where);

} // namespace curbstop::proofs
