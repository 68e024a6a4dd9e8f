#include "proofs/prove.h"

#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/recorder.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

namespace {

// The pieces of a conjunction.
void conjuncts(const System& system, ExpressionId expression, std::vector<ExpressionId>& pieces) {
    if (system[expression].kind == ExpressionKind::all) {
        for (const ExpressionId operand : system[expression].operands) {
            conjuncts(system, operand, pieces);
        }
    } else {
        pieces.push_back(expression);
    }
}

bool is_unproved(const System& system, ExpressionId expression) {
    switch (system[expression].kind) {
    case ExpressionKind::frost_safe:
    case ExpressionKind::drinkable:
    case ExpressionKind::sanitised:
    case ExpressionKind::restored:
    case ExpressionKind::cool:
        return true;
    default:
        break;
    }
    return std::ranges::any_of(system[expression].operands,
                               [&](ExpressionId operand) { return is_unproved(system, operand); });
}

// One procedure on one state. A procedure that starts as another leaves it goes on with that one's proof.
class Proof {
  public:
    Proof(const Model& model, std::size_t budget)
        : model_(model)
        , knowledge_(model.system, budget) {}

    ProcedureReport run(const Procedure& procedure, Findings& findings, bool detail) {
        ProcedureReport report;
        report.procedure = &procedure;
        const std::size_t errors_before = findings.errors();
        if (start(procedure, findings)) {
            follow(procedure, findings, detail, report);
        }
        report.configurations_log2 = knowledge_.start_bits();
        report.proved = findings.errors() == errors_before;
        return report;
    }

  private:
    bool start(const Procedure& procedure, Findings& findings) {
        const System& system = model_.system;
        if (procedure.as_left_by) {
            text::DiagnosticSink unheard;
            Findings apart(unheard); // what is wrong with the other procedure is said where it is proved
            const Procedure& other = model_.procedures[procedure.as_left_by->value];
            run(other, apart, false);
            if (!engine_) {
                return false;
            }
            for (const PartId part : system.may_move_while_stored) {
                engine_->forget(system[part].variable);
            }
        }
        struct Piece {
            ExpressionId expression;
            const Contract* contract;
        };
        std::vector<Piece> rest;
        const auto never = [&](const Contract& contract, std::string why) {
            findings.add({.slug = "never-true",
                          .span = contract.span,
                          .message = fmt::format("no configuration satisfies `{}`", contract.words),
                          .notes = {std::move(why), "the procedure is not followed"}});
            engine_.reset();
            return false;
        };
        for (const Contract& contract : procedure.requires_) {
            std::vector<ExpressionId> pieces;
            conjuncts(system, contract.expression, pieces);
            for (const ExpressionId piece : pieces) {
                const Expression& fact = system[piece];
                if (fact.kind != ExpressionKind::stands || engine_) {
                    rest.push_back({piece, &contract});
                    continue;
                }
                // What a variant lacks may stand any way one asks, so asking too much only rules the part out.
                const Variable& variable = system[fact.variable];
                const bool always_there = variable.exists == Expressions::always();
                if ((!always_there && variable.kind == VariableKind::end) ||
                    !knowledge_.pin(fact.variable, fact.values)) {
                    if (always_there) {
                        return never(contract,
                                     fmt::format("`{}` is asked to stand in two ways at once", variable.label));
                    }
                    rest.push_back({piece, &contract});
                }
            }
        }
        if (!engine_) {
            if (!knowledge_.settle()) {
                // Without any `requires` every end may stand open, so there is one to blame.
                return never(procedure.requires_.front(), "ends cannot be coupled so");
            }
            engine_.emplace(system, knowledge_);
        }
        // What chambers hold comes first: until all of it is known, nothing may run from one into another.
        const auto of_contents = [&](const Piece& piece) {
            const ExpressionKind kind = system[piece.expression].kind;
            return kind == ExpressionKind::holds || kind == ExpressionKind::empty;
        };
        for (const Piece& piece : rest) {
            const Expression& fact = system[piece.expression];
            if (fact.kind == ExpressionKind::holds) {
                engine_->contents().holds(fact.chamber, fact.fluid.valid() ? fluid_bit(fact.fluid) : 0, everything);
            } else if (fact.kind == ExpressionKind::empty) {
                engine_->contents().empty(fact.chamber, everything);
            }
        }
        for (const Piece& piece : rest) {
            if (of_contents(piece)) {
                continue;
            }
            engine_->narrow(engine_->truth(piece.expression));
            if (engine_->possible() == nothing) {
                return never(*piece.contract, "together with what is required before it, it rules everything out");
            }
        }
        engine_->begin();
        return true;
    }

