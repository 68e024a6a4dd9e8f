// A procedure, event by event: every obligation is told of each, and the engine takes each step.
#include <algorithm>

#include "proofs/air_inlet.h"
#include "proofs/hot_moves.h"
#include "proofs/obligations.h"
#include "proofs/proof.h"
#include "proofs/recorder.h"
#include "proofs/takings.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

namespace {

// Where a flow that ends with air has emptied a chamber: it ran out of it, and neither anything else nor any air came
// but out of what the flow names.
Set drawn_empty(Engine& engine, const Flow& flow, ChamberId chamber) {
    instants::Diagrams& sets = engine.diagrams();
    Set result = nothing;
    for (const SourceState& source : engine.sources()) {
        if (!source.draw) {
            continue;
        }
        Set meant = nothing;
        Set other = nothing;
        for (const DischargeState& running : engine.discharges()) {
            if (running.key.source != source.id || !names_outlet(flow, running.key.outlet)) {
                continue;
            }
            if (running.key.origin.chamber == chamber) {
                meant = sets.either(meant, running.now);
            } else if (!names_origin(flow, running.key.origin)) {
                other = sets.either(other, running.now);
            }
        }
        meant = sets.without(meant, other);
        if (meant != nothing) {
            result = sets.either(result, sets.without(meant, engine.draws_air_besides(*source.draw, flow.chambers)));
        }
    }
    return result;
}

// What a flow or drain leaves where it lands and where it came from.
void flow_contents(Event& event, const Flow& flow) {
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
            const Set ran =
                flow.gravity ? event.when : event.diagrams().both(event.when, drawn_empty(engine, flow, chamber));
            engine.contents().empty(chamber, ran);
        }
    }
    if (flow.gravity && seen == ObservationKind::stops) {
        // Whatever falls to where nothing falls any more has run out too.
        for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
            for (const OutletId outlet : flow.outlets) {
                Set falls = system.chambers[i].vessel ? nothing : engine.falls(ChamberId(i), outlet);
                falls = event.diagrams().both(event.when, falls);
                if (!event.diagrams().disjoint(falls, engine.possible())) {
                    falls = event.diagrams().both(falls, air_inlet(engine, ChamberId(i), flow, falls));
                    engine.contents().empty(ChamberId(i), falls);
                }
            }
        }
    }
}

// Parts that every promise of this procedure to be disinfected leaves out.
std::vector<PartId> left_out_of_disinfection(const System& system, const Procedure& procedure,
                                             const instants::Program& program) {
    std::optional<std::vector<PartId>> everywhere;
    const auto add = [&](ExpressionId expression) {
        std::vector<ExpressionId> pieces;
        conjuncts(system, expression, pieces);
        for (const ExpressionId piece : pieces) {
            if (system[piece].kind != ExpressionKind::sanitised) {
                continue;
            }
            std::vector<PartId> parts = system[piece].parts;
            if (everywhere) {
                std::erase_if(parts,
                              [&](PartId part) { return std::ranges::find(*everywhere, part) == everywhere->end(); });
            }
            everywhere = std::move(parts);
        }
    };
    for (const Contract& contract : procedure.ensures) {
        add(contract.expression);
    }
    for (const instants::Operation& operation : program.operations) {
        if (const auto* check = std::get_if<instants::Check>(&operation.what)) {
            add(check->expression);
        }
    }
    return everywhere.value_or(std::vector<PartId>{});
}

// What was asked for and is not proved: at the head and wherever it stands, each once.
void list_unproved(const System& system, const Procedure& procedure, const instants::Program& program,
                   ProcedureReport& report) {
    const auto add = [&](ExpressionId expression, const std::string& words) {
        if (is_unproved(system, expression) && std::ranges::find(report.not_proved, words) == report.not_proved.end()) {
            report.not_proved.push_back(words);
        }
    };
    for (const Contract& contract : procedure.requires_) {
        add(contract.expression, contract.words);
    }
    for (const instants::Operation& operation : program.operations) {
        if (const auto* check = std::get_if<instants::Check>(&operation.what)) {
            add(check->expression, *check->words);
        } else if (const auto* verify = std::get_if<instants::Verify>(&operation.what)) {
            add(verify->statement->expression, verify->statement->words);
        }
    }
}

