// The names of a system and what each stands for. Dotted names reach into parts: `heater.element`, `pump.suction`.
// Must not know: syntax below the level of a reference, procedures.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "meaning/ids.h"
#include "meaning/system.h"

namespace curbstop::meaning {

enum class Sort : std::uint8_t {
    part,
    cover,
    end,
    dial,
    port,
    tee,
    chamber,
    vessel,
    place,
    zone,
    option,
    group,
    way,   ///< a position, bound by `each way`
    fluid, ///< bound as an argument of a fragment
    text,  ///< a string, bound as an argument of a fragment
};

/// How the messages call a sort: "a part", "an end".
std::string_view sort_name(Sort sort);

/// What a name stands for. Which ids are set follows from the sort.
struct Thing {
    Sort sort = Sort::part;
    PartId part;             ///< part; of ports, ends, chambers and dials the part they belong to
    VariableId variable;     ///< part (may be none), cover, end, dial, vessel
    NodeId node;             ///< port, tee, end, chamber, vessel, place
    ChamberId chamber;       ///< chamber, vessel
    ZoneId zone;             ///< zone
    OptionId option;         ///< option
    GroupId group;           ///< group
    FluidId fluid;           ///< fluid
    std::uint32_t value = 0; ///< way
    std::string name;        ///< full name; of a way the position's name; of a text the text
    Text label;
    text::Span span{}; ///< where it was declared
};

class Names {
  public:
    /// Adds `thing` under its name; the earlier one of that name, if any, is returned and stays.
    const Thing* add(Thing thing);
    const Thing* find(std::string_view name) const;
    /// The nearest name that begins with `prefix` (empty: that holds no dot).
    std::optional<std::string> nearest(std::string_view prefix, std::string_view written) const;
    /// Names directly below `prefix`, in order of declaration.
    std::vector<std::string> below(std::string_view prefix) const;

  private:
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view name) const { return std::hash<std::string_view>{}(name); }
    };
    std::unordered_map<std::string, Thing, Hash, std::equal_to<>> things_;
    std::vector<const std::string*> order_; // keys of things_: nodes of an unordered_map stay where they are
};

} // namespace curbstop::meaning
