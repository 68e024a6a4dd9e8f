// What every pocket may hold, configuration by configuration: each pocket has a few pieces, sets of configurations with
// the same bounds. Where too many would differ they are joined, which is weaker and never wrong.
// Must not know: ways, what runs.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "instants/knowledge.h"
#include "instants/program.h"
#include "proofs/transport/bounds.h"
#include "proofs/transport/circuits.h"
#include "proofs/transport/function_ref.h"
#include "proofs/transport/pockets.h"

namespace curbstop::proofs {

/// What last changed a pocket, for messages and the trace.
enum class CauseKind : std::uint8_t {
    start,   ///< so it stood when the procedure began
    flow,    ///< a discharge passed
    pressed, ///< a source pressed on it
    gravity, ///< something fell through it
    opened,  ///< it stood open
    seen,    ///< a `verify` or `requires`
    swept,   ///< cleared by a flow with an observation
    blown,   ///< blown out
    drained, ///< drained, or drawn empty
    filled,  ///< filled after it had been emptied
    mixed,   ///< so many times its volume has passed
    poured,  ///< a vessel was poured in
};
struct Cause {
    CauseKind kind = CauseKind::start;
    std::uint32_t step = 0; ///< number of the step; 0 before the first
    friend bool operator==(const Cause&, const Cause&) = default;
};

struct Piece {
    instants::Set where = instants::everything;
    Bounds bounds;
    Cause cause;
};

/// Liquids that a pocket may have, by number: more than traces at all, and otherwise than by being squeezed in.
struct Held {
    instants::Set where = instants::everything;
    LiquidSet any = 0, flowed = 0;
    bool full = false; ///< surely no gas; of a chamber: no gas is known of
    double liquid = 1; ///< the greatest part of its volume that is not gas
};

/// How a pocket stood when something began to run through it.
struct Found {
    instants::Set where = instants::everything;
    LiquidSet any = 0;    ///< liquids (by number) of which it may have held more than traces
    bool full = false;    ///< surely no gas; of a chamber: no gas is known of
    bool emptied = false; ///< blown out or drained
    friend bool operator==(const Found&, const Found&) = default;
};

/// Whether all that a pocket may hold is in what is carried already.
bool covers(const Carried& carried, const std::vector<Piece>& pieces);

class Inventory {
  public:
    /// Full of what the circuits say.
    Inventory(const meaning::System& system, const Pockets& pockets, const std::vector<std::vector<Circuit>>& circuits,
              instants::Knowledge& knowledge);

    const std::vector<Piece>& pieces(PocketIndex pocket) const { return pieces_[pocket]; }
    /// What nothing has been joined into yet.
    Carried carries_nothing() const;
    /// All that may be in it in some configuration of `where`; nothing where that is impossible.
    void join_into(Carried& carried, PocketIndex pocket, instants::Set where);
    /// Adds which liquids it may hold in the configurations of `where`.
    void add_held(std::vector<Held>& held, PocketIndex pocket, bool chamber, instants::Set where);
    /// Adds how it stands in the configurations of `where`.
    void add_found(std::vector<Found>& found, PocketIndex pocket, bool chamber, instants::Set where);
    /// Changes the bounds in the configurations of `where`.
    void change(PocketIndex pocket, instants::Set where, Cause cause, FunctionRef<Bounds(const Bounds&)> how);
    /// A flow passes, or something falls through it: flowed_through(), mostly for not the first time.
    void flow_through(PocketIndex pocket, instants::Set where, Cause cause, const Carried& before, bool liquid,
                      bool keeps_gas);
    /// Seen to hold this fluid and nothing else, or to be empty.
    void holds(PocketIndex pocket, std::uint32_t liquid, instants::Set where, Cause cause);
    void empty(PocketIndex pocket, instants::Set where, Cause cause);
    /// Where some bounds for which `test` is true apply, within possible().
    instants::Set where(PocketIndex pocket, FunctionRef<bool(const Bounds&)> test);

    /// So long nothing was done, s: what stands full of a disinfectant comes nearer to being disinfected.
    void stand(double time, FunctionRef<instants::Set(PocketIndex)> where);
    /// Read at an outlet: so much of a disinfectant is in it.
    void read(PocketIndex pocket, std::uint32_t agent, double reading, instants::Set where, Cause cause,
              FunctionRef<void(Bounds&)> besides);
    /// What comes from these pockets counts as clean: whoever leaves a part out of a promise answers for it.
    void vouch_for(std::vector<bool> pockets) { vouched_ = std::move(pockets); }

    /// One more round of a loop is done. One may stop after any of them, so what holds after the last is what may hold
    /// after each.
    void round_ends(const instants::RoundEnd& round);

    /// Another procedure begins with what is there: steps are counted anew.
    void next_procedure();

    const Liquids& liquids() const { return liquids_; }
    /// Every pocket that was changed, one after the other.
    const std::vector<PocketIndex>& changes() const { return changes_; }
    /// Grows with every change.
    std::uint64_t version() const { return version_; }
    /// What it was after this pocket's last change.
    std::uint64_t changed_at(PocketIndex pocket) const { return changed_at_[pocket]; }

  private:
    Bounds at_start(const meaning::System& system, const Pocket& pocket, FluidSet fluids, double least_gas) const;
    void tidy(std::vector<Piece>& pieces);
    void note_change(PocketIndex pocket) {
        changes_.push_back(pocket);
        changed_at_[pocket] = ++version_;
    }
    void change(PocketIndex pocket, instants::Set where, std::optional<Cause> cause,
                FunctionRef<Bounds(const Bounds&)> how, bool notes);

    Liquids liquids_;
    std::vector<double> least_gas_;      ///< of what runs out by itself
    std::vector<bool> by_amounts_;       ///< per pocket: it loses gas by amounts
    std::vector<bool> strength_matters_; ///< per liquid: it freezes by its strength
    instants::Knowledge& knowledge_;
    std::vector<std::vector<Piece>> pieces_;
    std::map<std::uint32_t, std::vector<std::vector<Piece>>> rounds_; // per loop: after any of the rounds so far
    std::vector<PocketIndex> changes_;
    std::vector<std::uint64_t> changed_at_; // per pocket
    std::vector<bool> vouched_;             // per pocket; empty: none
    std::vector<char> has_reading_;         // per pocket: it has had one
    std::vector<PocketIndex> read_;         // these
    std::uint64_t version_ = 1;
};

} // namespace curbstop::proofs
