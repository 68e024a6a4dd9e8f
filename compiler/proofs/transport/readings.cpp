// What a reading at an outlet tells of a disinfectant in what lies behind it, and what waiting makes of it.
#include <algorithm>

#include "proofs/coverage.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// The only disinfectant that may be in it.
std::uint32_t agent_in(const Liquids& liquids, const Carried& what) {
    std::uint32_t found = no_liquid;
    for (std::uint32_t liquid = 0; liquid < liquids.dirt(); ++liquid) {
        if (what.most[liquid] > 0 && liquids.disinfects(liquid)) {
            if (found != no_liquid) {
                return no_liquid;
            }
            found = liquid;
        }
    }
    return found;
}

} // namespace

bool Transport::leaves_by_top(PocketIndex pocket, const Passage& passage, std::uint32_t rank, bool towards_root) const {
    const NodeId body = system_.chambers[pockets_[pocket].index].node;
    return std::ranges::any_of(passage.steps, [&](const PassageStep& step) {
        if (step.rank == 0 || (towards_root ? step.rank <= rank : step.rank >= rank)) {
            return false;
        }
        return std::ranges::any_of(system_[pockets_[pocket].part].nodes, [&](NodeId node) {
            return system_[node].level == Level::top && system_[node].level_of == body &&
                   (network_.source_vertex(node) == step.vertex || network_.arrival(node) == step.vertex);
        });
    });
}

// What comes out has passed all that lies between, so all of it is at least as strong; and a chamber that it leaves is
// well mixed.
void Transport::credit_reading(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const double reading = flow.until->least->value.to_double();
    for (const Stream::Way& way : stream.ways) {
        const Set here = sets.both(when, way.where);
        if (here == nothing || !way.origin.chamber.valid()) {
            continue; // how strong a supply doses is not followed
        }
        const std::uint32_t agent = agent_in(inventory_.liquids(), composition(engine, stream, way));
        if (agent == no_liquid) {
            continue;
        }
        const std::optional<const Stream::Place*> read = glass_of(flow, stream, way);
        if (!read) {
            continue;
        }
        const Stream::Place* glass = *read;
        // Of two origins that are drawn at once neither is what comes out.
        Set alone = here;
        for (const auto& [origin, where] : stream.origins) {
            alone = origin == way.origin ? alone : sets.without(alone, where);
        }
        for (const Set one : beginnings(stream, way, here)) {
            const std::vector<char> alike = reads_alike(flow, stream, way, agent, reading, one);
            if (alike.front() == 0) {
                inventory_.read(pockets_.of_chamber(way.origin.chamber), agent, reading, sets.both(alone, one),
                                cause(CauseKind::swept), [](Bounds&) {});
            }
            for (std::size_t i = 0; i < way.places.size(); ++i) {
                const Stream::Place& place = way.places[i];
                const Pocket& pocket = pockets_[place.pocket];
                const Set* swept = stream.swept.find(place.pocket);
                const bool open = pocket.kind == PocketKind::chamber && pocket.vented;
                if (alike[i + 1] != 0 || place.rank == 0 || swept == nullptr || !seen_before(place, glass) || open) {
                    continue;
                }
                inventory_.read(
                    place.pocket, agent, reading, sets.both(one, *swept), cause(CauseKind::swept), [&](Bounds& bounds) {
                        if (pocket.kind != PocketKind::chamber || place.by_top) { // what gas it had went ahead
                            bounds.gas = {};
                            bounds.full = true;
                        }
                    });
            }
        }
    }
}

std::vector<char> Transport::reads_alike(const Flow& flow, const Stream& stream, const Stream::Way& way,
                                         std::uint32_t agent, double reading, Set where) {
    const auto weak = [&](PocketIndex pocket) {
        Carried now;
        inventory_.join_into(now, pocket, where);
        return now.hygiene.agent != agent || now.hygiene.reading < (1 - traces) * reading;
    };
    bool weak_before = weak(pockets_.of_chamber(way.origin.chamber));
    double chain = 0; // from the first on that is not surely so strong
    std::vector<double> had(way.places.size());
    for (std::size_t i = 0; i < way.places.size(); ++i) {
        const PocketIndex pocket = way.places[i].pocket;
        const double volume = pockets_[pocket].volume.value_or(unlimited);
        weak_before = weak_before || weak(pocket);
        chain += weak_before ? volume : 0;
        const std::vector<Held>* held = stream.held.find(pocket);
        const bool may =
            held == nullptr || std::ranges::any_of(*held, [&](const Held& piece) {
                return (piece.flowed >> agent & 1) != 0 && !knowledge_.diagrams().disjoint(piece.where, where);
            });
        had[i] = may ? volume : 0;
    }
    const bool enough = flow.at_least && volume_of(flow.at_least, 0) >= 2 * chain;
    // A chamber beyond that may have had some: what leaves it may be what it had.
    std::int64_t last_chamber = -1; // its depth
    for (std::size_t i = 0; i < had.size(); ++i) {
        if (had[i] > 0 && pockets_[way.places[i].pocket].kind == PocketKind::chamber) {
            last_chamber = way.places[i].depth;
        }
    }
    const std::vector<double> ahead = volumes_ahead(way, had);
    std::vector<char> alike(way.places.size() + 1);
    for (std::size_t i = 0; i < ahead.size(); ++i) {
        const bool chamber_ahead = last_chamber > std::int64_t{way.places[i].depth};
        alike[i + 1] = ahead[i] > looks_alike_volume && (!enough || chamber_ahead) ? 1 : 0;
    }
    const double all = ahead.empty() ? 0 : ahead.front();
    alike[0] = all > looks_alike_volume && (!enough || last_chamber >= 0) ? 1 : 0;
    return alike;
}

// Nothing moves while one waits. What is running out of a chamber leaves its walls.
void Transport::wait(const Quantity& time, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const Set here = sets.both(when, knowledge_.possible());
    inventory_.stand(time.value.to_double(), [&](PocketIndex pocket) {
        Set where = here;
        for (const Fall& running : falls_) {
            if (pockets_.of_chamber(running.from) == pocket) {
                where = sets.without(where, running.now);
            }
        }
        return where;
    });
}

std::vector<bool> Transport::pockets_of(const std::vector<PartId>& parts) const {
    std::vector<bool> left_out(pockets_.size());
    const auto is_one = [&](PartId part) { return part.valid() && std::ranges::find(parts, part) != parts.end(); };
    for (PocketIndex i = 0; !parts.empty() && i < pockets_.size(); ++i) {
        const Pocket& pocket = pockets_[i];
        if (pocket.kind == PocketKind::run) {
            const Run& run = system_.runs[pocket.index];
            left_out[i] = is_one(system_[run.from].part) || is_one(system_[run.to].part);
        } else {
            left_out[i] = is_one(pocket.part);
        }
    }
    return left_out;
}

void Transport::leave_out(const std::vector<PartId>& parts) {
    inventory_.vouch_for(pockets_of(parts));
    // What counts as clean is another thing now.
    for (Regions& regions : regions_) {
        regions.legs.walk.join_anew();
    }
    for (Standing& standing : standing_) {
        standing.walk.join_anew();
    }
    for (Fall& running : falls_) {
        running.applied = 0;
    }
}

} // namespace curbstop::proofs
