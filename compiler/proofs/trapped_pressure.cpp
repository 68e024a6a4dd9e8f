// trapped-pressure. Claim: no move opens anything by hand (a breach, an end that was coupled or capped) where a running
// source presses on it or where it is still charged in the state before the move. Assumes: what is charged loses its
// pressure as proofs.md says, liquid at once, gas where it has been seen to run out. Does not show: how much pressure
// it is, and none that comes from warmth alone but of a heater that is on.
#include <algorithm>

#include <fmt/format.h>

#include "meaning/expression_builder.h"
#include "proofs/obligations.h"
#include "proofs/pressure_story.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// Where a condition about positions will hold once things have been put so.
Set after(Engine& engine, std::span<const Placement> placements, ExpressionId id) {
    const Expression& expression = engine.system()[id];
    instants::Diagrams& sets = engine.diagrams();
    if (expression.kind == ExpressionKind::all || expression.kind == ExpressionKind::any) {
        const bool all = expression.kind == ExpressionKind::all;
        Set result = all ? instants::everything : nothing;
        for (const ExpressionId operand : expression.operands) {
            const Set one = after(engine, placements, operand);
            result = all ? sets.both(result, one) : sets.either(result, one);
        }
        return result;
    }
    if (expression.kind == ExpressionKind::negation) {
        return sets.complement(after(engine, placements, expression.operands.front()));
    }
    if (expression.kind != ExpressionKind::stands) {
        return engine.knowledge().truth(id); // of options and cases, which no move changes
    }
    Set stands = engine.knowledge().stands(expression.variable, expression.values);
    for (const Placement& placement : placements) {
        if (placement.variable == expression.variable) {
            stands = (expression.values >> placement.value & 1) != 0 ? sets.either(stands, placement.where)
                                                                     : sets.without(stands, placement.where);
        }
    }
    return sets.either(stands, sets.complement(engine.knowledge().truth(engine.system()[expression.variable].exists)));
}

class TrappedPressure : public Obligation {
  public:
    std::string_view slug() const override { return "trapped-pressure"; }

    void start(Event& event) override {
        const System& system = event.engine.system();
        by_variable_.resize(system.variables.size());
        for (std::uint32_t i = 0; i < system.ways.size(); ++i) {
            const Way& way = system.ways[i];
            if (way.kind != WayKind::breach && way.kind != WayKind::open_end) {
                continue;
            }
            const bool end = way.kind == WayKind::open_end;
            auto opening = std::ranges::find_if(
                openings_, [&](const Opening& known) { return known.node == way.from && known.end == end; });
            if (opening == openings_.end()) {
                openings_.push_back({way.from, end, {}});
                opening = std::prev(openings_.end());
            }
            opening->conditions.push_back(way.condition);
            std::vector<VariableId> variables;
            variables_in(system, way.condition, variables);
            for (const VariableId variable : variables) {
                by_variable_[variable.value].push_back(static_cast<std::size_t>(opening - openings_.begin()));
            }
        }
    }

    void before_move(Event& event, const instants::Move& move) override {
        Engine& engine = event.engine;
        instants::Diagrams& sets = event.diagrams();
        event.told_under_pressure = nothing;
        const std::vector<Placement> placements = engine.placements(move, event.when);
        std::vector<std::pair<NodeId, Set>> opened; // each node once
        for (const std::size_t index : touched(placements)) {
            const Opening& opening = openings_[index];
            Set opens = sets.both(newly_open(engine, placements, opening), event.here());
            if (opens == nothing) {
                continue;
            }
            ++asked;
            const auto known = std::ranges::find(opened, opening.node, &std::pair<NodeId, Set>::first);
            if (known == opened.end()) {
                opened.emplace_back(opening.node, opens);
            } else {
                known->second = sets.either(known->second, opens);
            }
        }
        for (const auto& [node, opens] : opened) {
            const Set wrong = sets.both(opens, engine.charge().under_pressure(node));
            if (wrong != nothing) {
                event.told_under_pressure = sets.either(event.told_under_pressure, wrong);
                tell(event, node, wrong);
            }
        }
    }

  private:
    // A node that a part's positions breach, or an end.
    struct Opening {
        NodeId node;
        bool end = false;
        std::vector<ExpressionId> conditions; ///< it is open where one of them holds
    };

    std::vector<std::size_t> touched(std::span<const Placement> placements) const {
        std::vector<std::size_t> openings;
        for (const Placement& placement : placements) {
            const auto& of_variable = by_variable_[placement.variable.value];
            openings.insert(openings.end(), of_variable.begin(), of_variable.end());
        }
        std::ranges::sort(openings);
        openings.erase(std::unique(openings.begin(), openings.end()), openings.end());
        return openings;
    }

    static Set newly_open(Engine& engine, std::span<const Placement> placements, const Opening& opening) {
        instants::Diagrams& sets = engine.diagrams();
        Set before = nothing;
        Set then = nothing;
        for (const ExpressionId condition : opening.conditions) {
            before = sets.either(before, engine.knowledge().truth(condition));
            then = sets.either(then, after(engine, placements, condition));
        }
        if (opening.end) {
            before = sets.either(before, engine.knowledge().stands(engine.system()[opening.node].end,
                                                                   dipped(engine.system(), opening.node)));
        }
        return sets.without(then, before);
    }

    // Lifted out of a vessel an end is no more open than it was in it.
    static ValueSet dipped(const System& system, NodeId end) {
        ValueSet values = 0;
        const Variable& variable = system[system[end].end];
        for (std::size_t value = 0; value < variable.values.size(); ++value) {
            const NodeId partner = variable.values[value].partner;
            if (partner.valid() && !system[partner].end.valid()) {
                values |= ValueSet{1} << value;
            }
        }
        return values;
    }

    void tell(Event& event, NodeId node, Set wrong) {
        const auto configuration = event.engine.knowledge().assignment(wrong);
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` is still under pressure when this opens it", label(event, node));
        finding.notes = how_charged(event, node, configuration);
        add_circumstances(event, wrong, finding);
        finding.remedies = where_to_let_off(event, node, configuration);
        add_or_ask(event.engine, event.findings, wrong, std::move(finding));
    }

    static const std::string& label(Event& event, NodeId node) {
        const System& system = event.engine.system();
        const Node& opened = system[node];
        return opened.end.valid()    ? system[opened.end].label
               : opened.part.valid() ? system[opened.part].label
                                     : opened.label;
    }

    std::vector<Opening> openings_;
    std::vector<std::vector<std::size_t>> by_variable_; ///< indices into openings_
};

} // namespace

std::unique_ptr<Obligation> trapped_pressure() {
    return std::make_unique<TrappedPressure>();
}

} // namespace curbstop::proofs
