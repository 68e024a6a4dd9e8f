// The system as plumbing: what can stand how, what joins what, what pushes, what holds. Assemblies are flattened, runs
// and line-ups resolved. Must not know: syntax, procedures, proofs, output.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "meaning/expression.h"
#include "meaning/ids.h"
#include "meaning/quantity.h"
#include "meaning/text.h"
#include "text/source.h"

namespace curbstop::meaning {

/// What every declared thing has: the author's name, the owner's label, its doc comment and its place.
struct Named {
    std::string name; ///< dotted for parts of assemblies: `heater.element`
    Text label;       ///< the name where no label was written
    std::string doc;
    text::Span span{};
};

/// As many as a file and all that it uses may declare: sets of them are one word, which has room for dirt besides.
inline constexpr std::size_t most_fluids = 63;

/// Signal words in the order of ANSI Z535: danger is the gravest.
enum class Signal : std::uint8_t { danger, warning, caution, notice };
std::optional<Signal> signal_from_name(std::string_view name);

struct Fluid : Named {
    int category = 1; ///< EN 1717 fluid category, 1 to 5
    bool gas = false;
    Text shows; ///< how its arrival is seen
    struct Strength {
        Quantity concentration;
        std::optional<Quantity> freezes;
        std::optional<Quantity> bursts;
    };
    std::vector<Strength> strengths;
    /// So strong it disinfects what it stands in for so long; the stronger, the shorter. Rising.
    struct Disinfection {
        Quantity concentration;
        Quantity time;
    };
    std::vector<Disinfection> disinfects;
    /// The sheet prints it before what a vessel is filled with is poured or dipped into.
    struct Warning {
        Signal signal = Signal::caution;
        Text text;
    };
    std::vector<Warning> warnings;
};

/// A photograph that the author adds to a part or a step.
struct Photo {
    std::string file; ///< from the folder of the source that names it; never leads out of it
    Text words;       ///< what it shows, for who cannot see it; never empty
    text::Span span{};
    // What the file holds: filled in by who reads files, before any output.
    std::string media_type;
    std::uint32_t width = 0, height = 0; ///< in pixels
    std::string bytes;
};

struct Option : Named {};
struct Group : Named {
    std::vector<PartId> parts; ///< in order of declaration
};

struct Zone : Named {
    std::optional<Quantity> height;
};
struct Walk {
    ZoneId a, b;
    Quantity length;
};

enum class VariableKind : std::uint8_t { position, cover, end, dial, vessel };

struct Value : Named {
    std::optional<Quantity> setting; ///< of a dial
    NodeId partner; ///< of an end: coupled to this end, or dipped in this vessel; of a vessel: under this
    Text to_do{};   ///< of a position: what is done to put it so, `{part}` for the part's label; empty: nobody says
};

/// One thing that can stand in several ways: part, cover, end, dial, vessel.
struct Variable : Named {
    VariableKind kind = VariableKind::position;
    PartId part;               ///< the part it belongs to; none for covers, free ends, vessels
    std::vector<Value> values; ///< at most max_values. Covers: shut, open. Ends: open, capped, then partners
    ExpressionId exists = Expressions::always();
    std::optional<std::uint32_t> springs_back; ///< the value it returns to
    std::optional<std::uint32_t> at_start;     ///< pinned at the start without a `requires` (vessels: away)
    std::vector<std::uint32_t> each_way;       ///< the values that `each way` visits
};

/// Where a part or cover is worked from: a zone, and covers that must all be open.
struct WorkPlace {
    ZoneId zone;
    std::vector<VariableId> covers;
};

/// What is said before something is put so.
struct Hazard {
    VariableId variable;
    std::uint32_t value = 0;
    Signal signal = Signal::caution;
    Text text;
    text::Span span{};
    bool while_hot = false; ///< only where something hot may come to it
};

enum class GuardKind : std::uint8_t { set, while_standing };
struct Guard {
    GuardKind kind = GuardKind::set;
    VariableId variable;
    std::uint32_t value = 0;
    ExpressionId needs;
    Text why;
    text::Span span{};
};

struct Part : Named {
    std::string kind_name;
    Text kind_label;
    PartId parent; ///< of a part inside an assembly
    std::vector<WorkPlace> places;
    ExpressionId exists = Expressions::always();
    std::optional<Quantity> height; ///< its own, else its zone's
    VariableId variable;            ///< its position; none where it has one way to stand
    std::vector<VariableId> dials;
    std::vector<NodeId> nodes; ///< its ports, ends and chambers
    std::vector<OutletId> outlets;
    std::vector<GroupId> groups;
    std::optional<Quantity> rated;
    std::optional<Quantity> body; ///< what it holds besides its chambers
    FluidId holds;                ///< what its body holds at the start; none: the water of its circuit
    bool sight_glass = false;
    std::optional<Quantity> may_run_dry;
    NodeId below; ///< where what leaves it lands
    std::vector<PhotoId> photos;
};

enum class NodeKind : std::uint8_t { port, chamber, tee, end, vessel, place };
enum class Level : std::uint8_t { none, low, side, brim, top };

struct Node : Named {
    NodeKind kind = NodeKind::port;
    PartId part;
    ChamberId chamber;         ///< of a chamber or vessel
    VariableId end;            ///< of an end: how it stands
    Level level = Level::none; ///< of a port that joins a chamber
    NodeId level_of;           ///< that chamber's node
    std::optional<Quantity> height;
    std::optional<Quantity> rated; ///< the least of its ratings
};

enum class WayKind : std::uint8_t {
    two_way,  ///< a <-> b
    one_way,  ///< a -> b
    lift,     ///< a lifting part's own one-way way, whether it runs or not
    fall,     ///< a ~> b
    breach,   ///< a, to the air where a person is
    vent,     ///< a, to the air
    open_end, ///< an end that is neither coupled nor capped nor dipped
};

struct Way {
    WayKind kind = WayKind::two_way;
    NodeId from;
    NodeId to;                                      ///< none for breach and vent
    PartId part;                                    ///< none for runs and couplings
    std::uint32_t run = UINT32_MAX;                 ///< index into runs
    ExpressionId condition = Expressions::always(); ///< active when; existence included
    ExpressionId exists = Expressions::always();    ///< there at all when
    std::optional<Quantity> limits;                 ///< reducer
    /// The highest EN 1717 category that a one-way way keeps back. A plain check valve, type EA or EB: 2.
    int protects = 2;
    std::optional<Quantity> above; ///< relief
    OutletId outlet;               ///< of falls, breaches, open ends
    text::Span span{};
};

struct Outlet : Named {
    PartId part; ///< none for free ends
    NodeId end;  ///< of an open end
    std::vector<WayId> ways;
    NodeId lands; ///< chamber, port, place or vessel; none: whatever lies below (`below`), else the ground
    bool below = false;
    std::optional<Quantity> height;
    ChamberId fills; ///< of the outlet that stands for a vented chamber entered over an open way
};

struct Chamber : Named {
    NodeId node;
    PartId part; ///< none for vessels
    bool vessel = false;
    std::optional<Quantity> volume;
    FluidId fluid;                    ///< what it holds in use; of a vessel what it is filled with
    std::optional<Quantity> strength; ///< of a vessel's filling: a fraction by volume
    ExpressionId vented = Expressions::never();
    std::optional<Quantity> cools_in;
    struct Acceptance {
        FluidId fluid;
        enum class Grade : std::uint8_t { holds, mixed, traces } grade = Grade::holds;
    };
    std::vector<Acceptance> accepts; ///< of vessels and places
    VariableId whereabouts;          ///< of a vessel
};

enum class SourceKind : std::uint8_t { supply, lift, store, heat };
struct Source : Named {
    SourceKind kind = SourceKind::supply;
    PartId part;
    NodeId node;    ///< where it presses: the supply's port, the lifting part's delivery
    NodeId suction; ///< of a lifting part
    FluidId fluid;  ///< of a supply
    ExpressionId on = Expressions::always();
    std::optional<Quantity> pressure; ///< none where a dial says it, or for heat
    VariableId dial;
    std::optional<Quantity> gives; ///< how much flows from it, about; no proof but that of time rests on it
    bool own_switch = false;
    ChamberId heats;
    std::optional<Quantity> heats_to;
    text::Span span{};
};

struct Run {
    NodeId from, to;
    Text pipe; ///< label of the pipe
    Quantity length;
    std::optional<Quantity> bore;
    NodeId falls_to; ///< none where it does not fall
    ExpressionId exists = Expressions::always();
    text::Span span{};
};

/// What a node is rated for by one part or run that meets there.
struct Rating {
    NodeId node;
    Quantity limit;
    ExpressionId exists = Expressions::always();
    std::string label = {}; ///< of the part or pipe that is rated so
};

struct Place : Named {
    NodeId node;
    ZoneId zone;
    std::vector<Chamber::Acceptance> accepts;
};

struct Cover : Named {
    VariableId variable;
    WorkPlace place; ///< its zone and the covers that lie over it
};

struct Lineup : Named {
    struct Entry {
        VariableId variable;
        ValueSet values = 0;
        text::Span span{};
    };
    std::vector<Entry> entries; ///< those of `like` included
    bool for_use = false;       ///< what `restored` and `drinkable` are measured by; one at most
};

struct System : Named {
    Languages languages = 0; ///< that its sheets are to be given in; none: nothing is said
    Expressions expressions;
    std::vector<Fluid> fluids;
    std::vector<Photo> photos; ///< those of steps included
    std::vector<Option> options;
    std::vector<Group> groups;
    std::vector<Zone> zones;
    std::vector<Walk> walks;
    std::vector<Variable> variables;
    std::vector<Part> parts;
    std::vector<Node> nodes;
    std::vector<Way> ways;
    std::vector<Outlet> outlets;
    std::vector<Chamber> chambers;
    std::vector<Source> sources;
    std::vector<Run> runs;
    std::vector<Place> places;
    std::vector<Rating> ratings;
    std::vector<Cover> covers;
    std::vector<Guard> guards;
    std::vector<Hazard> hazards;
    std::vector<Lineup> lineups;
    LineupId use; ///< the line-up `for use`; none where there is none
    std::vector<PartId> may_move_while_stored;
    std::vector<bool> mentioned; ///< per variable: some procedure, line-up or fragment names it

