// scald. Claim: what a hot chamber holds newly comes out nowhere but at a `~>` that a flow draws on: no breach and no
// open end is joined to it, and it cannot run out by gravity. Where hot water that is drawn goes is the taps' caution.
// Does not show: how hot, what stands in the pipes, or what a relief valve lets out.
#include <map>

#include <fmt/format.h>

#include "proofs/cooling.h"
#include "proofs/obligations.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

class Scald : public Obligation {
  public:
    std::string_view slug() const override { return "scald"; }

    void start(Event& event) override {
        before_ = look(event, false);
        for (const HeatedChamber& chamber : event.engine.heat().chambers()) {
            heated_.push_back(chamber.heated);
        }
        switched_off_.resize(heated_.size());
    }
    void before_move(Event& event, const instants::Move&) override { forget_what_has_cooled(event); }
    void until(Event& event, const Flow&) override { forget_what_has_cooled(event); }
    void instant(Event& event, const instants::Move&) override {
        note_switching(event);
        judge(event);
    }
    void contents_changed(Event& event) override { judge(event); }

  private:
    struct Key {
        std::size_t heated; ///< index of the chamber in heat().chambers()
        OutletId outlet;
        friend auto operator<=>(const Key&, const Key&) = default;
    };
    /// Where each comes out, and no flow draws it.
    using Comes = std::map<Key, Set>;
    struct SwitchedOff {
        text::Span span{};
        Set where = nothing;
    };

    Comes look(Event& event, bool draws_excuse) const {
        Engine& engine = event.engine;
        instants::Diagrams& sets = event.diagrams();
        const std::vector<HeatedChamber>& chambers = engine.heat().chambers();
        Comes comes;
        const auto add = [&](std::size_t heated, OutletId outlet, Set where) {
            where = sets.both(where, hot_liquid(event, chambers[heated]));
            if (draws_excuse && !by_hand(engine.system(), outlet) && !sets.disjoint(where, engine.possible())) {
                where = sets.without(where, event.coverage.drawn_at(outlet));
            }
            if (!sets.disjoint(where, engine.possible())) {
                Set& known = comes[{heated, outlet}];
                known = sets.either(known, where);
            }
        };
        bool any_hot = false;
        for (std::size_t i = 0; i < chambers.size(); ++i) {
            if (sets.disjoint(hot_liquid(event, chambers[i]), engine.possible())) {
                continue;
            }
            any_hot = true;
            Reach& reach = engine.bursting_reach(i);
            for (const Vertex vertex : reach.marks()) {
                const OutletId outlet = engine.network().outlet_at(vertex);
                if (outlet.valid() && by_hand(engine.system(), outlet)) {
                    add(i, outlet, reach.exact(vertex, engine.knowledge()));
                }
            }
        }
        if (!any_hot) {
            return comes;
        }
        for (const DischargeState& state : engine.gravity()) {
            const auto found = std::ranges::find(chambers, state.key.origin.chamber, &HeatedChamber::chamber);
            if (found != chambers.end()) {
                add(static_cast<std::size_t>(found - chambers.begin()), state.key.outlet, state.now);
            }
        }
        return comes;
    }

    /// Opened by hand where a person is: a breach or an open end.
    static bool by_hand(const System& system, OutletId outlet) {
        if (system[outlet].ways.empty()) {
            return false;
        }
        const WayKind kind = system[system[outlet].ways.front()].kind;
        return kind == WayKind::breach || kind == WayKind::open_end;
    }

    static Set hot_liquid(Event& event, const HeatedChamber& chamber) {
        return event.diagrams().both(chamber.hot, event.engine.contents().may_hold(chamber.chamber));
    }

    // What has cooled and is heated again comes out anew.
    void forget_what_has_cooled(Event& event) {
        for (auto& [key, set] : before_) {
            set = event.diagrams().both(set, hot_liquid(event, event.engine.heat().chambers()[key.heated]));
        }
    }

    void note_switching(Event& event) {
        const std::vector<HeatedChamber>& chambers = event.engine.heat().chambers();
        for (std::size_t i = 0; i < chambers.size(); ++i) {
            const Set off = event.diagrams().without(heated_[i], chambers[i].heated);
            if (!event.diagrams().disjoint(off, event.engine.possible())) {
                switched_off_[i].push_back({event.span, off});
            }
            heated_[i] = chambers[i].heated;
        }
    }

    void judge(Event& event) {
        Comes now = look(event, true);
        for (const auto& [key, set] : now) {
            ++asked;
            const auto known = before_.find(key);
            Set fresh = known == before_.end() ? set : event.diagrams().without(set, known->second);
            fresh = event.diagrams().both(fresh, event.engine.possible());
            if (fresh != nothing) {
                tell(event, key, fresh);
            }
        }
        before_ = std::move(now);
    }

    void tell(Event& event, const Key& key, Set fresh) const {
        Engine& engine = event.engine;
        const System& system = engine.system();
        const ChamberId chamber = engine.heat().chambers()[key.heated].chamber;
        const auto configuration = engine.knowledge().assignment(fresh);
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` may be hot, and what it holds can come out at `{}` here",
                                      system[chamber].label, outlet_label(system, key.outlet));
        const Vertex to = engine.network().outlet_vertex(key.outlet);
        Route way = route(engine, engine.bursting_reach(key.heated), to, configuration);
        if (way.stations.empty()) {
            way = route(engine, engine.gravity_reach(chamber), to, configuration);
        }
        finding.notes.push_back(fmt::format("the way: {}", joined(way.stations, " > ")));
        finding.notes.push_back(how_long_waited(engine, chamber, configuration));
        add_since(event, key.heated, configuration, finding);
        add_circumstances(event, fresh, finding);
        finding.remedies.push_back(how_to_cool(system, chamber));
        add_or_ask(engine, event.findings, fresh, std::move(finding));
    }

    void add_since(Event& event, std::size_t heated, const std::vector<bool>& configuration, Finding& finding) const {
        if (event.diagrams().contains(heated_[heated], configuration)) {
            return; // it is being heated, and that has been said
        }
        for (auto off = switched_off_[heated].rbegin(); off != switched_off_[heated].rend(); ++off) {
            if (event.diagrams().contains(off->where, configuration)) {
                finding.labels.push_back({off->span, "it was heated until here"});
                return;
            }
        }
        finding.notes.emplace_back("it may have been hot since before the start: nothing says when it was last heated");
    }

    Comes before_;
    std::vector<Set> heated_;                            // per heated chamber, after the last move
    std::vector<std::vector<SwitchedOff>> switched_off_; // per heated chamber
};

} // namespace

std::unique_ptr<Obligation> scald() {
    return std::make_unique<Scald>();
}

} // namespace curbstop::proofs
