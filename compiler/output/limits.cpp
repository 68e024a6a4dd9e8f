#include "output/limits.h"

#include <algorithm>
#include <array>

namespace curbstop::output {
namespace {

bool is_proved_kind(meaning::ExpressionKind kind) {
    using enum meaning::ExpressionKind;
    switch (kind) {
    case always:
    case never:
    case all:
    case any:
    case negation:
    case stands:
    case option:
    case branch:
    case no_pressure:
    case pressure_below:
    case holds:
    case empty:
    case reaches_liquid:
    case cool:
    case frost_safe:
    case drinkable:
    case sanitised:
    case restored:
        return true;
    }
    return false;
}

// The obligations of reference/proofs.md in the reader's words.
constexpr std::array promises{
    Saying::promise_runs_out, Saying::promise_way_open, Saying::promise_pumps,    Saying::promise_rated,
    Saying::promise_dry_fire, Saying::promise_hot,      Saying::promise_pressure, Saying::promise_guards,
    Saying::promise_covers,   Saying::promise_places,   Saying::promise_room,     Saying::promise_supply,
    Saying::promise_backflow,
};

constexpr std::array limits{
    Saying::limit_promises, Saying::limit_air,     Saying::limit_strips,
    Saying::limit_heat,     Saying::limit_amounts, Saying::limit_backflow,
};

template <std::size_t Count>
std::vector<std::string> texts(const std::array<Saying, Count>& sayings, const Tongue& tongue) {
    std::vector<std::string> result;
    for (const Saying each : sayings) {
        result.push_back(tongue.text(each));
    }
    return result;
}

} // namespace

bool is_proved(const meaning::System& system, meaning::ExpressionId expression) {
    const meaning::Expression& e = system[expression];
    return is_proved_kind(e.kind) &&
           std::all_of(e.operands.begin(), e.operands.end(), [&](auto operand) { return is_proved(system, operand); });
}

std::vector<std::string> always_proved(const Tongue& tongue) {
    return texts(promises, tongue);
}

std::vector<std::string> never_proved(const Tongue& tongue) {
    return texts(limits, tongue);
}

} // namespace curbstop::output