    void follow(const Procedure& procedure, Findings& findings, bool detail, ProcedureReport& report) {
        Engine& engine = *engine_;
        const instants::Program program = instants::program_from(model_.system, procedure, knowledge_);
        Coverage coverage(engine, program);
        std::vector<std::unique_ptr<Obligation>> obligations = all_obligations();
        Recorder recorder(report.steps);
        std::vector<Listener*> listeners;
        for (const auto& obligation : obligations) {
            listeners.push_back(obligation.get());
        }
        if (detail) {
            listeners.push_back(&recorder);
        }
        Event event{engine, coverage, findings, procedure, program};
        event.span = procedure.span;
        const auto tell = [&](auto&& what) {
            for (Listener* listener : listeners) {
                what(*listener);
            }
        };
        report.instants = 1;
        tell([&](Listener& listener) { listener.start(event); });
        for (std::size_t i = 0; i < program.operations.size() && engine.possible() != nothing; ++i) {
            const instants::Operation& operation = program.operations[i];
            coverage.at(i);
            event.operation = i;
            event.when = operation.when;
            event.span = operation.span;
            if (event.here() == nothing) {
                continue;
            }
            std::visit([&](const auto& what) { handle(what, event, tell, report); }, operation.what);
        }
        event.when = everything;
        event.span = procedure.span;
        if (engine.possible() != nothing) {
            tell([&](Listener& listener) { listener.end(event); });
        }
        for (const auto& obligation : obligations) {
            report.obligations.push_back({std::string(obligation->slug()), obligation->asked});
        }
        list_unproved(procedure, report);
    }

    template <typename Tell>
    void handle(const instants::StepBegin& step, Event& event, const Tell& tell, ProcedureReport&) {
        event.coverage.step_begins();
        tell([&](Listener& listener) { listener.step_begins(event, step); });
    }
    template <typename Tell>
    void handle(const instants::StepEnd& end, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.step_ends(event, end); });
    }
    template <typename Tell>
    void handle(const instants::Move& move, Event& event, const Tell& tell, ProcedureReport& report) {
        tell([&](Listener& listener) { listener.before_move(event, move); });
        event.engine.move(move, event.when);
        ++report.instants;
        event.coverage.after_event();
        tell([&](Listener& listener) { listener.instant(event, move); });
    }
    template <typename Tell>
    void handle(const instants::Verify& verify, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.verify(event, verify); });
        Engine& engine = event.engine;
        std::vector<ExpressionId> pieces;
        conjuncts(engine.system(), verify.statement->expression, pieces);
        bool contents = false;
        for (const ExpressionId piece : pieces) {
            const Expression& fact = engine.system()[piece];
            if (fact.kind == ExpressionKind::holds) { // what is seen of contents tells of contents, not of positions
                engine.contents().holds(fact.chamber, fact.fluid.valid() ? fluid_bit(fact.fluid) : 0, event.when);
                contents = true;
            } else if (fact.kind == ExpressionKind::empty) {
                engine.contents().empty(fact.chamber, event.when);
                contents = true;
            } else {
                engine.narrow(event.diagrams().either(event.diagrams().complement(event.when), engine.truth(piece)));
            }
        }
        if (contents) {
            engine.contents_changed();
        }
    }
    template <typename Tell>
    void handle(const instants::Check& check, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.check(event, check); });
    }
    template <typename Tell>
    void handle(const instants::Until& until, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.until(event, *until.flow); });
        event.coverage.until(*until.flow, event.when);
        flow_contents(event, *until.flow);
        event.engine.contents_changed();
        event.coverage.after_event();
        tell([&](Listener& listener) { listener.contents_changed(event); });
    }
    template <typename Tell>
    void handle(const instants::Keep& keep, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.keep(event, *keep.flow); });
        event.coverage.keep(*keep.flow, event.when);
    }
    template <typename Tell>
    void handle(const instants::MeanwhileBegin& meanwhile, Event& event, const Tell& tell, ProcedureReport&) {
        event.coverage.meanwhile(*meanwhile.flow, event.when);
        tell([&](Listener& listener) { listener.meanwhile(event, *meanwhile.flow); });
    }
    template <typename Tell>
    void handle(const instants::Pressurise& pressurise, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.pressurise(event, *pressurise.statement); });
    }
    template <typename Tell>
    void handle(const instants::Pour& pour, Event& event, const Tell& tell, ProcedureReport&) {
        Engine& engine = event.engine;
        const FluidSet fluids = engine.contents().fluids(pour.statement->vessel);
        if (const ChamberId into = engine.system()[pour.statement->into].chamber; into.valid()) {
            engine.contents().take_in(
                into, fluids, event.diagrams().both(event.when, engine.contents().may_hold(pour.statement->vessel)));
        }
        engine.contents().empty(pour.statement->vessel, event.when);
        engine.contents_changed();
        event.coverage.after_event();
        tell([&](Listener& listener) { listener.contents_changed(event); });
    }
    template <typename Tell>
    void handle(const instants::Watch& watch, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.watch(event, watch); });
    }
    template <typename Tell>
    void handle(const instants::Helper&, Event& event, const Tell& tell, ProcedureReport&) {
        tell([&](Listener& listener) { listener.helper(event); });
    }

    // What a flow or drain leaves where it lands and where it came from.
    static void flow_contents(Event& event, const Flow& flow) {
        Engine& engine = event.engine;
        const System& system = engine.system();
        FluidSet fluids = 0;
        for (const ChamberId chamber : flow.chambers) {
            fluids |= engine.contents().fluids(chamber);
        }
        for (const meaning::SourceId supply : flow.supplies) {
            if (!system[system[supply].fluid].gas) {
                fluids |= fluid_bit(system[supply].fluid);
            }
        }
        const ObservationKind seen = flow.until ? flow.until->kind : ObservationKind::clear;
        if (flow.pipes || fluids != 0) {
            for (const OutletId outlet : flow.outlets) {
                const bool fills = seen == ObservationKind::full && !flow.gravity;
                for (const auto& [chamber, where] : engine.lands_in(outlet)) {
                    const Set there = event.diagrams().both(event.when, where);
                    if (fills && system[outlet].lands.valid() && system[system[outlet].lands].chamber == chamber) {
                        engine.contents().fill(chamber, fluids, there);
                    } else {
                        engine.contents().take_in(chamber, fluids, there);
                    }
                }
            }
        }
        if (seen == ObservationKind::stops || seen == ObservationKind::only_air) {
            for (const ChamberId chamber : flow.chambers) {
                engine.contents().empty(chamber, event.when);
            }
        }
        if (flow.gravity && seen == ObservationKind::stops) {
            // Whatever falls to where nothing falls any more has run out too.
            for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
                for (const OutletId outlet : flow.outlets) {
                    const Set falls = system.chambers[i].vessel ? nothing : engine.falls(ChamberId(i), outlet);
                    if (!event.diagrams().disjoint(falls, engine.possible())) {
                        engine.contents().empty(ChamberId(i), event.diagrams().both(event.when, falls));
                    }
                }
            }
        }
    }

    void list_unproved(const Procedure& procedure, ProcedureReport& report) {
        for (const auto* contracts : {&procedure.requires_, &procedure.ensures}) {
            for (const Contract& contract : *contracts) {
                if (is_unproved(model_.system, contract.expression)) {
                    report.not_proved.push_back(contract.words);
                }
            }
        }
    }

    const Model& model_;
    instants::Knowledge knowledge_;
    std::optional<Engine> engine_;
};

