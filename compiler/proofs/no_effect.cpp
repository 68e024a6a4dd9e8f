// no-effect (warning). Claim: each statement that moves something changes how it stands, and each vessel that is poured
// may hold something, in some configuration and some turn of its loop.
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

namespace {

class NoEffect : public Obligation {
  public:
    std::string_view slug() const override { return "no-effect"; }

    void before_move(Event& event, const instants::Move& move) override {
        ++asked;
        auto [place, is_new] = statements_.try_emplace(event.span);
        Statement& statement = place->second;
        if (statement.changes || move.kind == instants::MoveKind::release) {
            return;
        }
        const System& system = event.engine.system();
        for (const Setting& setting : move.settings) {
            const ValueSet already = takes_apart(move.kind) ? ~together(system, move) : ValueSet{1} << setting.value;
            statement.changes =
                statement.changes ||
                !event.diagrams().within(event.here(), event.engine.knowledge().stands(setting.variable, already));
        }
        if (is_new) {
            const Variable& variable = system[move.settings.front().variable];
            statement.what = fmt::format("`{}` stands {} already", variable.label,
                                         variable.values[move.settings.front().value].label);
        }
    }

    void pour(Event& event, const PourStatement& pour) override {
        ++asked;
        Statement& statement = statements_[event.span];
        Transport& transport = event.engine.transport();
        const Set held = transport.inventory().where(transport.pockets().of_chamber(pour.vessel),
                                                     [](const Bounds& bounds) { return bounds.gas.part < 1; });
        statement.changes = statement.changes || !event.diagrams().disjoint(event.here(), held);
        statement.what = fmt::format("`{}` is empty", event.engine.system()[pour.vessel].label);
    }

    void end(Event& event) override {
        for (const auto& [span, statement] : statements_) {
            if (!statement.changes) {
                event.findings.add({.slug = slug(),
                                    .severity = text::Severity::warning,
                                    .span = span,
                                    .message = fmt::format("this changes nothing: {}", statement.what),
                                    .remedies = {"leave it out, or use `verify` if it is meant as a check"}});
            }
        }
    }

  private:
    struct Statement {
        bool changes = false;
        std::string what = {};
    };
    std::map<text::Span, Statement> statements_;
};

} // namespace

std::unique_ptr<Obligation> no_effect() {
    return std::make_unique<NoEffect>();
}

} // namespace curbstop::proofs
