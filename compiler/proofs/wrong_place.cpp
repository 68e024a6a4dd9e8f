// wrong-place. Claim: no discharge, drain or `pour` brings to a vessel, a place or the ground a fluid that it does not
// accept, of its origin or of what may stand on the way. What it says rests on the bounds of the pockets.
// Does not show: what happens where it has landed, or what a place takes in all.
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/transport/acceptance.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

/// A liquid that is brought where it is not accepted.
struct Brought {
    std::uint32_t liquid = 0;
    NodeId landing;
    Set where = nothing;
    PocketIndex pocket = no_pocket; ///< in which it may be; none: it comes from outside
    Origin origin;
    double most = 1;   ///< the greatest part of what is in that pocket that it may be
    Set there = where; ///< where that pocket may hold it
};

/// Origin, outlet, landing and liquid: what runs on is told once.
using Key = std::tuple<Origin, OutletId, NodeId, std::uint32_t>;

class WrongPlace : public Obligation {
  public:
    std::string_view slug() const override { return "wrong-place"; }
    void start(Event& event) override {
        event.engine.transport().take_let_out();
        before_.clear();
        for (const auto& [key, brought] : running(event)) {
            before_[key] = brought.where;
        }
    }
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

    void pour(Event& event, const PourStatement& pour) override {
        Engine& engine = event.engine;
        const meaning::NodeKind kind = engine.system()[pour.into].kind;
        ++asked;
        if (kind != meaning::NodeKind::place && kind != meaning::NodeKind::vessel) {
            return;
        }
        std::vector<Brought> wrong;
        const PocketIndex from = engine.transport().pockets().of_chamber(pour.vessel);
        add_from_pocket(engine, from, own_fluid(engine.system(), {pour.vessel, {}}), {pour.into, event.here()},
                        {pour.vessel, {}}, [&](Brought one) { wrong.push_back(one); });
        tell(event, std::move(wrong), engine.system()[pour.vessel].label);
    }

  private:
    /// What an origin is meant to give: a supply its fluid, a chamber what it holds in use, a vessel what it is filled
    /// with.
    static FluidId own_fluid(const System& system, const Origin& origin) {
        return origin.chamber.valid() ? system[origin.chamber].fluid : system[origin.supply].fluid;
    }

    template <typename Add>
    void add_from_pocket(Engine& engine, PocketIndex pocket, FluidId own, const Landing& landing, const Origin& origin,
                         const Add& add) const {
        const Inventory& inventory = engine.transport().inventory();
        for (const Piece& piece : inventory.pieces(pocket)) {
            add_from_piece(engine, pocket, piece, own, landing, origin, add);
        }
    }

    template <typename Add>
    void add_from_piece(Engine& engine, PocketIndex pocket, const Piece& piece, FluidId own, const Landing& landing,
                        const Origin& origin, const Add& add) const {
        const Liquids& liquids = engine.transport().inventory().liquids();
        const Accepted accepted = accepted_by(engine.system(), liquids, landing.node);
        Set where = nothing;
        bool asked_where = false;
        for (std::uint32_t liquid = 0; liquid < liquids.dirt(); ++liquid) {
            const double most = piece.bounds.most[liquid];
            const LiquidSet taken = most <= traces                             ? accepted.traces
                                    : own.valid() && liquids.of(own) == liquid ? accepted.holds
                                                                               : accepted.mixed;
            if (most <= 0 || (taken >> liquid & 1) != 0) {
                continue;
            }
            if (!asked_where) {
                asked_where = true;
                where = engine.diagrams().both(engine.diagrams().both(piece.where, landing.where), engine.possible());
            }
            if (where != nothing) {
                add(Brought{liquid, landing.node, where, pocket, origin, most});
            }
        }
    }

    // What stands on the way of what falls.
    template <typename Add>
    void add_from_fall(Engine& engine, const Fall& fall, OutletId outlet, const Add& add) const {
        Transport& transport = engine.transport();
        const PocketIndex from = transport.pockets().of_chamber(fall.from);
        for (const Landing& landing : rests_in(engine, outlet)) {
            for (const Passage& passage : fall.passages) {
                const Set where = transport.gives(fall.from, engine.diagrams().both(passage.where, landing.where));
                if (engine.diagrams().disjoint(where, engine.possible())) {
                    continue;
                }
                for (const PassageStep& step : passage.steps) {
                    const auto pocket = transport.pocket_at(step.vertex);
                    if (pocket && *pocket != from && !is_landing(transport, *pocket, landing.node, engine.system())) {
                        add_from_pocket(engine, *pocket, {}, {landing.node, where}, {fall.from, {}}, add);
                    }
                }
            }
        }
    }

