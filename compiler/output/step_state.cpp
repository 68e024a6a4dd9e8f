#include "output/step_state.h"

#include <algorithm>
#include <cmath>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr double more_than_traces = 0.01; // of the liquid

Content filling_of(const proofs::PocketReport& pocket) {
    Content filling;
    for (const proofs::PocketReport::Part& part : pocket.fluids) {
        if (part.most > more_than_traces) {
            filling.fluids.push_back(part.fluid);
        }
    }
    if (filling.fluids.empty()) {
        filling.traces = true;
        for (const proofs::PocketReport::Part& part : pocket.fluids) {
            filling.fluids.push_back(part.fluid);
        }
    }
    filling.most_percent = std::max(1, static_cast<int>(std::ceil(100 * (1 - pocket.gas) - 0.01)));
    return filling;
}

} // namespace

std::vector<Content> StepState::of_part(const System& system, PartId part) const {
    std::vector<Content> found;
    const auto add = [&found](const Content& filling) {
        if (std::ranges::find(found, filling) == found.end()) {
            found.push_back(filling);
        }
    };
    for (std::size_t i = 0; i < system.chambers.size(); ++i) {
        if (system.chambers[i].part == part) {
            add(chambers[i]);
        }
    }
    if (bodies[part.value]) {
        add(*bodies[part.value]);
    }
    return found;
}

bool StepState::presses_on(const System& system, PartId part) const {
    return std::ranges::any_of(system[part].nodes, [this](NodeId node) { return pressure[node.value]; });
}

StepState step_state(const System& system, const proofs::StepReport& step) {
    StepState state;
    state.runs.resize(system.runs.size());
    state.chambers.resize(system.chambers.size());
    state.bodies.resize(system.parts.size());
    state.pressure.resize(system.nodes.size());
    for (std::size_t i = 0; i < system.parts.size(); ++i) {
        if (system.parts[i].body) {
            state.bodies[i] = Content{};
        }
    }
    for (const proofs::PocketReport& pocket : step.pockets) {
        if (pocket.run < state.runs.size()) {
            state.runs[pocket.run] = filling_of(pocket);
        } else if (pocket.chamber) {
            state.chambers[pocket.chamber.value] = filling_of(pocket);
        } else if (pocket.body) {
            state.bodies[pocket.body.value] = filling_of(pocket);
        }
    }
    for (const auto* nodes : {&step.pressurised, &step.charged}) {
        for (const NodeId node : *nodes) {
            state.pressure[node.value] = true;
        }
    }
    return state;
}

} // namespace curbstop::output