template <typename Tell>
void handle(const instants::StepBegin& step, Event& event, const Tell& tell, ProcedureReport&) {
    event.coverage.step_begins();
    event.engine.charge().in_step(step.number);
    event.findings.in_step(step.step, step.number);
    event.engine.transport().at_step(step.number);
    tell([&](Listener& listener) { listener.step_begins(event, step); });
}
template <typename Tell>
void handle(const instants::StepEnd& end, Event& event, const Tell& tell, ProcedureReport&) {
    tell([&](Listener& listener) { listener.step_ends(event, end); });
    event.findings.in_step(nullptr, 0);
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
    Engine& engine = event.engine;
    std::vector<ExpressionId> pieces;
    conjuncts(engine.system(), verify.statement->expression, pieces);
    for (const ExpressionId piece : pieces) {
        const Expression& fact = engine.system()[piece];
        if (fact.kind == ExpressionKind::no_pressure) { // only a running source speaks against what is seen of it
            engine.charge().none_at(fact.node, event.when);
        }
    }
    tell([&](Listener& listener) { listener.verify(event, verify); });
    bool contents = false;
    for (const ExpressionId piece : pieces) {
        const Expression& fact = engine.system()[piece];
        if (fact.kind == ExpressionKind::holds) { // what is seen of contents tells of contents, not of positions
            engine.saw_holds(fact.chamber, fact.fluid, event.when);
            contents = true;
        } else if (fact.kind == ExpressionKind::empty) {
            engine.saw_empty(fact.chamber, event.when);
            contents = true;
        } else if (fact.kind == ExpressionKind::cool) {
            engine.heat().seen_cool(fact.chamber, event.when);
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
    event.engine.transport().until(event.engine, *until.flow, event.when);
    flow_contents(event, *until.flow);
    event.engine.let_off(until.flow->outlets, event.when);
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
    tell([&](Listener& listener) { listener.pour(event, *pour.statement); });
    Engine& engine = event.engine;
    engine.transport().poured(engine, pour.statement->vessel, pour.statement->into, event.when);
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
void handle(const instants::Bring& bring, Event& event, const Tell& tell, ProcedureReport&) {
    tell([&](Listener& listener) { listener.bring(event, *bring.statement); });
}
template <typename Tell>
void handle(const instants::Watch& watch, Event& event, const Tell& tell, ProcedureReport&) {
    tell([&](Listener& listener) { listener.watch(event, watch); });
}
template <typename Tell>
void handle(const instants::Wait& wait, Event& event, const Tell&, ProcedureReport&) {
    event.engine.heat().wait(wait.time, event.when);
    event.engine.transport().wait(wait.time, event.when);
}
template <typename Tell>
void handle(const instants::RoundEnd& round, Event& event, const Tell& tell, ProcedureReport&) {
    tell([&](Listener& listener) { listener.round_ends(event, round); });
    event.engine.heat().round_ends(round);
    event.engine.transport().inventory().round_ends(round);
}
template <typename Tell>
void handle(const instants::Helper&, Event& event, const Tell& tell, ProcedureReport&) {
    tell([&](Listener& listener) { listener.helper(event); });
}

} // namespace

void follow(const Model& model, const Procedure& procedure, Engine& engine, Findings& findings, bool detail,
            ProcedureReport& report) {
    const instants::Program program = instants::program_from(model.system, procedure, engine.knowledge());
    Coverage coverage(engine, program);
    engine.transport().leave_out(left_out_of_disinfection(model.system, procedure, program));
    std::vector<std::unique_ptr<Obligation>> obligations = all_obligations();
    Recorder recorder(report.steps);
    std::vector<Listener*> listeners;
    for (const auto& obligation : obligations) {
        listeners.push_back(obligation.get());
    }
    Takings takings;
    std::vector<HotMove> hot;
    HotMoves hot_moves(hot);
    if (detail) {
        listeners.push_back(&recorder);
        listeners.push_back(&hot_moves);
        listeners.push_back(&takings);
    }
    Event event{engine, coverage, findings, procedure, program};
    event.span = procedure.span;
    event.model = &model;
    const auto tell = [&](auto&& what) {
        for (Listener* listener : listeners) {
            what(*listener);
        }
    };
    engine.transport().limit_by([&](const DischargeKey& key, Set where) { return coverage.at_most(key, where); });
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
        if (detail) {
            report.hot_moves = std::move(hot);
            report.flows = takings.flow_reports();
            report.supplies = takings.supply_reports(event);
        }
    }
    engine.transport().limit_by({}); // it asks what is gone now
    for (const auto& obligation : obligations) {
        report.obligations.push_back({std::string(obligation->slug()), obligation->asked});
    }
    list_unproved(model.system, procedure, program, report);
}

} // namespace curbstop::proofs
