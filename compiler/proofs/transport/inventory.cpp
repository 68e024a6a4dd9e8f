#include "proofs/transport/inventory.h"

#include <algorithm>

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// Sorted into pieces by all of its bounds, a pocket may have too many: hygiene goes first.
bool same_but_for_hygiene(const Bounds& a, Bounds b) {
    b.hygiene = a.hygiene;
    return a == b;
}

/// So many pieces a pocket may have; more are joined into one.
constexpr std::size_t most_pieces = 12;

} // namespace

Inventory::Inventory(const System& system, const Pockets& pockets, const std::vector<std::vector<Circuit>>& circuits,
                     instants::Knowledge& knowledge)
    : liquids_(system)
    , knowledge_(knowledge) {
    for (std::uint32_t liquid = 0; liquid < liquids_.dirt(); ++liquid) {
        strength_matters_.push_back(!system[liquids_.fluid(liquid)].strengths.empty());
    }
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        const Pocket& pocket = pockets[i];
        least_gas_.push_back(!pocket.runs_out                     ? 0
                             : pocket.kind == PocketKind::chamber ? gas_in_emptied_chamber
                                                                  : gas_after_emptying);
        by_amounts_.push_back(pocket.is_open_above());
        std::vector<Piece>& pieces = pieces_.emplace_back();
        if (pocket.kind == PocketKind::vessel) {
            const FluidId own = system.chambers[pocket.index].fluid;
            const FluidSet fluids = own.valid() && !system[own].gas ? fluid_bit(own) : 0;
            pieces.push_back({everything, at_start(system, pocket, fluids, least_gas_.back()), {}});
        }
        for (const Circuit& circuit : circuits[i]) {
            pieces.push_back({circuit.where, at_start(system, pocket, circuit.fluids, least_gas_.back()), {}});
        }
        tidy(pieces);
    }
    has_reading_.assign(pockets.size(), 0);
    changed_at_.assign(pockets.size(), version_);
}

Bounds Inventory::at_start(const System& system, const Pocket& pocket, FluidSet fluids, double least_gas) const {
    Bounds bounds;
    bounds.most.assign(liquids_.count(), 0);
    bounds.least.assign(liquids_.count(), 0);
    for (std::uint32_t liquid = 0; liquid < liquids_.dirt(); ++liquid) {
        bounds.most[liquid] = (fluids & fluid_bit(liquids_.fluid(liquid))) != 0 ? 1 : 0;
        // Of what was there before nobody knows how strong it is; of a vessel it is said.
        const bool known = pocket.kind == PocketKind::vessel || !strength_matters_[liquid];
        bounds.least[liquid] = known && fluids == fluid_bit(liquids_.fluid(liquid)) ? 1 : 0;
    }
    bounds.gas.part = fluids == 0 ? 1 : 0;
    bounds.full = fluids != 0 && pocket.kind != PocketKind::chamber;
    if (pocket.runs_out) {
        bounds.gas.part = least_gas;
        bounds.full = false;
    }
    bounds.hygiene.stale = 1 - bounds.gas.part;
    if (pocket.kind == PocketKind::vessel) {
        // What was filled elsewhere is as clean as a supply.
        const Chamber& vessel = system.chambers[pocket.index];
        bounds.hygiene.clean = !vessel.fluid.valid() || is_clean(system, vessel.fluid);
    }
    return bounds;
}

bool covers(const Carried& carried, const std::vector<Piece>& pieces) {
    return std::ranges::all_of(pieces, [&](const Piece& piece) {
        const Bounds& bounds = piece.bounds;
        if (!carried.gas.allows(bounds.gas) || (carried.full && !bounds.full)) {
            return false;
        }
        if (!covers(carried.hygiene, bounds.hygiene)) {
            return false;
        }
        for (std::size_t i = 0; i < bounds.most.size(); ++i) {
            if (bounds.most[i] > carried.most[i] || bounds.least[i] < carried.least[i]) {
                return false;
            }
        }
        return true;
    });
}

Carried Inventory::carries_nothing() const {
    Carried nothing_yet;
    nothing_yet.most.assign(liquids_.count(), 0);
    nothing_yet.least.assign(liquids_.count(), 1);
    return nothing_yet;
}

void Inventory::join_into(Carried& carried, PocketIndex pocket, Set where) {
    const Set possible = knowledge_.diagrams().both(where, knowledge_.possible());
    for (const Piece& piece : pieces_[pocket]) {
        if (pieces_[pocket].size() == 1 || !knowledge_.diagrams().disjoint(piece.where, possible)) {
            const bool clean = carried.hygiene.clean;
            carried.join(piece.bounds);
            if (!vouched_.empty() && vouched_[pocket]) {
                carried.hygiene.clean = clean;
            }
        }
    }
}

