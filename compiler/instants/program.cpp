#include "instants/program.h"

#include <map>

#include "meaning/rounds.h"

namespace curbstop::instants {

using namespace meaning;

namespace {

class Writer {
  public:
    Writer(const System& system, Knowledge& knowledge)
        : system_(system)
        , knowledge_(knowledge)
        , diagrams_(knowledge.diagrams()) {}

    Program write(const Procedure& procedure) {
        for (std::uint32_t i = 0; i < procedure.stages.size(); ++i) {
            const Stage& stage = procedure.stages[i];
            stage_ = i;
            for (const Contract& contract : stage.requires_) {
                push(Check{ContractKind::requires_, contract.expression, &contract.words}, contract.span);
            }
            write_items(stage.items);
            for (const Contract& contract : stage.ensures) {
                push(Check{ContractKind::ensures, contract.expression, &contract.words}, contract.span);
            }
        }
        // The last step that is done, for what must not outlast the procedure.
        for (auto operation = program_.operations.rbegin(); operation != program_.operations.rend(); ++operation) {
            if (auto* end = std::get_if<StepEnd>(&operation->what)) {
                end->last = true;
                break;
            }
        }
        for (const Contract& contract : procedure.ensures) {
            push(Check{ContractKind::ensures, contract.expression, &contract.words}, contract.span);
        }
        program_.steps = static_cast<std::uint32_t>(numbers_.size());
        return std::move(program_);
    }

  private:
    void push(decltype(Operation::what) what, text::Span span, Set when) {
        program_.operations.push_back({std::move(what), when, span});
    }
    void push(decltype(Operation::what) what, text::Span span) { push(std::move(what), span, when_); }

    template <typename Body>
    void inside(Set condition, const Body& body) {
        const Set before = when_;
        when_ = diagrams_.both(when_, condition);
        if (when_ != nothing) {
            body();
        }
        when_ = before;
    }

    template <typename Body>
    void rounds(std::uint32_t times, std::uint32_t at_most, text::Span span, const Body& body) {
        const std::uint32_t repeat = repeats_++;
        for (std::uint32_t time = 0; time < times; ++time) {
            body();
            if (times > 1) {
                push(RoundEnd{repeat, time == 0, time + 1 == times, times < at_most, at_most - times}, span);
            }
        }
    }

    void write_items(const StageItems& items) {
        for (const StageItem& item : items) {
            if (const auto* step = std::get_if<Step>(&item.what)) {
                write_step(*step);
            } else if (const auto* conditional = std::get_if<ConditionalSteps>(&item.what)) {
                inside(knowledge_.truth(conditional->condition), [&] { write_items(conditional->items); });
            } else if (const auto* in_case = std::get_if<InCaseSteps>(&item.what)) {
                const Set comes_up = knowledge_.fresh();
                knowledge_.bind_branch(in_case->branch, comes_up);
                inside(comes_up, [&] { write_items(in_case->items); });
            } else if (const auto* repeat = std::get_if<RepeatSteps>(&item.what)) {
                rounds(rounds_to_follow(*repeat), repeat->at_most, item.span, [&] { write_items(repeat->items); });
            } else if (const auto* meanwhile = std::get_if<MeanwhileSteps>(&item.what)) {
                push(MeanwhileBegin{&meanwhile->flow}, meanwhile->flow.span);
                write_items(meanwhile->items);
                push(Until{&meanwhile->flow}, meanwhile->flow.span);
            }
        }
    }

    void write_step(const Step& step) {
        const auto number = numbers_.try_emplace(&step, static_cast<std::uint32_t>(numbers_.size() + 1)).first->second;
        push(StepBegin{&step, number, stage_}, step.span);
        write_statements(step.statements);
        push(StepEnd{}, step.span);
    }

    void write_statements(const Statements& statements) {
        for (const Statement& statement : statements) {
            inside(knowledge_.truth(statement.exists), [&] { write_statement(statement); });
        }
    }

    void move(MoveKind kind, std::vector<Setting> settings, text::Span span) {
        // What is not there is not moved.
        Set when = when_;
        for (const Setting& setting : settings) {
            when = diagrams_.both(when, knowledge_.truth(system_[setting.variable].exists));
        }
        if (when != nothing) {
            push(Move{kind, std::move(settings)}, span, when);
        }
    }

