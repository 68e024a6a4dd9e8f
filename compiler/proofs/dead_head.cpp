// dead-head. Claim: a lifting part without its own pressure switch never runs against a shut line: while it is on, some
// outlet is open to it. Judged where it is new.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

class DeadHead : public NewlyWrong {
  public:
    std::string_view slug() const override { return "dead-head"; }

  private:
    Set wrong(Event& event, const SourceState& source) override {
        if (!source.draw || event.engine.system()[source.id].own_switch || !source.possibly_on) {
            return nothing;
        }
        return event.diagrams().without(source.on, event.engine.has_outlet(source));
    }
    void tell(Event& event, const SourceState& source, Set fresh) override {
        const meaning::System& system = event.engine.system();
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` runs against a shut line here", system[source.id].label);
        finding.notes.emplace_back("it has no pressure switch of its own");
        add_circumstances(event, fresh, finding);
        finding.remedies.emplace_back(
            "open what it pumps to before it is switched on, and switch it off before that is shut");
        add_or_ask(event.engine, event.findings, fresh, std::move(finding));
    }
};

} // namespace

std::unique_ptr<Obligation> dead_head() {
    return std::make_unique<DeadHead>();
}

} // namespace curbstop::proofs