void Inventory::add_held(std::vector<Held>& held, PocketIndex pocket, bool chamber, Set where) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const Piece& piece : pieces_[pocket]) {
        const Set inside = pieces_[pocket].size() == 1 ? where : sets.both(piece.where, where);
        if (sets.disjoint(inside, knowledge_.possible())) {
            continue;
        }
        Held one{inside, piece.bounds.more_than_traces()};
        one.full = chamber ? piece.bounds.gas.part == 0 : piece.bounds.full;
        one.liquid = 1 - piece.bounds.gas.now();
        for (std::uint32_t i = 0; i < liquids_.count(); ++i) {
            one.flowed |= piece.bounds.had(i) ? LiquidSet{1} << i : 0;
        }
        const auto same = std::ranges::find_if(held, [&](const Held& known) {
            return known.any == one.any && known.flowed == one.flowed && known.full == one.full;
        });
        if (same != held.end()) {
            same->where = sets.either(same->where, inside);
            same->liquid = std::max(same->liquid, one.liquid);
        } else {
            held.push_back(one);
        }
    }
}

void Inventory::add_found(std::vector<Found>& found, PocketIndex pocket, bool chamber, Set where) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const Piece& piece : pieces_[pocket]) {
        Found one{pieces_[pocket].size() == 1 ? where : sets.both(piece.where, where)};
        if (sets.disjoint(one.where, knowledge_.possible())) {
            continue;
        }
        one.any = piece.bounds.more_than_traces();
        one.full = chamber ? piece.bounds.gas.part == 0 : piece.bounds.full;
        one.emptied = piece.bounds.gas.part >= gas_after_emptying;
        found.push_back(one);
    }
}

void Inventory::change(PocketIndex pocket, Set where, Cause cause, FunctionRef<Bounds(const Bounds&)> how) {
    change(pocket, where, cause, how, true);
}

void Inventory::flow_through(PocketIndex pocket, Set where, Cause cause, const Carried& before, bool liquid,
                             bool keeps_gas) {
    if (std::ranges::all_of(pieces_[pocket], [&](const Piece& piece) {
            return has_flowed_through(piece.bounds, before, liquid, keeps_gas);
        })) {
        return;
    }
    change(pocket, where, cause, [&](const Bounds& own) { return flowed_through(own, before, liquid, keeps_gas); });
}

// Without a cause it stays what it was.
void Inventory::change(PocketIndex pocket, Set where, std::optional<Cause> cause,
                       FunctionRef<Bounds(const Bounds&)> how, bool notes) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (sets.disjoint(where, knowledge_.possible())) {
        return;
    }
    const bool all = sets.within(knowledge_.possible(), where);
    std::vector<Piece>& pieces = pieces_[pocket];
    bool changed = false;
    const std::size_t count = pieces.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Set inside = all ? pieces[i].where : sets.both(pieces[i].where, where);
        if (inside == nothing) {
            continue;
        }
        Bounds bounds = how(pieces[i].bounds);
        if (least_gas_[pocket] > 0) {
            bounds.gas = {.part = std::max(bounds.gas.part, least_gas_[pocket])};
            bounds.full = false;
        }
        if (notes) {
            if (!stands_full(bounds)) {
                std::ranges::fill(bounds.hygiene.stood, 0); // gas has come between
            }
            note_losses(bounds.hygiene, pieces[i].bounds.hygiene, liquids_.doses(bounds.hygiene.agent), cause->step,
                        cause->kind == CauseKind::opened);
        }
        if (bounds == pieces[i].bounds) {
            continue;
        }
        changed = true;
        if (bounds.hygiene.reading > 0 && has_reading_[pocket] == 0) {
            has_reading_[pocket] = 1;
            read_.push_back(pocket);
        }
        const Cause now = cause && !same_but_for_hygiene(pieces[i].bounds, bounds) ? *cause : pieces[i].cause;
        if (inside == pieces[i].where) {
            pieces[i].bounds = std::move(bounds);
            pieces[i].cause = now;
        } else {
            pieces[i].where = sets.without(pieces[i].where, inside);
            pieces.push_back({inside, std::move(bounds), now});
        }
    }
    if (changed) {
        tidy(pieces);
        note_change(pocket);
    }
}

void Inventory::tidy(std::vector<Piece>& pieces) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (pieces.size() == 1) {
        return;
    }
    std::vector<Piece> kept;
    for (Piece& piece : pieces) {
        if (sets.disjoint(piece.where, knowledge_.possible())) {
            continue;
        }
        const auto same = std::ranges::find(kept, piece.bounds, &Piece::bounds);
        if (same != kept.end()) {
            same->where = sets.either(same->where, piece.where);
            same->cause = std::max(same->cause.step, piece.cause.step) == piece.cause.step ? piece.cause : same->cause;
        } else {
            kept.push_back(std::move(piece));
        }
    }
    for (std::size_t i = 0; kept.size() > most_pieces && i < kept.size(); ++i) {
        for (std::size_t k = kept.size(); k-- > i + 1;) {
            if (same_but_for_hygiene(kept[i].bounds, kept[k].bounds)) {
                kept[i].bounds = joined(kept[i].bounds, kept[k].bounds);
                kept[i].where = sets.either(kept[i].where, kept[k].where);
                kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(k));
            }
        }
    }
    if (kept.size() > most_pieces) {
        Piece all = std::move(kept.front());
        for (std::size_t i = 1; i < kept.size(); ++i) {
            all.bounds = joined(all.bounds, kept[i].bounds);
        }
        kept.resize(1);
        kept.front() = std::move(all);
    }
    if (kept.size() == 1) {
        kept.front().where = everything; // what is not possible does not matter
    }
    pieces = std::move(kept);
}

