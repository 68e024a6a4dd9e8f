// backflow. Claim: nothing of a category above 2 can be pushed, or run, back into an outside supply of drinking water:
// between the two stands a device that keeps that category back, or a shut way, or a free fall. Whether the supply is
// on does not matter: mains fail. Does not show: what is drawn back when mains fail and nothing stands above them.
#include <array>
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

/// What pushes, where to, and what.
using Key = std::tuple<SourceId, ChamberId, SourceId, std::uint32_t>;
struct Back {
    Set where = nothing;
    PocketIndex pocket = no_pocket; ///< in which it may be; none: it comes from outside
    const BackRegion* region = nullptr;
};

class Backflow : public Obligation {
  public:
    std::string_view slug() const override { return "backflow"; }
    void start(Event& event) override {
        const System& system = event.engine.system();
        for (const SourceState& supply : event.engine.sources()) {
            if (supplies_drinking_water(system, supply.id)) {
                supplies_.push_back(supply.id);
            }
        }
        before_ = running(event);
    }
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    std::map<Key, Back> running(Event& event) {
        std::map<Key, Back> found;
        Engine& engine = event.engine;
        count_harmful(engine);
        const System& system = engine.system();
        Transport& transport = engine.transport();
        for (const BackRegion& back_region : transport.back_regions()) {
            if (back_region.chamber.valid() && harmful_pockets_ == 0) {
                continue;
            }
            Region& region = *back_region.region;
            for (const SourceId supply : supplies_) {
                const Source& source = system[supply];
                const Vertex node = transport.network().arrival(source.node);
                if (supply == back_region.source) {
                    continue;
                }
                ++asked;
                Set where = pushes(event, back_region, supply);
                if (where == nothing) {
                    continue;
                }
                where = event.diagrams().both(where, engine.knowledge().truth(source.on));
                where = event.diagrams().both(where, region.reached(node, engine.knowledge()));
                if (where != nothing) {
                    add_brought(event, back_region, supply, node, where, found);
                }
            }
        }
        return found;
    }

    // In how many pockets anything is that may not come back.
    void count_harmful(Engine& engine) {
        Transport& transport = engine.transport();
        const Inventory& inventory = transport.inventory();
        const auto look = [&](PocketIndex pocket) {
            const bool now = std::ranges::any_of(inventory.pieces(pocket), [&](const Piece& piece) {
                for (std::uint32_t liquid = 0; liquid < inventory.liquids().dirt(); ++liquid) {
                    if (piece.bounds.more_than_traces(liquid) &&
                        engine.system()[inventory.liquids().fluid(liquid)].category > harmless_category) {
                        return true;
                    }
                }
                return false;
            });
            harmful_pockets_ += (now ? 1U : 0U) - (harmful_[pocket] ? 1U : 0U);
            harmful_[pocket] = now;
        };
        if (harmful_.empty()) {
            harmful_.resize(transport.pockets().size());
            for (PocketIndex pocket = 0; pocket < harmful_.size(); ++pocket) {
                look(pocket);
            }
            seen_changes_ = inventory.changes().size();
        }
        for (; seen_changes_ < inventory.changes().size(); ++seen_changes_) {
            look(inventory.changes()[seen_changes_]);
        }
    }

    // Where the source is on, or the chamber gives anything and stands no lower than the supply.
    static Set pushes(Event& event, const BackRegion& from, SourceId supply) {
        Engine& engine = event.engine;
        if (from.source.valid()) {
            return event.diagrams().both(engine.source(from.source)->on, engine.possible());
        }
        const System& system = engine.system();
        const auto& above = system[system[from.chamber].part].height;
        const auto& below = system[system[supply].part].height;
        if (above && below && above->value <= below->value) {
            return nothing;
        }
        const Set holds = event.diagrams().both(engine.contents().may_hold(from.chamber), engine.possible());
        return holds == nothing ? nothing : engine.transport().gives(from.chamber, holds);
    }

    // What may come: of the origins, and of what stands on the way.
    void add_brought(Event& event, const BackRegion& from, SourceId supply, Vertex node, Set where,
                     std::map<Key, Back>& found) {
        Engine& engine = event.engine;
        Transport& transport = engine.transport();
        const auto add = [&](std::uint32_t liquid, PocketIndex pocket, Set there) {
            Back& one = found[{from.source, from.chamber, supply, liquid}];
            one.pocket = one.where == nothing ? pocket : one.pocket;
            one.where = event.diagrams().either(one.where, there);
            one.region = &from;
        };
        const auto add_pocket = [&](PocketIndex pocket, Set there) {
            for (const Piece& piece : transport.inventory().pieces(pocket)) {
                for (std::uint32_t liquid = 0; liquid < transport.inventory().liquids().dirt(); ++liquid) {
                    if (!piece.bounds.more_than_traces(liquid) || !is_of(event, from, liquid)) {
                        continue;
                    }
                    const Set here = event.diagrams().both(piece.where, there);
                    if (!event.diagrams().disjoint(here, engine.possible())) {
                        add(liquid, pocket, here);
                    }
                }
            }
        };
        if (from.chamber.valid()) {
            add_pocket(transport.pockets().of_chamber(from.chamber), where);
        } else if (engine.system()[from.source].kind == SourceKind::lift) {
            for (const auto& [origin, drawn] : engine.origins_of(*engine.source(from.source))) {
                const Set there = event.diagrams().both(where, drawn);
                if (origin.chamber.valid()) {
                    add_pocket(transport.pockets().of_chamber(origin.chamber), transport.gives(origin.chamber, there));
                } else {
                    add_supplied(event, from, origin.supply, there, add);
                }
            }
            if (const PocketIndex body = transport.pockets().of_body(engine.system()[from.source].part);
                body != no_pocket) {
                add_pocket(body, where);
            }
        } else if (!engine.is_gas(from.source)) {
            add_supplied(event, from, from.source, where, add);
        }
        if (harmful_pockets_ == 0) {
            return;
        }
        for (const Passage& passage : from.region->chains_to(node, where, engine.knowledge())) {
            for (const PassageStep& step : passage.steps) {
                if (const auto pocket = transport.pocket_at(step.vertex)) {
                    add_pocket(*pocket, passage.where);
                }
            }
        }
    }

