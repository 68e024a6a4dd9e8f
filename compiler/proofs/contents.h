// Which chambers and vessels may, or surely do, hold liquid, and which fluids they may hold: as much of the contents as
// pressure and gravity depend on. Must not know: ways, sources.
#pragma once

#include <cstdint>
#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"

namespace curbstop::proofs {

/// Fluids as bits: a system knows a dozen.
using FluidSet = std::uint64_t;
inline constexpr FluidSet fluid_bit(meaning::FluidId fluid) {
    return FluidSet{1} << fluid.value;
}

class Contents {
  public:
    Contents(const meaning::System& system, instants::Knowledge& knowledge);

    instants::Set may_hold(meaning::ChamberId chamber) const { return of(chamber).may; }
    instants::Set surely_holds(meaning::ChamberId chamber) const { return of(chamber).surely; }
    /// None where it holds nothing in any possible configuration.
    FluidSet fluids(meaning::ChamberId chamber) const;
    /// The gravest category among what it may hold; 1 where that is nothing.
    int category(meaning::ChamberId chamber) const;

    /// Some `fluids` may have run in, in the configurations of `where`.
    void take_in(meaning::ChamberId chamber, FluidSet fluids, instants::Set where);
    /// It is full, surely.
    void fill(meaning::ChamberId chamber, FluidSet fluids, instants::Set where);
    /// It has run empty.
    void empty(meaning::ChamberId chamber, instants::Set where);
    /// It was seen to hold this fluid.
    void holds(meaning::ChamberId chamber, FluidSet fluids, instants::Set where);

    /// Grows with every change.
    std::uint64_t version() const { return version_; }

  private:
    struct Content {
        instants::Set may = instants::nothing;
        instants::Set surely = instants::nothing;
        FluidSet fluids = 0;
    };
    const Content& of(meaning::ChamberId chamber) const { return contents_[chamber.value]; }

    const meaning::System& system_;
    instants::Knowledge& knowledge_;
    std::vector<Content> contents_;
    std::uint64_t version_ = 1;
};

} // namespace curbstop::proofs
