// What is known at an instant: the configurations the system may be in, written as functions of how everything stood at
// the start, which options were taken and which cases came up. Moves change the functions, `verify` narrows the set.
// Must not know: ways, pressure, fluids.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "instants/diagrams.h"
#include "meaning/procedure.h"
#include "meaning/system.h"

namespace curbstop::instants {

/// How one variable stands: in one value everywhere, or in each value on its own set of configurations.
struct Standing {
    static constexpr std::uint32_t varies = UINT32_MAX;
    std::uint32_t value = varies;
    std::vector<Set> per_value; ///< a partition of everything; empty unless `varies`
    bool moved = false;         ///< since the start
};

/// Decides what an expression says about pressure and contents; only such expressions are handed to it.
using Facts = std::function<Set(const meaning::Expression&)>;

/// One configuration that is possible, for a message: values of the variables that matter to it.
struct Example {
    std::vector<std::pair<meaning::OptionId, bool>> options;
    std::vector<std::pair<meaning::VariableId, std::uint32_t>> unknowns; ///< values at the start
};

class Knowledge {
  public:
    Knowledge(const meaning::System& system, std::size_t node_budget);

    /// Limits the values a variable may start in. Only before settle(). False, and nothing
    /// is limited, if none would be left.
    bool pin(meaning::VariableId variable, meaning::ValueSet values);
    /// Gives each variable that still may start in several ways its levels, and matches ends. False if some variable
    /// has no value left.
    bool settle();

    Diagrams& diagrams() { return diagrams_; }
    /// The possible configurations.
    Set possible() const { return possible_; }
    /// Keeps those in `set`.
    void narrow(Set set) { possible_ = diagrams_.both(possible_, set); }

    const Standing& standing(meaning::VariableId variable) const { return standing_[variable.value]; }
    /// Where the variable stands in one of `values`, whether or not it is there.
    Set stands(meaning::VariableId variable, meaning::ValueSet values);
    /// The values it may have in some possible configuration.
    meaning::ValueSet possible_values(meaning::VariableId variable);
    /// Puts the variable into `value` in the configurations of `where`.
    void put(meaning::VariableId variable, std::uint32_t value, Set where);
    /// Forgets how a variable stands: it may have any value from here on, with levels of its own.
    void forget(meaning::VariableId variable);

    /// A fresh yes or no.
    Set fresh();
    Set option(meaning::OptionId option) const { return options_[option.value]; }
    /// Where the expression is true; a variable that is not there counts as standing any way one asks.
    Set truth(meaning::ExpressionId expression, const Facts& facts);
    /// Of an expression about positions, options and nothing else.
    Set truth(meaning::ExpressionId expression);
    /// Sets which fresh level each branch stands for.
    void bind_branch(meaning::BranchId branch, Set set);

    /// One configuration of `set`: what about it matters to being in `set`.
    Example example(Set set);
    /// The same configuration in full, for Diagrams::contains.
    std::vector<bool> assignment(Set set) const;
    /// How the variable stands in a full configuration.
    std::uint32_t value_in(meaning::VariableId variable, const std::vector<bool>& assignment) const;
    /// The variables that could stand in several ways at the start and have not been moved since.
    const std::vector<meaning::VariableId>& unknown_at_start() const { return unknown_; }
    /// Per level: whether it says how something stood at the start.
    std::vector<bool> start_levels() const;
    /// Upper bound of the number of start configurations, as a power of two.
    std::uint32_t start_bits() const { return start_bits_; }

  private:
    void match_ends();

    const meaning::System& system_;
    Diagrams diagrams_;
    Set possible_ = everything;
    std::vector<meaning::ValueSet> pinned_;
    std::vector<Standing> standing_;
    std::vector<std::vector<Set>> at_start_; // per variable: its values at the start; empty where it was known
    std::vector<Set> options_;
    std::vector<Set> branches_;
    std::vector<meaning::VariableId> unknown_;
    std::vector<bool> is_start_level_;
    std::uint32_t start_bits_ = 0;
};

} // namespace curbstop::instants
