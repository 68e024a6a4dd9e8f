#include "output/trace.h"

#include "output/sheet_standing.h"
#include "output/words.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Where the statements of a step last move a variable.
class LastMoves {
  public:
    explicit LastMoves(std::size_t variables)
        : spans_(variables) {}

    void statements(const Statements& all) {
        for (const Statement& statement : all) {
            span_ = statement.span;
            std::visit([this](const auto& each) { visit(each); }, statement.what);
        }
    }
    [[nodiscard]] const std::optional<text::Span>& of(std::size_t variable) const { return spans_[variable]; }

  private:
    void moved(VariableId variable) {
        if (variable && variable.value < spans_.size()) {
            spans_[variable.value] = span_;
        }
    }
    void visit(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            moved(setting.variable);
        }
    }
    void visit(const HoldStatement& s) {
        const text::Span own = span_;
        statements(s.body);
        span_ = own;
        moved(s.setting.variable);
    }
    void visit(const CoupleStatement& s) { moved(s.a), moved(s.b); }
    void visit(const UncoupleStatement& s) { moved(s.end); }
    void visit(const CapStatement& s) { moved(s.end); }
    void visit(const DipStatement& s) { moved(s.end); }
    void visit(const LiftOutStatement& s) { moved(s.end); }
    void visit(const PlaceStatement& s) { moved(s.vessel); }
    void visit(const TakeAwayStatement& s) { moved(s.vessel); }
    void visit(const RepeatStatement& s) { statements(s.body); }
    void visit(const ConditionalStatement& s) { statements(s.body); }
    void visit(const InCaseStatement& s) { statements(s.body); }
    template <class Other>
    void visit(const Other&) {} // moves nothing

    std::vector<std::optional<text::Span>> spans_;
    text::Span span_{};
};

bool belongs(std::string_view name, std::string_view of) {
    return of.empty() || name == of || (name.starts_with(of) && name.substr(of.size()).starts_with('.'));
}

} // namespace

std::uint32_t last_step(const proofs::ProcedureReport& report) {
    return static_cast<std::uint32_t>(report.steps.size());
}

Trace make_trace(const Model& model, const Procedure& procedure, const proofs::ProcedureReport& report,
                 std::uint32_t after, std::string_view of) {
    const System& system = model.system;
    Trace trace{&model, &procedure, report.proved, {0, "the start", procedure.span}, {}, nullptr, {}, {}, {}};
    std::vector<ValueSet> before = required_standing(system, procedure);
    std::vector<TraceStep> since(system.variables.size(), trace.after);
    std::vector<bool> changed(system.variables.size());
    for (std::uint32_t i = 0; i < after && i < report.steps.size(); ++i) {
        const proofs::StepReport& step = report.steps[i];
        LastMoves moves(system.variables.size());
        moves.statements(step.step->statements);
        trace.after = {step.number, step.step->title, step.step->span};
        trace.report = &step;
        for (std::size_t v = 0; v < system.variables.size() && v < step.standing.size(); ++v) {
            const bool moved = moves.of(v).has_value();
            changed[v] = step.standing[v] != before[v];
            if (moved || changed[v]) {
                since[v] = {step.number, step.step->title, moved ? *moves.of(v) : step.step->span};
            }
        }
        before = step.standing;
        before.resize(system.variables.size());
    }
    for (std::size_t v = 0; v < system.variables.size(); ++v) {
        if (belongs(system.variables[v].name, of)) {
            trace.standing.push_back({VariableId(v), before[v], changed[v], since[v]});
        }
    }
    if (trace.report != nullptr) {
        for (const NodeId node : trace.report->pressurised) {
            if (belongs(system[node].name, of)) {
                trace.pressurised.push_back(node);
            }
        }
        for (std::size_t i = 0; i < trace.report->may_hold.size(); ++i) {
            if (belongs(system[trace.report->may_hold[i]].name, of)) {
                trace.contents.push_back(i);
            }
        }
        for (std::size_t i = 0; i < trace.report->pockets.size(); ++i) {
            const std::vector<std::string>& pocket_names = trace.report->pockets[i].names;
            if (std::ranges::any_of(pocket_names, [&](const std::string& name) { return belongs(name, of); })) {
                trace.pockets.push_back(i);
            }
        }
    }
    return trace;
}

std::vector<std::string> traceable_names(const System& system) {
    std::vector<std::string> names;
    const auto add = [&](const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(name);
        }
    };
    for (const Part& part : system.parts) {
        add(part.name);
    }
    for (const Variable& variable : system.variables) {
        add(variable.name);
    }
    return names;
}

} // namespace curbstop::output
