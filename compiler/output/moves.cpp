#include "output/moves.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

class Collector {
  public:
    Collector(const System& system, std::span<const ValueSet> before, std::span<const ValueSet> after)
        : system_(&system)
        , before_(before)
        , after_(after) {}

    void statements(const Statements& all) {
        for (const Statement& statement : all) {
            std::visit([this](const auto& each) { visit(each); }, statement.what);
        }
    }
    [[nodiscard]] std::vector<Moved> take() { return std::move(found_); }

  private:
    [[nodiscard]] static ValueSet at(std::span<const ValueSet> standing, VariableId variable) {
        return variable.value < standing.size() ? standing[variable.value] : 0;
    }
    Moved& entry(VariableId variable) {
        const auto known = std::ranges::find(found_, variable, &Moved::variable);
        if (known != found_.end()) {
            return *known;
        }
        found_.push_back({variable, at(before_, variable), {}, at(after_, variable)});
        return found_.back();
    }
    void put(VariableId variable, std::uint32_t value) {
        if (variable) {
            std::vector<std::uint32_t>& through = entry(variable).through;
            if (through.empty() || through.back() != value) {
                through.push_back(value);
            }
        }
    }
    // Whatever it may have been joined to is let go as well.
    void let_go(VariableId end) {
        for (std::size_t value = 0; value < (*system_)[end].values.size(); ++value) {
            const NodeId partner = (*system_)[end].values[value].partner;
            if ((at(before_, end) >> value & 1) == 0 || !partner) {
                continue;
            }
            const VariableId other = (*system_)[partner].end;
            if (other && at(before_, other) != at(after_, other)) {
                entry(other);
            }
        }
        entry(end);
    }

    void visit(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            put(setting.variable, setting.value);
        }
    }
    void visit(const HoldStatement& s) {
        put(s.setting.variable, s.setting.value);
        statements(s.body);
        if (const auto back = (*system_)[s.setting.variable].springs_back) {
            put(s.setting.variable, *back);
        }
    }
    void visit(const CoupleStatement& s) { put(s.a, s.a_value), put(s.b, s.b_value); }
    void visit(const UncoupleStatement& s) { let_go(s.end); }
    void visit(const CapStatement& s) { entry(s.end); }
    void visit(const DipStatement& s) { put(s.end, s.value); }
    void visit(const LiftOutStatement& s) { entry(s.end); }
    void visit(const PlaceStatement& s) { put(s.vessel, s.value); }
    void visit(const TakeAwayStatement& s) { entry(s.vessel); }
    void visit(const RepeatStatement& s) { statements(s.body); }
    void visit(const ConditionalStatement& s) { statements(s.body); }
    void visit(const InCaseStatement& s) { statements(s.body); }
    template <class Other>
    void visit(const Other&) {} // moves nothing

    const System* system_;
    std::span<const ValueSet> before_;
    std::span<const ValueSet> after_;
    std::vector<Moved> found_;
};

} // namespace

std::vector<Moved> moves_of(const System& system, const proofs::StepReport& step, std::span<const ValueSet> before) {
    Collector collector(system, before, step.standing);
    if (step.step != nullptr) {
        collector.statements(step.step->statements);
    }
    return collector.take();
}

} // namespace curbstop::output