// unused-part (warning): a part that can be moved, of which no procedure, line-up or fragment speaks.
void find_unused(const System& system, Findings& findings) {
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        const Variable& variable = system.variables[i];
        if (variable.kind == VariableKind::position && variable.values.size() > 1 && !system.mentioned[i]) {
            findings.add({.slug = "unused-part",
                          .severity = text::Severity::warning,
                          .span = variable.span,
                          .message = fmt::format("`{}` can be moved, but no procedure and no line-up speaks of it",
                                                 variable.label),
                          .remedies = {"say in a line-up how it stands"}});
        }
    }
}

} // namespace

std::vector<ProcedureReport> prove(const Model& model, text::DiagnosticSink& sink, const Settings& settings) {
    std::vector<ProcedureReport> reports;
    Findings findings(sink);
    for (const Procedure& procedure : model.procedures) {
        try {
            Proof proof(model, settings.node_budget);
            reports.push_back(proof.run(procedure, findings, settings.detail));
        } catch (const instants::BudgetSpent&) {
            findings.add(
                {.slug = "not-decided",
                 .span = procedure.span,
                 .message = fmt::format("not decided: `{}` leaves more open than can be worked out", procedure.label),
                 .notes = {fmt::format(
                     "the proof has used its {} diagram nodes; nothing is known to be wrong, nothing is proved",
                     settings.node_budget)},
                 .remedies = {"pin more in `requires`, or `verify` earlier"}});
            ProcedureReport report;
            report.procedure = &procedure;
            reports.push_back(std::move(report));
        }
    }
    find_unused(model.system, findings);
    return reports;
}

} // namespace curbstop::proofs
