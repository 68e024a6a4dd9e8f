#include "proofs/heat.h"

#include <algorithm>

#include "meaning/expression_builder.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

Heat::Heat(const System& system, instants::Knowledge& knowledge)
    : system_(system)
    , knowledge_(knowledge)
    , by_variable_(system.variables.size()) {
    for (std::uint32_t i = 0; i < system.sources.size(); ++i) {
        const Source& source = system.sources[i];
        if (source.kind != SourceKind::heat) {
            continue;
        }
        auto found = std::ranges::find(chambers_, source.heats, &HeatedChamber::chamber);
        if (found == chambers_.end()) {
            chambers_.push_back({.chamber = source.heats, .waited = {{Rational(0), everything}}});
            found = chambers_.end() - 1;
        }
        found->sources.emplace_back(i);
        std::vector<VariableId> variables;
        variables_in(system, source.on, variables);
        for (const VariableId variable : variables) {
            by_variable_[variable.value].push_back(static_cast<std::size_t>(found - chambers_.begin()));
        }
    }
    refresh();
}

const HeatedChamber* Heat::of(ChamberId chamber) const {
    const auto found = std::ranges::find(chambers_, chamber, &HeatedChamber::chamber);
    return found == chambers_.end() ? nullptr : &*found;
}

Set Heat::hot(ChamberId chamber) const {
    const HeatedChamber* heated = of(chamber);
    return heated == nullptr ? nothing : heated->hot;
}

Set Heat::heated(ChamberId chamber) const {
    const HeatedChamber* heated = of(chamber);
    return heated == nullptr ? nothing : heated->heated;
}

Set Heat::on(meaning::SourceId source) {
    return knowledge_.truth(system_[source].on, [](const Expression&) { return everything; });
}

void Heat::moved(VariableId variable) {
    for (const std::size_t index : by_variable_[variable.value]) {
        refresh(chambers_[index]);
    }
}

void Heat::refresh() {
    for (HeatedChamber& chamber : chambers_) {
        refresh(chamber);
    }
}

void Heat::refresh(HeatedChamber& chamber) {
    instants::Diagrams& sets = knowledge_.diagrams();
    chamber.heated = nothing;
    for (const meaning::SourceId source : chamber.sources) {
        chamber.heated = sets.either(chamber.heated, on(source));
    }
    cool(chamber, chamber.heated); // whatever had passed counts no more
    chamber.hot = sets.either(chamber.hot, chamber.heated);
    Set& just_now = chamber.waited[Rational(0)];
    just_now = sets.either(just_now, chamber.heated);
}

void Heat::cool(HeatedChamber& chamber, Set where) {
    instants::Diagrams& sets = knowledge_.diagrams();
    chamber.hot = sets.without(chamber.hot, where);
    for (auto& [time, set] : chamber.waited) {
        set = sets.without(set, where);
    }
    std::erase_if(chamber.waited, [](const auto& piece) { return piece.second == nothing; });
}

void Heat::wait(const Quantity& time, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (HeatedChamber& chamber : chambers_) {
        const auto& cools_in = system_[chamber.chamber].cools_in;
        if (!cools_in) {
            continue; // it has no time after which it counts as cool
        }
        const Set where = sets.without(when, chamber.heated);
        std::map<Rational, Set> waited;
        Set cooled = nothing;
        for (const auto& [before, set] : chamber.waited) {
            const Set goes_on = sets.both(set, where);
            const std::optional<Rational> sum = add(before, time.value);
            if (!sum || *sum >= cools_in->value) { // a sum past all numbers is past the cooling time
                cooled = sets.either(cooled, goes_on);
            } else if (goes_on != nothing) {
                Set& longer = waited[*sum];
                longer = sets.either(longer, goes_on);
            }
            if (const Set stays = sets.without(set, where); stays != nothing) {
                Set& same = waited[before];
                same = sets.either(same, stays);
            }
        }
        chamber.waited = std::move(waited);
        chamber.hot = sets.without(chamber.hot, cooled);
    }
}

void Heat::seen_cool(ChamberId chamber, Set where) {
    const auto found = std::ranges::find(chambers_, chamber, &HeatedChamber::chamber);
    if (found != chambers_.end()) {
        cool(*found, knowledge_.diagrams().without(where, found->heated));
    }
}

void Heat::season_passes() {
    for (HeatedChamber& chamber : chambers_) {
        seen_cool(chamber.chamber, everything);
    }
}

void Heat::round_ends(const instants::RoundEnd& round) {
    std::vector<HeatedChamber>& ended = rounds_[round.repeat];
    if (round.first) {
        ended = chambers_;
    } else {
        for (std::size_t i = 0; i < ended.size() && i < chambers_.size(); ++i) {
            join(ended[i], chambers_[i]);
        }
    }
    if (round.last) {
        for (std::size_t i = 0; i < ended.size(); ++i) {
            join(chambers_[i], ended[i]);
        }
        rounds_.erase(round.repeat);
    }
}

void Heat::join(HeatedChamber& chamber, const HeatedChamber& other) {
    instants::Diagrams& sets = knowledge_.diagrams();
    // Of two times the shorter: where one of the two has counted more, or counts as cool, the other is left.
    std::map<Rational, Set> waited;
    Set placed = nothing;
    auto mine = chamber.waited.begin();
    auto theirs = other.waited.begin();
    while (mine != chamber.waited.end() || theirs != other.waited.end()) {
        const bool take_mine =
            theirs == other.waited.end() || (mine != chamber.waited.end() && mine->first <= theirs->first);
        const auto& [time, set] = take_mine ? *mine++ : *theirs++;
        const Set here = sets.without(set, placed);
        placed = sets.either(placed, here);
        if (here != nothing) {
            Set& piece = waited[time];
            piece = sets.either(piece, here);
        }
    }
    chamber.waited = std::move(waited);
    chamber.hot = sets.either(chamber.hot, other.hot);
}

} // namespace curbstop::proofs
