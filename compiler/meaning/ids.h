// Small typed indices into the vectors of a model. Must not know what they index.
#pragma once

#include <cstdint>
#include <functional>

namespace curbstop::meaning {

/// An index of its own type, so that a zone is never taken for a node. `none` where there is nothing to point at.
template <typename Tag>
struct Id {
    std::uint32_t value = UINT32_MAX;
    constexpr Id() = default;
    constexpr explicit Id(std::size_t index)
        : value(static_cast<std::uint32_t>(index)) {}
    constexpr bool valid() const { return value != UINT32_MAX; }
    constexpr explicit operator bool() const { return valid(); }
    friend constexpr bool operator==(Id, Id) = default;
    friend constexpr auto operator<=>(Id, Id) = default;
};

using OptionId = Id<struct OptionTag>;
using ZoneId = Id<struct ZoneTag>;
using VariableId = Id<struct VariableTag>;
using PartId = Id<struct PartTag>;
using NodeId = Id<struct NodeTag>;
using WayId = Id<struct WayTag>;
using OutletId = Id<struct OutletTag>;
using SourceId = Id<struct SourceTag>;
using ChamberId = Id<struct ChamberTag>; ///< chambers and vessels: what holds fluid by volume
using FluidId = Id<struct FluidTag>;
using GroupId = Id<struct GroupTag>;
using LineupId = Id<struct LineupTag>;
using ExpressionId = Id<struct ExpressionTag>;
using ProcedureId = Id<struct ProcedureTag>;
using FlowId = Id<struct FlowTag>;
using PhotoId = Id<struct PhotoTag>;
using BranchId = Id<struct BranchTag>;

} // namespace curbstop::meaning

template <typename Tag>
struct std::hash<curbstop::meaning::Id<Tag>> {
    std::size_t operator()(curbstop::meaning::Id<Tag> id) const noexcept { return id.value; }
};
