// unused-part (warning). Claim: of every part that can be moved some procedure, line-up or fragment speaks. Asked once
// of the whole system, not of a procedure.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using namespace meaning;

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

} // namespace curbstop::proofs
