// How much of everything a procedure moves and needs, worked out from its proof: volumes, what is brought, minutes,
// trips, what antifreeze becomes once it is thinned, how much bleach. Everything is over all variants and all that is
// unknown: the worst of them counts. Volumes are in m3, times in minutes, concentrations and strengths fractions.
// Must not know: sheets, words, JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "meaning/procedure.h"
#include "proofs/report.h"

namespace curbstop::quantities {

enum class PocketKind : std::uint8_t { pipe, chamber, body, vessel };

/// What holds something, and how much.
struct PocketVolume {
    PocketKind kind = PocketKind::pipe;
    std::string label;
    std::uint32_t index = 0;      ///< of the run, chamber or part in the system
    std::optional<double> volume; ///< nothing where nobody says
    double share = 1;  ///< of what stays in it at the end: greatest part of the liquid that is the fluid spoken of
    bool open = false; ///< a tank or basin that stands open to the air, or a vessel
    meaning::ExpressionId exists = meaning::Expressions::always();
    bool drinking = false; ///< of what stays in it: it is a pocket of the drinking water
};

/// A flow or drain.
struct FlowAmount {
    const meaning::Flow* flow = nullptr;
    std::uint32_t step = 0;                ///< 0: of a `meanwhile`
    double needs = 0;                      ///< what surely has to come
    double fill = 0, again = 0;            ///< what is to be filled on the way, and again for what mixes
    std::optional<double> most;            ///< no more comes
    std::optional<meaning::Quantity> rate; ///< nothing where nobody says, or where sources differ
    bool throttled =
        false; ///< a supply gives it through a valve at the end: how fast, nobody says, and no faster than `rate`
    std::optional<double> written_least; ///< what the step asks for: `at least`, or a volume that is read
    std::optional<double> least_minutes; ///< for `written_least`, else for `needs`, and no more than for `most`
    std::optional<double> most_minutes;  ///< for `most`
    struct Trips {
        meaning::ChamberId vessel;
        std::uint32_t count = 1; ///< for `most`, else for `needs`
    };
    std::vector<Trips> trips;
};

/// What antifreeze of the least strength brought becomes where a line was blown out or drained first.
struct Dilution {
    double strength = 0;
    double thinned = 0;
    std::optional<double> freezes;         ///< degC, as brought; nothing beyond the fluid's table
    std::optional<double> thinned_freezes; ///< once thinned
};

/// A fluid that is brought.
struct Supply {
    meaning::FluidId fluid;
    double needs = 0;       ///< as the procedure does it
    double blown_first = 0; ///< if no flow took more than it has to, with the lines blown out or drained first
    double not_blown = 0;   ///< the same with water standing in all that is to be filled
    std::optional<double> listed;
    bool mixed_on_the_spot = false; ///< a disinfectant: what is brought is bleach
    std::vector<proofs::SupplyReport::FromVessel> vessels;
    std::vector<proofs::SupplyReport::ByOption> options;
    std::optional<Dilution> dilution;
    std::vector<meaning::OutletId> runs_out_at;
    std::vector<PocketVolume> stays_in;  ///< of what is closed: more than traces of it may stand there at the end
    double stays = 0;                    ///< volume of all of them that is known
    std::vector<PocketVolume> runs_into; ///< tanks and basins that may hold more than traces of it at the end
};

/// How much bleach makes a disinfectant of what a chamber holds.
struct Dose {
    meaning::FluidId fluid;
    meaning::ChamberId chamber; ///< that is filled up with water; none where nobody says
    double volume = 0;
    double concentration = 0;
    std::optional<double> hours; ///< how long it must stand; nothing where the fluid does not say for so little
    struct Row {
        double strength = 0; ///< on the label
        double bleach = 0;
    };
    std::vector<Row> rows;
    double flushing = 0; ///< what is surely run through afterwards, until it is clear, or filled in for that
};

/// A vessel that is carried away and emptied.
struct Carried {
    meaning::ChamberId vessel;
    std::uint64_t times = 0; ///< at most
};

struct Quantities {
    std::vector<PocketVolume> pockets; ///< pipes first
    std::vector<FlowAmount> flows;
    std::vector<Supply> supplies;
    std::vector<Dose> doses;
    std::vector<Carried> carried;

    /// Null where nothing was worked out.
    [[nodiscard]] const FlowAmount* of(const meaning::Flow& flow) const;
};

/// `report` is the one of `procedure`, in detail.
[[nodiscard]] Quantities work_out(const meaning::System& system, const meaning::Procedure& procedure,
                                  const proofs::ProcedureReport& report);

/// Strengths that stand on bottles of household bleach. 5.25, 6 and 8.25 %: labels that the sources of the dose name
/// (CDC, Make Water Safe); 12 %: Maine CDC, Disinfection Equations; 3, 5 and 10 %: common practice, no source.
inline constexpr double label_strengths[] = {0.03, 0.05, 0.0525, 0.06, 0.0825, 0.10, 0.12};

} // namespace curbstop::quantities