    void write_statement(const Statement& statement) {
        const text::Span span = statement.span;
        if (const auto* set = std::get_if<SetStatement>(&statement.what)) {
            for (const Setting& setting : set->settings) {
                move(MoveKind::set, {setting}, span);
            }
        } else if (const auto* hold = std::get_if<HoldStatement>(&statement.what)) {
            move(MoveKind::hold, {hold->setting}, span);
            write_statements(hold->body);
            move(MoveKind::release, {{hold->setting.variable, *system_[hold->setting.variable].springs_back, span}},
                 span);
        } else if (const auto* couple = std::get_if<CoupleStatement>(&statement.what)) {
            move(MoveKind::couple, {{couple->a, couple->a_value, span}, {couple->b, couple->b_value, span}}, span);
        } else if (const auto* uncouple = std::get_if<UncoupleStatement>(&statement.what)) {
            move(MoveKind::uncouple, {{uncouple->end, 0, span}}, span);
        } else if (const auto* cap = std::get_if<CapStatement>(&statement.what)) {
            move(cap->cap ? MoveKind::cap : MoveKind::uncap, {{cap->end, cap->cap ? 1U : 0U, span}}, span);
        } else if (const auto* dip = std::get_if<DipStatement>(&statement.what)) {
            move(MoveKind::dip, {{dip->end, dip->value, span}}, span);
        } else if (const auto* lift = std::get_if<LiftOutStatement>(&statement.what)) {
            move(MoveKind::lift_out, {{lift->end, 0, span}}, span);
        } else if (const auto* place = std::get_if<PlaceStatement>(&statement.what)) {
            move(MoveKind::place, {{place->vessel, place->value, span}}, span);
        } else if (const auto* take = std::get_if<TakeAwayStatement>(&statement.what)) {
            move(MoveKind::take, {{take->vessel, 0, span}}, span);
        } else if (const auto* verify = std::get_if<VerifyStatement>(&statement.what)) {
            push(Verify{verify}, span);
        } else if (const auto* flow = std::get_if<FlowStatement>(&statement.what)) {
            inside(knowledge_.truth(flow->flow.parts_exist), [&] { push(Until{&flow->flow}, span); });
        } else if (const auto* keep = std::get_if<KeepStatement>(&statement.what)) {
            inside(knowledge_.truth(keep->flow.parts_exist), [&] { push(Keep{&keep->flow}, span); });
        } else if (const auto* pressurise = std::get_if<PressuriseStatement>(&statement.what)) {
            push(Pressurise{pressurise}, span);
        } else if (const auto* pour = std::get_if<PourStatement>(&statement.what)) {
            push(Pour{pour}, span);
        } else if (const auto* bring = std::get_if<BringStatement>(&statement.what)) {
            if (bring->fluid) {
                push(Bring{bring}, span);
            }
        } else if (const auto* repeat = std::get_if<RepeatStatement>(&statement.what)) {
            rounds(rounds_to_follow(*repeat), repeat->at_most, span, [&] { write_statements(repeat->body); });
        } else if (const auto* watch = std::get_if<WatchStatement>(&statement.what)) {
            push(Watch{watch}, span);
        } else if (std::holds_alternative<HelperStatement>(statement.what)) {
            push(Helper{}, span);
        } else if (const auto* wait = std::get_if<WaitStatement>(&statement.what)) {
            push(Wait{wait->time}, span);
        } else if (const auto* contract = std::get_if<ContractStatement>(&statement.what)) {
            push(Check{contract->requires_ ? ContractKind::requires_ : ContractKind::ensures, contract->expression,
                       &contract->words},
                 span);
        } else if (const auto* conditional = std::get_if<ConditionalStatement>(&statement.what)) {
            inside(knowledge_.truth(conditional->condition), [&] { write_statements(conditional->body); });
        } else if (const auto* in_case = std::get_if<InCaseStatement>(&statement.what)) {
            const Set comes_up = knowledge_.fresh();
            knowledge_.bind_branch(in_case->branch, comes_up);
            inside(comes_up, [&] { write_statements(in_case->body); });
        }
        // Wearing, noting, bringing what is no fluid: nothing is otherwise afterwards.
    }

    const System& system_;
    Knowledge& knowledge_;
    Diagrams& diagrams_;
    Program program_;
    Set when_ = everything;
    std::uint32_t stage_ = 0;
    std::uint32_t repeats_ = 0;
    std::map<const Step*, std::uint32_t> numbers_;
};

} // namespace

Program program_from(const System& system, const Procedure& procedure, Knowledge& knowledge) {
    return Writer(system, knowledge).write(procedure);
}

} // namespace curbstop::instants
