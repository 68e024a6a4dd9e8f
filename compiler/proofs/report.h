// What the proof found out about a procedure, as data for the sheet, the trace and JSON. What was wrong goes into the
// diagnostics instead. Must not know: how it was decided, how it is printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "meaning/procedure.h"
#include "meaning/system.h"

namespace curbstop::proofs {

/// A part standing in the way of a source: were it to stand otherwise, fluid could go on.
struct Barrier {
    meaning::VariableId variable;
    meaning::ValueSet values = 0; ///< how it may stand

    friend bool operator==(const Barrier&, const Barrier&) = default;
};

/// The closed cut around one source: what holds it back, in the order of the system's parts.
struct HeldBack {
    meaning::SourceId source;
    std::vector<Barrier> barriers;
};

/// A discharge that may be running: whose fluid, pushed by what, out where.
struct Discharge {
    meaning::SourceId source;
    meaning::ChamberId origin;       ///< none: the supply itself
    meaning::SourceId supply_origin; ///< of a supply
    meaning::OutletId outlet;

    friend bool operator==(const Discharge&, const Discharge&) = default;
};

/// What may be in one pocket, over every configuration that is still possible, and what brought it about last.
struct PocketReport {
    std::string label;
    std::uint32_t index = 0;        ///< among all pockets (transport/pockets.h)
    std::uint32_t run = UINT32_MAX; ///< which run, chamber or body it is: one of these three is set
    meaning::ChamberId chamber;
    meaning::PartId body;
    std::vector<std::string> names; ///< the author's: of the part, of the ends of the pipe
    std::optional<double> volume;   ///< m3
    bool drinking = false;          ///< in some variant water for drinking reaches it in use
    double gas = 0;                 ///< least part of the volume that is gas
    struct Part {
        meaning::FluidId fluid;
        double most = 0; ///< greatest part of the liquid that it may be
    };
    std::vector<Part> fluids;      ///< what it may hold, traces included
    bool dirt = false;             ///< it stood open, and was not flushed since
    meaning::FluidId disinfectant; ///< of which there is a reading; none: there is none
    double reading = 0;            ///< least concentration, a fraction
    double stood = 0;              ///< the longest that it has stood at some strength that disinfects, s
    bool sanitised = false;
    std::string cause;      ///< "drained", "blown out" ...
    std::uint32_t step = 0; ///< number of the step that did it; 0 is the start
};

/// How much a flow or drain moves, over every configuration that is still possible.
struct FlowReport {
    const meaning::Flow* flow = nullptr;
    std::uint32_t step = 0;     ///< number of its step; 0 of a `meanwhile`
    double fill = 0;            ///< what stands empty or holds something else on the way, m3
    double again = 0;           ///< of that, what held a liquid that mixes with what comes
    double needs = 0;           ///< what surely has to come: `at least`, or what is to be filled; 0 of a drain
    std::optional<double> most; ///< no more than this comes; nothing where nobody says
    std::vector<meaning::SourceId> sources; ///< that push it
    std::vector<meaning::ChamberId> into;   ///< vessels that it comes into
};

/// One fluid that is brought in vessels, over every configuration that is still possible.
struct SupplyReport {
    meaning::FluidId fluid;
    double needs = 0;     ///< as the procedure does it, m3
    double fill = 0;      ///< of that, what its flows have to fill and its vessels pour: the lines blown out first
    double not_blown = 0; ///< and with water standing in all that is to be filled
    std::optional<double> brought; ///< what its steps list; nothing where they leave it to be worked out
    struct FromVessel {
        meaning::ChamberId vessel;
        double needs = 0;
    };
    std::vector<FromVessel> vessels;
    struct ByOption {
        meaning::OptionId option;
        double with = 0, without = 0; ///< what it needs where the option is taken, and where it is not
    };
    std::vector<ByOption> options;          ///< those that make a difference
    std::vector<meaning::OutletId> outlets; ///< where its flows run out
};

/// What is known after one step, over every configuration that is still possible.
struct StepReport {
    const meaning::Step* step = nullptr;
    std::uint32_t number = 0; ///< from 1, through the whole procedure, in the order of the sheet
    std::uint32_t stage = 0;
    std::vector<meaning::ValueSet> standing; ///< per variable: how it may stand at the step's end
    std::vector<meaning::SourceId> running;  ///< sources that may be on at its end
    std::vector<HeldBack> held_back;         ///< for every source that may be on during the step
    std::vector<Discharge> discharges;       ///< that ran at some instant of the step
    std::vector<Discharge> falls;            ///< by gravity, at some instant of the step: their source is none
    std::size_t discharges_before = 0;       ///< the first so many ran already when the step began
    std::size_t falls_before = 0;
    std::vector<meaning::NodeId> pressurised; ///< may be under pressure from a running source at its end
    std::vector<meaning::NodeId> charged;     ///< may be under pressure at its end though no running source presses
    std::vector<meaning::ChamberId> may_hold; ///< chambers and vessels that may hold liquid at its end
    std::vector<meaning::ChamberId> surely_holds;
    std::vector<std::vector<meaning::FluidId>> fluids; ///< per entry of may_hold
    std::vector<PocketReport> pockets;                 ///< that are there and may hold something
    std::vector<meaning::ZoneId> zones;                ///< where it acts or watches, in order
    bool helper = false;                               ///< a second person is needed
    bool safe_to_stop = false;                         ///< no source on, nothing runs out
    bool falling = false;                              ///< something may run out by its own weight at its end
    bool may_freeze = false;                           ///< a `frost_safe` that the procedure ensures does not hold yet
    bool spoilt = false; ///< more than traces of what does not belong there may be in the drinking water
};

/// Something put so, and liquid from a hot chamber may come to it while it stands so.
struct HotMove {
    const meaning::Step* step = nullptr;
    meaning::VariableId variable;
    std::uint32_t value = 0;

    friend bool operator==(const HotMove&, const HotMove&) = default;
};

struct ObligationCount {
    std::string slug;
    std::uint64_t checked = 0; ///< how often something was asked of it
};

struct ProcedureReport {
    const meaning::Procedure* procedure = nullptr;
    bool proved = false; ///< no error was found
    std::uint64_t instants = 0;
    std::uint64_t configurations_log2 = 0; ///< start configurations left open: at most 2 to this
    std::vector<ObligationCount> obligations;
    std::vector<std::string> not_proved;           ///< what was asked for and is not proved by this version, in words
    std::vector<StepReport> steps;                 ///< empty unless detail was asked for
    std::vector<FlowReport> flows;                 ///< likewise, in the order of the steps
    std::vector<SupplyReport> supplies;            ///< likewise, in the order of the fluids
    std::optional<std::vector<HotMove>> hot_moves; ///< each once; nothing where nobody has looked
};

} // namespace curbstop::proofs
