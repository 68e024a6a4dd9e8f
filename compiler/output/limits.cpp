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
constexpr std::array<std::string_view, 13> promises{
    "nothing runs out under pressure but what a step names",
    "whatever a step lets run or drain has a way open for it",
    "no pump runs dry or against shut valves",
    "no part meets more pressure from a source than it is rated for",
    "nothing is heated without liquid in it",
    "nothing hot is opened or drained before its cooling time is over",
    "nothing is opened, uncoupled or uncapped that a source presses on or whose pressure has not been let off",
    "nothing is moved or opened in a state in which its maker's rule forbids it",
    "nothing behind a cover is worked while the cover is shut",
    "nothing is let or poured into a vessel, a place or onto the ground that does not accept it",
    "no vessel and no open tank is brought more than it has room for",
    "what is listed to be brought covers what the steps take, if nothing is spilt",
    "nothing harmful is pushed, or runs, back into a supply of drinking water",
};

constexpr std::array<std::string_view, 6> limits{
    "that nothing freezes or that the water is fit to drink or the pipes disinfected, where the procedure does not "
    "promise it",
    "that air in a pipe stays where it was blown, or that a pipe below a tank stays empty when the tank is filled",
    "that a strip is read rightly, or how much of the chlorine is used up while it stands: measure again after the "
    "contact time",
    "that the cooling time of a kind is long enough, or how hot what runs from a tap is",
    "how long a step takes, how much is spilt, and how much squeezes into dead ends",
    "that nothing is sucked back when the mains fail, or that a backflow device works: have it tested",
};

} // namespace

bool is_proved(const meaning::System& system, meaning::ExpressionId expression) {
    const meaning::Expression& e = system[expression];
    return is_proved_kind(e.kind) &&
           std::all_of(e.operands.begin(), e.operands.end(), [&](auto operand) { return is_proved(system, operand); });
}

std::span<const std::string_view> always_proved() {
    return promises;
}

std::span<const std::string_view> never_proved() {
    return limits;
}

std::string_view replaces_nothing() {
    return "This sheet does not replace the maker's manual, a licensed plumber or gas fitter, or local codes. Where "
           "they "
           "say otherwise, they are right.";
}

} // namespace curbstop::output
