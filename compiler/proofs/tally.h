// A volume that differs from configuration to configuration, summed up piece by piece.
// Must not know: what is measured.
#pragma once

#include <vector>

#include "instants/diagrams.h"

namespace curbstop::proofs {

class Tally {
  public:
    struct Piece {
        instants::Set where = instants::everything;
        double volume = 0; ///< m3
    };

    /// So much more in the configurations of `where`.
    void add(instants::Diagrams& sets, instants::Set where, double volume);
    /// At least so much there.
    void raise(instants::Diagrams& sets, instants::Set where, double volume);
    /// All that `other` counts in the configurations of `where`.
    void add(instants::Diagrams& sets, instants::Set where, const Tally& other);
    /// The greatest in the configurations of `where`; 0 where there are none.
    double most(instants::Diagrams& sets, instants::Set where) const;
    /// Where it is more than `volume`, by more than what rounding could make.
    instants::Set above(instants::Diagrams& sets, double volume) const;
    /// A partition of everything.
    const std::vector<Piece>& pieces() const { return pieces_; }

  private:
    template <typename How>
    void change(instants::Diagrams& sets, instants::Set where, const How& how);

    std::vector<Piece> pieces_{Piece{}};
};

/// 1 mL: volumes that differ by less are the same.
inline constexpr double same_volume = 1e-6;

} // namespace curbstop::proofs