    template <typename Add>
    static void add_supplied(Event& event, const BackRegion& from, SourceId supply, Set where, const Add& add) {
        const std::uint32_t liquid =
            event.engine.transport().inventory().liquids().of(event.engine.system()[supply].fluid);
        if (liquid != UINT32_MAX && is_of(event, from, liquid) &&
            !event.diagrams().disjoint(where, event.engine.possible())) {
            add(liquid, no_pocket, where);
        }
    }

    // A liquid is asked about with the ways that do not keep it back: the highest of the levels that it reaches.
    static bool is_of(Event& event, const BackRegion& from, std::uint32_t liquid) {
        Transport& transport = event.engine.transport();
        const int category = event.engine.system()[transport.inventory().liquids().fluid(liquid)].category;
        if (category <= harmless_category || category < from.category) {
            return false;
        }
        return std::ranges::none_of(transport.back_regions(), [&](const BackRegion& other) {
            return other.source == from.source && other.chamber == from.chamber && other.category > from.category &&
                   other.category <= category;
        });
    }

    void judge(Event& event) {
        std::map<Key, Back> now = running(event);
        for (const auto& [key, one] : now) {
            const auto was = before_.find(key);
            Set fresh = was == before_.end() ? one.where : event.diagrams().without(one.where, was->second.where);
            fresh = event.diagrams().both(fresh, event.engine.possible());
            if (fresh != nothing) {
                tell(event, key, one, fresh);
            }
        }
        before_ = std::move(now);
    }

    void tell(Event& event, const Key& key, const Back& one, Set where) const {
        Engine& engine = event.engine;
        const System& system = engine.system();
        Transport& transport = engine.transport();
        const auto& [source, chamber, supply, liquid] = key;
        const Fluid& fluid = system[transport.inventory().liquids().fluid(liquid)];
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}`, category {}, can {} back into `{}`", fluid.label, fluid.category,
                                      source.valid() ? "be pushed" : "run", system[supply].label);
        if (one.pocket != no_pocket) {
            finding.notes.push_back(fmt::format("it may be in {}: {}",
                                                pocket_label(system, transport.pockets()[one.pocket]),
                                                what_it_holds(event, {one.pocket, where}, false)));
        }
        const auto configuration = engine.knowledge().assignment(where);
        const Vertex node = transport.network().arrival(system[supply].node);
        std::vector<std::string> stations = {source.valid() ? std::string(system[source].label)
                                                            : origin_label(system, {chamber, {}})};
        std::vector<std::string> passed_back;
        for (const EdgeIndex index : one.region->region->reach().path(
                 node, [&](const Edge& edge) { return event.diagrams().contains(edge.open, configuration); })) {
            const Edge& edge = transport.network().edge(index);
            if (!edge.way.valid() || !system[edge.way].part.valid()) {
                continue;
            }
            const std::string& label = system[system[edge.way].part].label;
            if ((edge.classes & back) != 0) {
                const std::string device =
                    fmt::format("`{}` keeps back no more than category {}", label, system[edge.way].protects);
                if (passed_back.empty() || passed_back.back() != device) {
                    passed_back.push_back(device);
                }
            }
            if (stations.back() != label) {
                stations.push_back(label);
            }
        }
        finding.notes.push_back(fmt::format("the way: {}", proofs::joined(stations, " > ")));
        finding.notes.push_back(passed_back.empty() ? "nothing on it keeps anything back"
                                                    : proofs::joined(passed_back, "; "));
        add_circumstances(event, where, finding);
        finding.remedies.push_back(
            fmt::format("shut `{}`, or take the way to it apart, before this", system[supply].label));
        finding.remedies.push_back(fmt::format("or have a device fitted that protects to category {} (EN 1717): {}",
                                               fluid.category,
                                               fluid.category == 3   ? "a double check valve, type EC or ED"
                                               : fluid.category == 4 ? "a reduced-pressure-zone valve, type BA"
                                                                     : "only an air gap, type AA or AB, does"));
        event.findings.add(std::move(finding));
    }

    std::vector<SourceId> supplies_; // of drinking water
    std::map<Key, Back> before_;
    std::vector<bool> harmful_; ///< per pocket
    std::uint32_t harmful_pockets_ = 0;
    std::size_t seen_changes_ = 0;
};

} // namespace

std::unique_ptr<Obligation> backflow() {
    return std::make_unique<Backflow>();
}

} // namespace curbstop::proofs
