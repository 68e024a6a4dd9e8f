#include "proofs/pocket_story.h"

#include <algorithm>

#include <fmt/format.h>

namespace curbstop::proofs {

using namespace meaning;

namespace {

std::string zone_of(const System& system, PartId part) {
    if (!part.valid() || system[part].places.empty() || !system[part].places.front().zone.valid()) {
        return {};
    }
    return system[system[part].places.front().zone].label;
}

std::string zone_of(const System& system, const Pocket& pocket) {
    if (pocket.kind != PocketKind::run) {
        return zone_of(system, pocket.part);
    }
    const Run& run = system.runs[pocket.index];
    const std::string from = zone_of(system, system[run.from].part);
    const std::string to = zone_of(system, system[run.to].part);
    if (from.empty() || to.empty() || from == to) {
        return from.empty() ? to : from;
    }
    return fmt::format("{} to {}", from, to);
}

std::string_view how(CauseKind kind) {
    switch (kind) {
    case CauseKind::start:
        return "since the start";
    case CauseKind::flow:
        return "a flow passes it";
    case CauseKind::pressed:
        return "pressed in there";
    case CauseKind::gravity:
        return "it runs through there by its own weight";
    case CauseKind::opened:
        return "it stood open";
    case CauseKind::seen:
        return "seen";
    case CauseKind::swept:
        return "drawn through";
    case CauseKind::blown:
        return "blown out";
    case CauseKind::drained:
        return "drained";
    case CauseKind::filled:
        return "filled";
    case CauseKind::mixed:
        return "mixed with what passed";
    case CauseKind::poured:
        return "poured in";
    }
    return {};
}

} // namespace

std::string volume_text(std::optional<double> volume) {
    if (!volume) {
        return {};
    }
    const double litres = *volume * 1000;
    return litres < 0.1 ? fmt::format("{:.0f} mL", litres * 1000) : fmt::format("{:.2g} L", litres);
}

std::string pocket_label(const System& system, const Pocket& pocket) {
    std::string text = pocket.label;
    for (const std::string& more : {volume_text(pocket.volume), zone_of(system, pocket)}) {
        if (!more.empty()) {
            text += ", " + more;
        }
    }
    return text;
}

std::string step_text(const instants::Program& program, std::uint32_t number) {
    for (const instants::Operation& operation : program.operations) {
        if (const auto* begin = std::get_if<instants::StepBegin>(&operation.what);
            begin != nullptr && begin->number == number) {
            return fmt::format("step {}, `{}`", number, begin->step->title);
        }
    }
    return "the start";
}

std::vector<PocketReport> pocket_reports(Engine& engine) {
    const System& system = engine.system();
    Inventory& inventory = engine.transport().inventory();
    const Liquids& liquids = inventory.liquids();
    const std::vector<instants::Set>& drinking = engine.transport().drinking_water();
    std::vector<PocketReport> reports;
    for (PocketIndex i = 0; i < engine.transport().pockets().size(); ++i) {
        const Pocket& pocket = engine.transport().pockets()[i];
        const instants::Set there = engine.diagrams().both(engine.knowledge().truth(pocket.exists), engine.possible());
        std::optional<Bounds> all;
        PocketReport report;
        report.label = pocket.label;
        report.index = i;
        report.volume = pocket.volume;
        report.drinking = !engine.diagrams().disjoint(drinking[i], there);
        for (const Piece& piece : inventory.pieces(i)) {
            if (engine.diagrams().disjoint(piece.where, there)) {
                continue;
            }
            if (!all || piece.cause.step >= report.step) {
                report.step = piece.cause.step;
                report.cause = how(piece.cause.kind);
            }
            all = all ? joined(*all, piece.bounds) : piece.bounds;
        }
        if (!all) {
            continue;
        }
        report.gas = all->gas.now();
        for (std::uint32_t liquid = 0; liquid < liquids.dirt(); ++liquid) {
            if (all->most[liquid] > 0) {
                const double part = report.gas < 1 ? all->part_of_volume(liquid) / (1 - report.gas) : all->most[liquid];
                report.fluids.push_back({liquids.fluid(liquid), part});
            }
        }
        if (all->hygiene.reading > 0) {
            report.disinfectant = liquids.fluid(all->hygiene.agent);
            report.reading = all->hygiene.reading;
            for (const double time : all->hygiene.stood) {
                report.stood = std::max(report.stood, time);
            }
        }
        report.sanitised = all->hygiene.sanitised;
        report.dirt = all->more_than_traces(liquids.dirt());
        if (pocket.kind == PocketKind::run) {
            report.run = pocket.index;
            report.names = {system[system.runs[pocket.index].from].name, system[system.runs[pocket.index].to].name};
        } else if (pocket.kind == PocketKind::body) {
            report.body = PartId(pocket.index);
            report.names = {system.parts[pocket.index].name};
        } else {
            report.chamber = ChamberId(pocket.index);
            report.names = {system.chambers[pocket.index].name};
        }
        if (!report.fluids.empty()) {
            reports.push_back(std::move(report));
        }
    }
    return reports;
}

std::string what_it_holds(Event& event, const Shortfall& shortfall, bool dirt) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    Inventory& inventory = engine.transport().inventory();
    const Liquids& liquids = inventory.liquids();
    for (const Piece& piece : inventory.pieces(shortfall.pocket)) {
        if (engine.diagrams().disjoint(piece.where, shortfall.where)) {
            continue;
        }
        std::vector<std::string> fluids;
        std::vector<std::string> little;
        for (std::uint32_t liquid = 0; liquid < liquids.dirt(); ++liquid) {
            if (piece.bounds.more_than_traces(liquid)) {
                fluids.push_back(piece.bounds.most[liquid] > 0.995
                                     ? std::string(system[liquids.fluid(liquid)].label)
                                     : fmt::format("up to {:.0f} % {}", 100 * piece.bounds.most[liquid],
                                                   system[liquids.fluid(liquid)].label));
            } else if (piece.bounds.most[liquid] > 0) {
                little.push_back(system[liquids.fluid(liquid)].label);
            }
        }
        if (dirt && piece.bounds.more_than_traces(liquids.dirt())) {
            fluids.emplace_back("what came in while it stood open");
        }
        const double gas = piece.bounds.gas.now();
        std::string text = gas < 0.005 ? "may be full" : fmt::format("may be {:.0f} % full", 100 * (1 - gas));
        text += fluids.empty() ? "" : fmt::format(": {}", joined(fluids, " or "));
        text += little.empty() ? "" : fmt::format("; traces of {}", joined(little, ", "));
        if (piece.cause.kind == CauseKind::start || piece.cause.step == 0) {
            return text + "; nothing has cleared it since the start";
        }
        return text + fmt::format("; {} in {}", how(piece.cause.kind), step_text(event.program, piece.cause.step));
    }
    return {};
}

} // namespace curbstop::proofs
