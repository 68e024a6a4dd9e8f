// Which chambers may be hot, and how long one has waited since they were last heated, per configuration. Time passes by
// `wait` alone: how long other work takes nobody knows. Must not know: what opens or drains a chamber, what is refused.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "instants/knowledge.h"
#include "instants/program.h"
#include "meaning/system.h"

namespace curbstop::proofs {

/// A chamber that something heats. Sets count within what is possible.
struct HeatedChamber {
    meaning::ChamberId chamber;
    std::vector<meaning::SourceId> sources = {};
    instants::Set heated = instants::nothing; ///< a source of it is on
    instants::Set hot = instants::everything; ///< heated, or not cooled down since it was
    /// Seconds waited since it was last heated: a partition of `hot`. Grows with the sums that waits can make.
    std::map<meaning::Rational, instants::Set> waited = {};
};

class Heat {
  public:
    /// At the start whatever can be heated is hot: who knows when it was switched off.
    Heat(const meaning::System& system, instants::Knowledge& knowledge);

    const std::vector<HeatedChamber>& chambers() const { return chambers_; }
    /// Null for a chamber that nothing heats.
    const HeatedChamber* of(meaning::ChamberId chamber) const;
    instants::Set hot(meaning::ChamberId chamber) const;
    instants::Set heated(meaning::ChamberId chamber) const;
    /// Where this heat source is on. What its `while` asks of anything but positions counts as so.
    instants::Set on(meaning::SourceId source);

    /// Things stand otherwise: what is heated now is hot, and no time has passed.
    void moved(meaning::VariableId variable);
    /// How everything stands may have changed.
    void refresh();
    void wait(const meaning::Quantity& time, instants::Set when);
    /// Somebody has felt that it is cool; what is heated at that moment warms up again.
    void seen_cool(meaning::ChamberId chamber, instants::Set where);
    /// So long that all is cool that is not heated.
    void season_passes();
    /// After a loop it is as hot as after any of its rounds, for one may stop after each.
    void round_ends(const instants::RoundEnd& round);

  private:
    void refresh(HeatedChamber& chamber);
    void cool(HeatedChamber& chamber, instants::Set where);
    void join(HeatedChamber& chamber, const HeatedChamber& other);

    const meaning::System& system_;
    instants::Knowledge& knowledge_;
    std::vector<HeatedChamber> chambers_;
    std::vector<std::vector<std::size_t>> by_variable_;          // per variable: indices into chambers_
    std::map<std::uint32_t, std::vector<HeatedChamber>> rounds_; // per loop: the rounds that have ended, joined
};

} // namespace curbstop::proofs