    // All that runs or falls now and is brought where it is not accepted.
    std::map<Key, Brought> running(Event& event) {
        Engine& engine = event.engine;
        Transport& transport = engine.transport();
        const System& system = engine.system();
        const Liquids& liquids = transport.inventory().liquids();
        instants::Diagrams& sets = engine.diagrams();
        std::map<Key, Brought> found;
        const auto add_to = [&](OutletId outlet) {
            return [&found, &sets, outlet](const Brought& one) {
                const auto [known, is_new] = found.try_emplace({one.origin, outlet, one.landing, one.liquid}, one);
                if (!is_new) {
                    Set all = sets.either(known->second.where, one.where);
                    if (one.most > known->second.most) {
                        known->second = one;
                    }
                    known->second.where = all;
                }
            };
        };
        for (const Stream& stream : transport.streams()) {
            for (const Landing& landing : rests_in(engine, stream.outlet)) {
                const auto add = add_to(stream.outlet);
                ++asked;
                for (const Stream::Way& way : stream.ways) {
                    Set where = sets.both(way.where, landing.where);
                    where = way.origin.chamber.valid() ? transport.gives(way.origin.chamber, where) : where;
                    if (sets.disjoint(where, engine.possible())) {
                        continue;
                    }
                    const Landing here{landing.node, where};
                    const FluidId own = own_fluid(system, way.origin);
                    if (way.origin.chamber.valid()) {
                        add_from_pocket(engine, transport.pockets().of_chamber(way.origin.chamber), own, here,
                                        way.origin, add);
                    } else if (const std::uint32_t liquid = liquids.of(own);
                               liquid != UINT32_MAX &&
                               (accepted_by(system, liquids, landing.node).holds >> liquid & 1) == 0) {
                        add(Brought{liquid, landing.node, sets.both(where, engine.possible()), no_pocket, way.origin});
                    }
                    for (const Stream::Place& place : way.places) {
                        if (!is_landing(transport, place.pocket, landing.node, system)) {
                            add_from_pocket(engine, place.pocket, {}, here, way.origin, add);
                        }
                    }
                }
            }
        }
        for (const DischargeState& state : engine.gravity()) {
            const ChamberId from = state.key.origin.chamber;
            for (const Landing& landing : rests_in(engine, state.key.outlet)) {
                ++asked;
                const Set where = transport.gives(from, sets.both(state.now, landing.where));
                if (!sets.disjoint(where, engine.possible())) {
                    add_from_pocket(engine, transport.pockets().of_chamber(from), own_fluid(system, state.key.origin),
                                    {landing.node, where}, state.key.origin, add_to(state.key.outlet));
                }
            }
        }
        for (const Fall& fall : transport.falls()) {
            if (const OutletId outlet = transport.network().outlet_at(fall.target); outlet.valid()) {
                add_from_fall(engine, fall, outlet, add_to(outlet));
            } // else it comes to rest in a chamber
        }
        return found;
    }

    static bool is_landing(const Transport& transport, PocketIndex pocket, NodeId node, const System& system) {
        return system[node].chamber.valid() && transport.pockets().of_chamber(system[node].chamber) == pocket;
    }

    void judge(Event& event) {
        judge_let_out(event);
        std::map<Key, Brought> now = running(event);
        std::map<OutletId, std::vector<Brought>> fresh;
        for (const auto& [key, brought] : now) {
            const auto was = before_.find(key);
            Brought one = brought;
            one.where = was == before_.end() ? brought.where : event.diagrams().without(brought.where, was->second);
            one.where = event.diagrams().both(one.where, event.engine.possible());
            if (one.where != nothing) {
                fresh[std::get<OutletId>(key)].push_back(one);
            }
        }
        before_.clear();
        for (const auto& [key, brought] : now) {
            before_[key] = brought.where;
        }
        for (auto& [outlet, wrong] : fresh) {
            tell(event, std::move(wrong), outlet_label(event.engine.system(), outlet));
        }
    }

    void judge_let_out(Event& event) {
        std::map<OutletId, std::vector<Brought>> wrong;
        for (const LetOut& out : event.engine.transport().take_let_out()) {
            for (const Landing& landing : rests_in(event.engine, out.outlet)) {
                ++asked;
                add_from_piece(event.engine, out.pocket, out.was, {}, landing, {},
                               [&](const Brought& one) { wrong[out.outlet].push_back(one); });
            }
        }
        for (auto& [outlet, brought] : wrong) {
            tell(event, std::move(brought), outlet_label(event.engine.system(), outlet));
        }
    }

