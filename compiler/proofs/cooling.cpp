#include "proofs/cooling.h"

#include <fmt/format.h>

#include "meaning/quantity_text.h"

namespace curbstop::proofs {

using namespace meaning;

namespace {

std::string time_text(const Rational& seconds) {
    return format_quantity(Quantity{Dimension::time, seconds}, UnitSystem::metric);
}

} // namespace

std::string how_long_waited(Engine& engine, ChamberId chamber, const std::vector<bool>& configuration) {
    instants::Diagrams& sets = engine.diagrams();
    const HeatedChamber* heated = engine.heat().of(chamber);
    if (heated == nullptr) {
        return {};
    }
    for (const meaning::SourceId source : heated->sources) {
        if (sets.contains(engine.heat().on(source), configuration)) {
            return fmt::format("`{}` heats it", engine.system()[source].label);
        }
    }
    const auto& cools_in = engine.system()[chamber].cools_in;
    if (!cools_in) {
        return "its kind says no time in which it cools";
    }
    for (const auto& [time, set] : heated->waited) {
        if (sets.contains(set, configuration)) {
            return time.sign() == 0
                       ? fmt::format("it cools in {}, and no step has waited since it may have been heated",
                                     time_text(cools_in->value))
                       : fmt::format("it cools in {}, of which {} has been waited since it may have been heated",
                                     time_text(cools_in->value), time_text(time));
        }
    }
    return fmt::format("it cools in {}", time_text(cools_in->value));
}

std::string how_to_cool(const System& system, ChamberId chamber) {
    const std::string look = fmt::format("verify {} is cool", system[chamber].name);
    if (!system[chamber].cools_in) {
        return fmt::format("switch off what heats it, let it cool, and look: `{}`", look);
    }
    const auto time =
        write_quantity(*system[chamber].cools_in, handy_unit(*system[chamber].cools_in, UnitSystem::metric));
    return fmt::format("switch off what heats it, then {} before this, or look: `{}`",
                       time ? fmt::format("`wait {}`", *time) : "wait", look);
}

} // namespace curbstop::proofs
