// What is where after a step, and which step put it there: for authors who ask why a message says what it says.
// Must not know: files, how anything was proved.
#pragma once

#include "meaning/procedure.h"
#include "proofs/report.h"
#include "text/source.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// A step by which something came to stand as it does; number 0 is the start.
struct TraceStep {
    std::uint32_t number = 0;
    std::string title;
    text::Span span{};
};

struct TraceStanding {
    meaning::VariableId variable;
    meaning::ValueSet values = 0;
    bool changed = false; ///< by the step that is asked about
    TraceStep since;      ///< the last step that moved it, or narrowed what is known of it
};

struct Trace {
    const meaning::Model* model = nullptr;
    const meaning::Procedure* procedure = nullptr;
    bool proved = false;
    TraceStep after;
    std::vector<TraceStanding> standing;
    const proofs::StepReport* report = nullptr; ///< null for the start, of which only how things stand is known
    std::vector<meaning::NodeId> pressurised;
    std::vector<std::size_t> contents; ///< indices into report->may_hold
    std::vector<std::size_t> pockets;  ///< indices into report->pockets
};

/// How many steps the report tells of.
[[nodiscard]] std::uint32_t last_step(const proofs::ProcedureReport& report);

/// The state after step `after` (0: before the first), at most last_step(). With `of`, only what has this name, or is
/// part of what has it. `report` is the one of `procedure`, with its steps filled in; all outlive the trace.
[[nodiscard]] Trace make_trace(const meaning::Model& model, const meaning::Procedure& procedure,
                               const proofs::ProcedureReport& report, std::uint32_t after, std::string_view of);

/// Names that `of` may be: parts, covers, ends, vessels, in the order of declaration.
[[nodiscard]] std::vector<std::string> traceable_names(const meaning::System& system);

[[nodiscard]] std::string trace_text(const Trace& trace, const text::SourceSet& sources);
/// `curbstop-trace`. Schema: trace.schema.json.
[[nodiscard]] std::string trace_json(const Trace& trace, const text::SourceSet& sources);

} // namespace curbstop::output
