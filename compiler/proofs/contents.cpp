#include "proofs/contents.h"

#include <algorithm>

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

Contents::Contents(const System& system, instants::Knowledge& knowledge)
    : system_(system)
    , knowledge_(knowledge) {
    for (const Chamber& chamber : system.chambers) {
        Content content;
        if (chamber.fluid.valid()) {
            content.fluids = fluid_bit(chamber.fluid);
            content.may = system[chamber.fluid].gas ? instants::nothing : instants::everything;
            content.surely = chamber.vessel ? content.may : instants::nothing;
        }
        contents_.push_back(content);
    }
}

FluidSet Contents::fluids(ChamberId chamber) const {
    // What it once may have held counts no longer where it was seen since that this cannot have been.
    return knowledge_.diagrams().disjoint(of(chamber).may, knowledge_.possible()) ? 0 : of(chamber).fluids;
}

int Contents::category(ChamberId chamber) const {
    const FluidSet held = fluids(chamber);
    int gravest = 1;
    for (std::size_t i = 0; i < system_.fluids.size(); ++i) {
        if ((held & fluid_bit(FluidId(i))) != 0) {
            gravest = std::max(gravest, system_.fluids[i].category);
        }
    }
    return gravest;
}

void Contents::take_in(ChamberId chamber, FluidSet fluids, Set where) {
    if (knowledge_.diagrams().disjoint(where, knowledge_.possible())) {
        return;
    }
    Content& content = contents_[chamber.value];
    const Content before = content;
    content.fluids = this->fluids(chamber);
    content.may = knowledge_.diagrams().either(content.may, where);
    content.fluids |= fluids;
    version_ += content.may != before.may || content.fluids != before.fluids;
}

void Contents::fill(ChamberId chamber, FluidSet fluids, Set where) {
    take_in(chamber, fluids, where);
    Content& content = contents_[chamber.value];
    content.surely = knowledge_.diagrams().either(content.surely, where);
    ++version_;
}

void Contents::empty(ChamberId chamber, Set where) {
    Content& content = contents_[chamber.value];
    content.may = knowledge_.diagrams().without(content.may, where);
    content.surely = knowledge_.diagrams().without(content.surely, where);
    if (knowledge_.diagrams().disjoint(content.may, knowledge_.possible())) {
        content.fluids = 0;
    }
    ++version_;
}

void Contents::holds(ChamberId chamber, FluidSet fluids, Set where) {
    Content& content = contents_[chamber.value];
    if (fluids != 0 && knowledge_.diagrams().within(knowledge_.possible(), where)) {
        content.fluids = fluids; // seen: nothing else is in it
    } else {
        content.fluids |= fluids;
    }
    content.may = knowledge_.diagrams().either(content.may, where);
    content.surely = knowledge_.diagrams().either(content.surely, where);
    ++version_;
}

} // namespace curbstop::proofs