void Inventory::round_ends(const instants::RoundEnd& round) {
    if (round.first && round.last) {
        return;
    }
    std::vector<std::vector<Piece>>& ended = rounds_[round.repeat];
    if (round.first) {
        ended = pieces_;
        return;
    }
    instants::Diagrams& sets = knowledge_.diagrams();
    for (PocketIndex pocket = 0; pocket < pieces_.size(); ++pocket) {
        std::vector<Piece> either;
        for (const Piece& earlier : ended[pocket]) {
            for (const Piece& now : pieces_[pocket]) {
                const Set where = sets.both(earlier.where, now.where);
                if (!sets.disjoint(where, knowledge_.possible())) {
                    Bounds bounds = round.last && round.more ? widened(earlier.bounds, now.bounds)
                                                             : joined(earlier.bounds, now.bounds);
                    if (round.last && by_amounts_[pocket]) { // every round brings as much as this one
                        const double lost = std::max(0.0, earlier.bounds.gas.part - now.bounds.gas.part);
                        bounds.gas.part =
                            std::max(0.0, std::min(earlier.bounds.gas.part, now.bounds.gas.part - lost * round.left));
                    }
                    either.push_back({where, std::move(bounds), now.cause});
                }
            }
        }
        tidy(either);
        ended[pocket] = std::move(either);
    }
    if (!round.last) {
        return;
    }
    for (PocketIndex pocket = 0; pocket < pieces_.size(); ++pocket) {
        const bool same = std::ranges::equal(pieces_[pocket], ended[pocket], [](const Piece& a, const Piece& b) {
            return a.where == b.where && a.bounds == b.bounds;
        });
        if (!same) {
            pieces_[pocket] = std::move(ended[pocket]);
            note_change(pocket);
        }
    }
    rounds_.erase(round.repeat);
}

void Inventory::stand(double time, FunctionRef<Set(PocketIndex)> where) {
    for (const PocketIndex pocket : read_) {
        change(
            pocket, where(pocket), std::nullopt,
            [&](const Bounds& own) {
                Bounds bounds = own;
                if (own.hygiene.reading > 0 && stands_full(own)) {
                    proofs::stand(bounds.hygiene, liquids_.doses(own.hygiene.agent), time);
                }
                return bounds;
            },
            false);
    }
}

void Inventory::read(PocketIndex pocket, std::uint32_t agent, double reading, Set where, Cause cause,
                     FunctionRef<void(Bounds&)> besides) {
    change(
        pocket, where, cause,
        [&](const Bounds& own) {
            Bounds bounds = own;
            proofs::read(bounds.hygiene, agent, reading);
            bounds.hygiene.stood.resize(liquids_.doses(agent).size(), 0);
            besides(bounds);
            return bounds;
        },
        true);
}

void Inventory::next_procedure() {
    for (std::vector<Piece>& pieces : pieces_) {
        for (Piece& piece : pieces) {
            piece.cause.step = 0;
            Bounds& bounds = piece.bounds;
            bounds.hygiene.stale = 1 - bounds.gas.part;
            bounds.hygiene.loss = Loss::none;
            bounds.hygiene.lost_in = 0;
        }
    }
}

void Inventory::holds(PocketIndex pocket, std::uint32_t liquid, Set where, Cause cause) {
    change(pocket, where, cause, [&](const Bounds& own) {
        Bounds bounds = own;
        std::ranges::fill(bounds.most, 0);
        bounds.most[liquid] = 1;
        std::ranges::fill(bounds.least, 0);
        bounds.least[liquid] = strength_matters_[liquid] ? 0 : 1;
        bounds.gas = {};
        bounds.hygiene.reading = bounds.hygiene.agent == liquid ? bounds.hygiene.reading : 0;
        return bounds;
    });
}

void Inventory::empty(PocketIndex pocket, Set where, Cause cause) {
    change(pocket, where, cause, [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
}

Set Inventory::where(PocketIndex pocket, FunctionRef<bool(const Bounds&)> test) {
    Set result = nothing;
    for (const Piece& piece : pieces_[pocket]) {
        if (test(piece.bounds)) {
            result = knowledge_.diagrams().either(result, piece.where);
        }
    }
    return knowledge_.diagrams().both(result, knowledge_.possible());
}

} // namespace curbstop::proofs
