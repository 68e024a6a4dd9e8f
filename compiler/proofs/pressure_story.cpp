#include "proofs/pressure_story.h"

#include <algorithm>
#include <bit>

#include <fmt/format.h>

namespace curbstop::proofs {

using namespace meaning;

namespace {

std::string step_words(const instants::Program& program, std::uint32_t number) {
    for (const instants::Operation& operation : program.operations) {
        const auto* begin = std::get_if<instants::StepBegin>(&operation.what);
        if (begin != nullptr && begin->number == number && begin->step != nullptr && !begin->step->title.empty()) {
            return fmt::format("step {}, `{}`", number, begin->step->title);
        }
    }
    return fmt::format("step {}", number);
}

// The value that opens an edge of a part, where its condition names one.
std::optional<std::uint32_t> opening_value(const System& system, const Edge& edge, VariableId variable) {
    const ExpressionId condition = system[edge.way].condition;
    std::vector<ExpressionId> pieces = system[condition].kind == ExpressionKind::all
                                           ? system[condition].operands
                                           : std::vector<ExpressionId>{condition};
    for (const ExpressionId piece : pieces) {
        const Expression& fact = system[piece];
        if (fact.kind == ExpressionKind::stands && fact.variable == variable && fact.values != 0) {
            return static_cast<std::uint32_t>(std::countr_zero(fact.values));
        }
    }
    return std::nullopt;
}

struct LetOff {
    const Edge* edge = nullptr;
    bool open = false; ///< already: it need only be seen to run out
};

} // namespace

std::vector<std::string> how_charged(Event& event, NodeId node, const std::vector<bool>& configuration) {
    const System& system = event.engine.system();
    const auto story = event.engine.charge().story(node, configuration);
    if (!story || !story->by.valid()) {
        return {};
    }
    const std::string& by = system[story->by].label;
    const auto in_step = [&](std::uint32_t number) {
        return number == 0 ? std::string("before the first step") : "in " + step_words(event.program, number);
    };
    const bool pressed = event.diagrams().contains(event.engine.charge().pressed(node), configuration);
    if (pressed) {
        return {fmt::format("`{}` presses on it, since {}", by,
                            story->pressed_in == 0 ? "before the first step"
                                                   : step_words(event.program, story->pressed_in))};
    }
    std::vector<std::string> notes;
    if (story->cut_off_in == 0) {
        notes.push_back(fmt::format("`{}` may have pressed on it before the first step, and nothing shows that the "
                                    "pressure has been let off",
                                    by));
    } else if (system[story->by].kind == SourceKind::heat) {
        notes.push_back(fmt::format("`{}` heated what is closed {}", by, in_step(story->cut_off_in)));
    } else {
        notes.push_back(fmt::format("`{}` pressed on it {}, it was cut off {}, and nothing has let the pressure off "
                                    "since",
                                    by, in_step(story->pressed_in), in_step(story->cut_off_in)));
    }
    if (story->gas) {
        notes.emplace_back(
            "air, and water behind a pressure tank, do not lose their pressure at once: they must be seen "
            "to run out");
    }
    return notes;
}

std::vector<std::string> where_to_let_off(Event& event, NodeId node, const std::vector<bool>& configuration) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    const Network& network = engine.network();
    const auto contains = [&](instants::Set set) { return event.diagrams().contains(set, configuration); };
    const auto story = engine.charge().story(node, configuration);
    if (!story) {
        return {};
    }
    if (contains(engine.charge().pressed(node))) {
        return {fmt::format("shut `{}` off from it before this, and let the pressure off", system[story->by].label)};
    }
    // Forward over what is open, to the nearest outlet that a hand can open and that stays open.
    std::vector<char> seen(network.vertex_count());
    std::vector<Vertex> queue{network.source_vertex(node)};
    seen[queue.front()] = 1;
    LetOff found;
    bool gas = false; // on the way: then it takes its time
    for (std::size_t i = 0; i < queue.size() && found.edge == nullptr; ++i) {
        gas = gas || contains(engine.charge().gas_at(queue[i]));
        for (const EdgeIndex index : network.out_of(queue[i])) {
            const Edge& edge = network.edge(index);
            const bool open = contains(edge.open);
            if ((edge.classes & (pass | (gas ? gas_fall : 0))) != 0 && open && seen[edge.to] == 0) {
                seen[edge.to] = 1;
                queue.push_back(edge.to);
            }
            if ((edge.classes & (outlet | outlet_inside)) == 0 || !edge.way.valid() ||
                system[edge.way].kind != WayKind::fall ||
                !contains(engine.knowledge().truth(system[edge.way].exists))) {
                continue;
            }
            const PartId part = system[edge.way].part;
            const VariableId variable = part.valid() ? system[part].variable : VariableId{};
            if (open && gas) {
                found = {&edge, true};
                break;
            }
            if (!open && variable.valid() && !system[variable].springs_back &&
                opening_value(system, edge, variable).has_value()) {
                found = {&edge, false};
                break;
            }
        }
    }
    if (found.edge == nullptr) {
        return {"let the pressure off first, at an outlet that it reaches"};
    }
    const Part& part = system[system[found.edge->way].part];
    std::string remedy;
    if (!found.open) {
        const std::uint32_t value = *opening_value(system, *found.edge, part.variable);
        remedy = fmt::format("`set {} to {}`", part.name, system[part.variable].values[value].name);
    }
    if (gas) {
        remedy += fmt::format("{}`drain pipes through {} until stops \"…\"`", remedy.empty() ? "" : " and ", part.name);
    }
    return {fmt::format("let the pressure off before this: {}", remedy)};
}

} // namespace curbstop::proofs
