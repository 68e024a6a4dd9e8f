// A valve as its signs show it: the ports of a part, and which of its ways are open as it stands. What is no valve (a
// pump, a plug, a vent, something with many ports) has no such form. Must not know: SVG, words.
#pragma once

#include "meaning/possibility.h"
#include "meaning/system.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace curbstop::output {

/// A way through a part that may be open.
struct PictureWay {
    std::size_t from = 0;          ///< index of a port
    std::optional<std::size_t> to; ///< none: out, by a free fall
    bool one_way = false;
    bool surely = false;

    bool operator==(const PictureWay&) const = default;
};

struct ValveForm {
    std::vector<meaning::NodeId> ports; ///< in the order in which its ways name them, which is their number less one
    bool lets_out = false;              ///< some way of it leads out
};

/// None of what is no valve.
[[nodiscard]] std::optional<ValveForm> valve_form(const meaning::System& system, meaning::PartId part);

/// Which of its ways may be open where its variable has one of `values` and everything else stands as in `standing`.
[[nodiscard]] std::vector<PictureWay> valve_ways(const meaning::System& system, meaning::PartId part,
                                                 const ValveForm& form, meaning::ValueSet values,
                                                 std::vector<meaning::ValueSet> standing);

/// Whether the ports of a valve have to be told apart, which may stand in each of these ways. A tap on one pipe, or a
/// valve in a line that is open or shut as a whole, is plain without it.
[[nodiscard]] bool takes_sides(std::size_t ports, std::span<const std::vector<PictureWay>> stands);

} // namespace curbstop::output