    const Fluid& operator[](FluidId id) const { return fluids[id.value]; }
    const Photo& operator[](PhotoId id) const { return photos[id.value]; }
    const Option& operator[](OptionId id) const { return options[id.value]; }
    const Group& operator[](GroupId id) const { return groups[id.value]; }
    const Zone& operator[](ZoneId id) const { return zones[id.value]; }
    const Variable& operator[](VariableId id) const { return variables[id.value]; }
    const Part& operator[](PartId id) const { return parts[id.value]; }
    const Node& operator[](NodeId id) const { return nodes[id.value]; }
    const Way& operator[](WayId id) const { return ways[id.value]; }
    const Outlet& operator[](OutletId id) const { return outlets[id.value]; }
    const Chamber& operator[](ChamberId id) const { return chambers[id.value]; }
    const Source& operator[](SourceId id) const { return sources[id.value]; }
    const Lineup& operator[](LineupId id) const { return lineups[id.value]; }
    const Expression& operator[](ExpressionId id) const { return expressions[id]; }

    /// Whether a chamber stands open to the air wherever it is there at all.
    bool is_always_vented(ChamberId id) const {
        const Chamber& chamber = chambers[id.value];
        return chamber.vented == Expressions::always() ||
               (chamber.part.valid() && chamber.vented == parts[chamber.part.value].exists);
    }
};

} // namespace curbstop::meaning
