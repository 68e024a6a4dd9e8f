#include "proofs/proof.h"

#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

void conjuncts(const System& system, ExpressionId expression, std::vector<ExpressionId>& pieces) {
    if (system[expression].kind == ExpressionKind::all) {
        for (const ExpressionId operand : system[expression].operands) {
            conjuncts(system, operand, pieces);
        }
    } else {
        pieces.push_back(expression);
    }
}

// At present every claim of the language is proved.
bool is_unproved(const System& system, ExpressionId expression) {
    return std::ranges::any_of(system[expression].operands,
                               [&](ExpressionId operand) { return is_unproved(system, operand); });
}

ProcedureReport Proof::run(const Procedure& procedure, Findings& findings, bool detail) {
    ProcedureReport report;
    report.procedure = &procedure;
    const std::size_t errors_before = findings.errors();
    if (start(procedure, findings)) {
        follow(model_, procedure, *engine_, findings, detail, report);
    }
    left_by_ = &procedure;
    report.configurations_log2 = knowledge_.start_bits();
    report.proved = findings.errors() == errors_before;
    return report;
}

void Proof::store() {
    for (const PartId part : model_.system.may_move_while_stored) {
        engine_->forget(model_.system[part].variable);
    }
}

bool Proof::start(const Procedure& procedure, Findings& findings) {
    const System& system = model_.system;
    if (procedure.as_left_by) {
        const Procedure& other = model_.procedures[procedure.as_left_by->value];
        if (left_by_ != &other) {
            text::DiagnosticSink unheard;
            Findings apart(unheard, false); // what is wrong with the other procedure is said where it is proved
            run(other, apart, false);
        }
        if (!engine_) {
            return false;
        }
        store();
        engine_->charge().next_procedure();
        engine_->transport().inventory().next_procedure();
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
            if ((!always_there && variable.kind == VariableKind::end) || !knowledge_.pin(fact.variable, fact.values)) {
                if (always_there) {
                    return never(contract, fmt::format("`{}` is asked to stand in two ways at once", variable.label));
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
    // What chambers hold and how hot they are comes first: until all of it is known, nothing may run from one into
    // another.
    const auto of_contents = [&](const Piece& piece) {
        const ExpressionKind kind = system[piece.expression].kind;
        return kind == ExpressionKind::holds || kind == ExpressionKind::empty || kind == ExpressionKind::cool;
    };
    for (const Piece& piece : rest) {
        const Expression& fact = system[piece.expression];
        if (fact.kind == ExpressionKind::holds) {
            engine_->saw_holds(fact.chamber, fact.fluid, everything);
        } else if (fact.kind == ExpressionKind::empty) {
            engine_->saw_empty(fact.chamber, everything);
        } else if (fact.kind == ExpressionKind::cool) {
            engine_->heat().seen_cool(fact.chamber, everything);
        } else if (fact.kind == ExpressionKind::no_pressure) {
            engine_->charge().none_at(fact.node, everything);
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
    for (const Piece& piece : rest) {
        const bool may_be = system[piece.expression].kind != ExpressionKind::cool ||
                            !engine_->diagrams().disjoint(engine_->plausible(piece.expression), engine_->possible());
        if (!may_be) {
            return never(*piece.contract, "what heats it is on in every configuration");
        }
    }
    engine_->begin();
    return true;
}

} // namespace curbstop::proofs
