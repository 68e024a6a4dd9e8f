#include "proofs/tally.h"

#include <algorithm>

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

/// So many different volumes are told apart; beyond, the two nearest count as the greater of them.
constexpr std::size_t most_pieces = 64;

} // namespace

template <typename How>
void Tally::change(instants::Diagrams& sets, Set where, const How& how) {
    const std::size_t count = pieces_.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Set inside = sets.both(pieces_[i].where, where);
        const double volume = how(pieces_[i].volume);
        if (inside == nothing || volume == pieces_[i].volume) {
            continue;
        }
        if (inside == pieces_[i].where) {
            pieces_[i].volume = volume;
        } else {
            pieces_[i].where = sets.without(pieces_[i].where, inside);
            pieces_.push_back({inside, volume});
        }
    }
    std::ranges::sort(pieces_, {}, &Piece::volume);
    const auto join = [&](std::size_t i) {
        pieces_[i + 1].where = sets.either(pieces_[i].where, pieces_[i + 1].where);
        pieces_.erase(pieces_.begin() + static_cast<std::ptrdiff_t>(i));
    };
    for (std::size_t i = 0; i + 1 < pieces_.size();) {
        pieces_[i + 1].volume - pieces_[i].volume < 1e-12 ? join(i) : void(++i);
    }
    while (pieces_.size() > most_pieces) {
        std::size_t nearest = 0;
        for (std::size_t i = 1; i + 1 < pieces_.size(); ++i) {
            const double gap = pieces_[i + 1].volume - pieces_[i].volume;
            nearest = gap < pieces_[nearest + 1].volume - pieces_[nearest].volume ? i : nearest;
        }
        join(nearest);
    }
}

void Tally::add(instants::Diagrams& sets, Set where, double volume) {
    change(sets, where, [&](double known) { return known + volume; });
}

void Tally::raise(instants::Diagrams& sets, Set where, double volume) {
    change(sets, where, [&](double known) { return std::max(known, volume); });
}

void Tally::add(instants::Diagrams& sets, Set where, const Tally& other) {
    for (const Piece& piece : other.pieces_) {
        add(sets, sets.both(where, piece.where), piece.volume);
    }
}

double Tally::most(instants::Diagrams& sets, Set where) const {
    double most = 0;
    for (const Piece& piece : pieces_) {
        most = sets.disjoint(piece.where, where) ? most : std::max(most, piece.volume);
    }
    return most;
}

Set Tally::above(instants::Diagrams& sets, double volume) const {
    Set found = nothing;
    for (const Piece& piece : pieces_) {
        found = piece.volume > volume + same_volume ? sets.either(found, piece.where) : found;
    }
    return found;
}

} // namespace curbstop::proofs
