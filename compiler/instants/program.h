// A procedure as one straight line of operations: what happens one after the other, in which configurations. Loops are
// run through as often as proofs.md says, cases are conditions. The instants are the start and the moments after moves.
// Must not know: ways, pressure, how anything is proved.
#pragma once

#include <variant>
#include <vector>

#include "instants/knowledge.h"
#include "meaning/procedure.h"

namespace curbstop::instants {

enum class MoveKind : std::uint8_t { set, hold, release, couple, uncouple, cap, uncap, dip, lift_out, place, take };

/// One move of the operator. What it changes: `settings`, and for uncouple whatever the end was coupled to.
struct Move {
    MoveKind kind = MoveKind::set;
    std::vector<meaning::Setting> settings;
};

struct StepBegin {
    const meaning::Step* step = nullptr;
    std::uint32_t number = 0;
    std::uint32_t stage = 0;
};
struct StepEnd {
    bool last = false; ///< of the procedure
};
struct Verify {
    const meaning::VerifyStatement* statement = nullptr;
};
enum class ContractKind : std::uint8_t { requires_, ensures };
struct Check {
    ContractKind kind = ContractKind::requires_;
    meaning::ExpressionId expression;
    const std::string* words = nullptr;
};
/// The `until` of a flow or drain.
struct Until {
    const meaning::Flow* flow = nullptr;
};
struct Keep {
    const meaning::Flow* flow = nullptr;
};
struct MeanwhileBegin {
    const meaning::Flow* flow = nullptr;
};
struct Pressurise {
    const meaning::PressuriseStatement* statement = nullptr;
};
struct Pour {
    const meaning::PourStatement* statement = nullptr;
};
struct Bring {
    const meaning::BringStatement* statement = nullptr;
};
struct Watch {
    const meaning::WatchStatement* statement = nullptr;
};
struct Helper {};
struct Wait {
    meaning::Quantity time;
};
/// One more round of a `repeat` is done; one may stop after any of them.
struct RoundEnd {
    std::uint32_t repeat = 0; ///< numbers the loops: the same for all rounds of one
    bool first = false;
    bool last = false;      ///< of those that are followed
    bool more = false;      ///< further rounds may come that are not followed
    std::uint32_t left = 0; ///< so many
};

struct Operation {
    std::variant<StepBegin, StepEnd, Move, Verify, Check, Until, Keep, MeanwhileBegin, Pressurise, Pour, Bring, Watch,
                 Helper, Wait, RoundEnd>
        what;
    Set when = everything; ///< the configurations in which it happens
    text::Span span{};
};

struct Program {
    std::vector<Operation> operations;
    std::uint32_t steps = 0;
};

/// Writes the procedure out as a line. `knowledge` gives the conditions their sets and the cases their fresh levels.
Program program_from(const meaning::System& system, const meaning::Procedure& procedure, Knowledge& knowledge);

} // namespace curbstop::instants
