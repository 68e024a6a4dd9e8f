// The pockets of a system: everything that can hold liquid, and how much.
// Must not know: how anything stands, what runs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "meaning/system.h"
#include "proofs/contents.h"

namespace curbstop::proofs {

enum class PocketKind : std::uint8_t { run, chamber, body, vessel };

using PocketIndex = std::uint32_t;
inline constexpr PocketIndex no_pocket = UINT32_MAX;

struct Pocket {
    PocketKind kind = PocketKind::run;
    std::uint32_t index = 0;      ///< of the run, chamber or part
    std::optional<double> volume; ///< m3
    std::string label;
    meaning::PartId part; ///< of a chamber or body
    meaning::ExpressionId exists = meaning::Expressions::always();
    bool stores = false;   ///< a bladder: pushes out what it holds once the pressure is off
    bool runs_out = false; ///< never stands full: a run or basin that is open above and falls into a vented chamber
    bool vented = false;   ///< a chamber that always stands open to the air, or a vessel
    /// Ends of a part that is nothing but ends: it is judged where one is coupled.
    std::vector<meaning::VariableId> loose = {};

    /// What comes into it rises in it by amounts, and what rises too far runs over.
    bool is_open_above() const { return vented || kind == PocketKind::vessel; }
};

class Pockets {
  public:
    explicit Pockets(const meaning::System& system);

    const Pocket& operator[](PocketIndex pocket) const { return pockets_[pocket]; }
    PocketIndex size() const { return static_cast<PocketIndex>(pockets_.size()); }
    PocketIndex of_run(std::uint32_t run) const { return run; }
    PocketIndex of_chamber(meaning::ChamberId chamber) const { return of_chamber_[chamber.value]; }
    /// none where the part has no body.
    PocketIndex of_body(meaning::PartId part) const { return of_body_[part.value]; }

  private:
    void find_runs_out(const meaning::System& system);

    std::vector<Pocket> pockets_; // runs first
    std::vector<PocketIndex> of_chamber_, of_body_;
};

/// Volume of a pipe, m3: pi/4 x bore^2 x length, both in m.
double pipe_volume(double bore, double length);

} // namespace curbstop::proofs
