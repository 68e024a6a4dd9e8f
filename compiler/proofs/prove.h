// Proves a procedure, or says why not. The one entry to the folder.
// Must not know: syntax, output.
#pragma once

#include "meaning/procedure.h"
#include "proofs/report.h"
#include "text/diagnostic.h"

namespace curbstop::proofs {

/// What one proof may spend before it answers "not decided": nodes of decision diagrams, 16 bytes each.
inline constexpr std::size_t default_node_budget = 4'000'000;

struct Settings {
    bool detail = false; ///< fill ProcedureReport::steps
    std::size_t node_budget = default_node_budget;
};

/// One report per procedure of the model, in its order. Findings go to `sink`.
std::vector<ProcedureReport> prove(const meaning::Model& model, text::DiagnosticSink& sink, const Settings& settings);

} // namespace curbstop::proofs
