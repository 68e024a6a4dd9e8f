// A procedure as the operator does it: stages, steps and statements, loops and fragments written out, every name
// resolved against the system. Must not know: syntax, proofs, output.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "meaning/ids.h"
#include "meaning/quantity.h"
#include "meaning/system.h"

namespace curbstop::meaning {

enum class ObservationKind : std::uint8_t { stops, only_air, shows, clear, full, holds_pressure, reads_at_least };
struct Observation {
    ObservationKind kind = ObservationKind::stops;
    FluidId fluid;                 ///< of shows
    std::optional<Quantity> least; ///< of reads_at_least
    Text words;                    ///< the owner's
    text::Span span{};
};

/// One thing that a flow comes from: a supply, chambers, or both.
struct FlowOrigin {
    Text label;
    std::vector<ChamberId> chambers;
    std::vector<SourceId> supplies;
    bool pipes = false;
    ExpressionId exists = Expressions::always();
};

/// A flow or drain that is meant. Origins are chambers and supplies; `pipes` of a drain is flagged.
struct Flow {
    bool gravity = false; ///< drain
    bool pipes = false;
    std::vector<ChamberId> chambers; ///< origins that hold fluid
    std::vector<SourceId> supplies;  ///< origins from outside
    std::vector<OutletId> outlets;
    std::vector<FlowOrigin> origins; ///< per thing named: what it is
    std::vector<Text> origin_labels; ///< as the owner reads them, in order
    std::vector<Text> outlet_labels;
    std::vector<std::vector<OutletId>> outlet_groups;   ///< per thing named after `to`: its outlets
    std::vector<ExpressionId> outlet_exists;            ///< per group: what was named is there
    ExpressionId origin_exists = Expressions::always(); ///< some origin is there
    ExpressionId parts_exist = Expressions::always();   ///< some origin and something named after `to` are there
    std::optional<Observation> until;
    std::optional<Quantity> at_least, at_most;
    std::optional<Quantity> rate; ///< that the operator holds it to, where it could run faster
    PartId seen_at;
    text::Span span{};
};

struct Statement;
using Statements = std::vector<Statement>;

/// One thing put into one value. `was_named` is what the author wrote, for messages.
struct Setting {
    VariableId variable;
    std::uint32_t value = 0;
    text::Span span{};
};

struct SetStatement {
    std::vector<Setting> settings;
};
struct HoldStatement {
    Setting setting;
    Statements body;
};
struct CoupleStatement {
    VariableId a, b;
    std::uint32_t a_value, b_value;
};
struct UncoupleStatement {
    VariableId end;
}; ///< and whatever it is coupled to
struct CapStatement {
    VariableId end;
    bool cap = true;
};
struct DipStatement {
    VariableId end;
    std::uint32_t value;
    ChamberId vessel;
};
struct LiftOutStatement {
    VariableId end;
};
struct PlaceStatement {
    VariableId vessel;
    std::uint32_t value;
    ChamberId chamber;
    NodeId under;
};
struct TakeAwayStatement {
    VariableId vessel;
    ChamberId chamber;
};
struct VerifyStatement {
    ExpressionId expression;
    std::string words;
    std::vector<VariableId> looked_at;
};
struct FlowStatement {
    Flow flow;
}; ///< flow and drain
struct KeepStatement {
    Flow flow;
};
struct PressuriseStatement {
    std::vector<SourceId> supplies;
    std::vector<ChamberId> chambers;
    std::vector<Text> labels;
    std::optional<Observation> until;
    std::optional<Quantity> at_most;
};
struct PourStatement {
    ChamberId vessel;
    NodeId into;
    Text into_label;
    std::optional<Quantity> dose; ///< of a disinfectant: the concentration that it is to bring the chamber to
};
struct RepeatStatement {
    std::optional<Observation> until;
    std::uint32_t at_most = 1;
    Statements body;
};
struct WatchStatement {
    Text words;
    ZoneId zone;
    PartId part;
};
struct HelperStatement {
    Text words;
};
struct WaitStatement {
    Quantity time;
};
struct WearStatement {
    std::vector<Text> items;
};
struct BringStatement {
    Text item;
    FluidId fluid;
    std::optional<Quantity> amount;
};
/// What is written down: something measured, a day, or the time of a day.
enum class RecordKind : std::uint8_t { measured, date, clock };

struct RecordStatement {
    Text words;
    Dimension dimension = Dimension::count;
    RecordKind kind = RecordKind::measured;
    std::optional<Unit> unit = {}; ///< that it is written down in, where the author says so
    std::optional<Quantity> at_least,
        at_most; ///< a reading beyond them must not pass unnoticed; only of what is measured
};
struct NoteStatement {
    Text text;
};
struct PhotoStatement {
    PhotoId photo;
};
struct SignalStatement {
    Signal signal;
    Text text;
};
struct ContractStatement {
    bool requires_ = true;
    ExpressionId expression;
    std::string words;
};
struct ConditionalStatement {
    ExpressionId condition;
    std::string words;
    Statements body;
}; ///< only with, without
struct InCaseStatement {
    Text words;
    BranchId branch;
    Statements body;
};

struct Statement {
    std::variant<SetStatement, HoldStatement, CoupleStatement, UncoupleStatement, CapStatement, DipStatement,
                 LiftOutStatement, PlaceStatement, TakeAwayStatement, VerifyStatement, FlowStatement, KeepStatement,
                 PressuriseStatement, PourStatement, RepeatStatement, WatchStatement, HelperStatement, WaitStatement,
                 WearStatement, BringStatement, RecordStatement, NoteStatement, PhotoStatement, SignalStatement,
                 ContractStatement, ConditionalStatement, InCaseStatement>
        what;
    text::Span span{};
    ExpressionId exists = Expressions::always(); ///< the parts it acts on are there
};

struct Step {
    Text title;
    Statements statements;
    text::Span span{};
};

struct StageItem;
using StageItems = std::vector<StageItem>;
struct ConditionalSteps {
    ExpressionId condition;
    std::string words;
    StageItems items;
};
struct InCaseSteps {
    Text words;
    BranchId branch;
    StageItems items;
};
struct RepeatSteps {
    std::optional<Observation> until;
    std::uint32_t at_most = 1;
    StageItems items;
};
struct MeanwhileSteps {
    Flow flow;
    StageItems items;
};
struct StageItem {
    std::variant<Step, ConditionalSteps, InCaseSteps, RepeatSteps, MeanwhileSteps> what;
    text::Span span{};
};

struct Contract {
    ExpressionId expression;
    std::string words; ///< as written
    text::Span span{};
};

struct Stage {
    Text label;
    std::vector<Contract> requires_, ensures;
    StageItems items;
    text::Span span{};
};

struct Procedure : Named {
    std::vector<Contract> requires_, ensures;
    std::optional<ProcedureId> as_left_by; ///< `requires as P leaves it`
    text::Span as_left_span{};
    std::vector<Stage> stages;
    std::uint32_t branches = 0; ///< how many `in case` it has, numbered from 0
};

/// All that one root file declares about one system.
struct Season : Named {
    ProcedureId first, second;
    std::vector<Contract> ensures;
};
struct Model {
    System system;
    std::vector<Procedure> procedures; ///< in order of declaration
    std::vector<Season> seasons;
};

} // namespace curbstop::meaning