    // One finding per outlet: the gravest fluid first, then the one of which there may be most.
    void tell(Event& event, std::vector<Brought> wrong, const std::string& from) {
        if (wrong.empty()) {
            return;
        }
        Engine& engine = event.engine;
        const System& system = engine.system();
        const Liquids& liquids = engine.transport().inventory().liquids();
        std::ranges::stable_sort(wrong, [&](const Brought& a, const Brought& b) {
            const int graver = system[liquids.fluid(a.liquid)].category - system[liquids.fluid(b.liquid)].category;
            return graver != 0 ? graver > 0 : a.most > b.most;
        });
        const Brought& worst = wrong.front();
        const Fluid& fluid = system[liquids.fluid(worst.liquid)];
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format(
            "{}`{}` from `{}` comes to `{}`, which does not accept {}", worst.most <= traces ? "traces of " : "",
            fluid.label, from, landing_label(system, worst.landing), worst.most <= traces ? "even traces" : "it");
        if (worst.pocket != no_pocket) {
            const Set there = engine.diagrams().both(worst.there, worst.where);
            finding.notes.push_back(
                fmt::format("it may be in {}: {}", pocket_label(system, engine.transport().pockets()[worst.pocket]),
                            what_it_holds(event, {worst.pocket, there == nothing ? worst.there : there}, false)));
        } else {
            finding.notes.push_back(fmt::format("it is what `{}` gives", origin_label(system, worst.origin)));
        }
        finding.notes.push_back(
            fmt::format("`{}` {}", landing_label(system, worst.landing), takes(engine, worst.landing)));
        add_circumstances(event, worst.where, finding);
        const std::vector<std::string> others = takers(engine, worst);
        if (!others.empty()) {
            finding.remedies.push_back(fmt::format("what takes {}: {}", fluid.label, joined(others, ", ")));
        }
        if (worst.pocket != no_pocket && worst.most > traces) {
            finding.remedies.emplace_back("or clear it first, where it is taken, until no more than traces are left");
        }
        event.findings.add(std::move(finding));
    }

    // "accepts Drinking water; mixed: Hot water; traces of Antifreeze"
    static std::string takes(Engine& engine, NodeId node) {
        const System& system = engine.system();
        const Liquids& liquids = engine.transport().inventory().liquids();
        const Accepted accepted = accepted_by(system, liquids, node);
        const auto names = [&](LiquidSet set) {
            std::vector<std::string> labels;
            for (std::uint32_t i = 0; i < liquids.dirt(); ++i) {
                if ((set >> i & 1) != 0) {
                    labels.push_back(system[liquids.fluid(i)].label);
                }
            }
            return joined(labels, ", ");
        };
        std::vector<std::string> said;
        if (const std::string text = names(accepted.holds); !text.empty()) {
            said.push_back("accepts " + text);
        } else {
            said.emplace_back("accepts nothing");
        }
        if (const std::string text = names(accepted.mixed & ~accepted.holds); !text.empty()) {
            said.push_back("mixed with it: " + text);
        }
        if (const std::string text = names(accepted.traces & ~accepted.mixed); !text.empty()) {
            said.push_back("traces of " + text);
        }
        return joined(said, "; ");
    }

    // The places and vessels that would take it.
    static std::vector<std::string> takers(Engine& engine, const Brought& brought) {
        const System& system = engine.system();
        const Liquids& liquids = engine.transport().inventory().liquids();
        std::vector<std::string> labels;
        const auto add = [&](NodeId node) {
            const Accepted accepted = accepted_by(system, liquids, node);
            const LiquidSet grade = brought.most <= traces ? accepted.traces : accepted.holds;
            if ((grade >> brought.liquid & 1) != 0) {
                labels.push_back(fmt::format("`{}`", landing_label(system, node)));
            }
        };
        for (const Place& place : system.places) {
            add(place.node);
        }
        for (const Chamber& chamber : system.chambers) {
            if (chamber.vessel) {
                add(chamber.node);
            }
        }
        return labels;
    }

    std::map<Key, Set> before_;
};

} // namespace

std::unique_ptr<Obligation> wrong_place() {
    return std::make_unique<WrongPlace>();
}

} // namespace curbstop::proofs
