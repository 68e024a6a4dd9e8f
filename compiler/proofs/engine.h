// The state of a proof at one instant: what is known, what is reached, what runs out where. Steps through the program;
// obligations ask it. Must not know: what any obligation demands, how findings are worded.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "instants/knowledge.h"
#include "instants/program.h"
#include "proofs/charge.h"
#include "proofs/contents.h"
#include "proofs/heat.h"
#include "proofs/network.h"
#include "proofs/reach.h"

namespace curbstop::proofs {

/// Where a discharge's fluid comes from: a chamber or vessel, or a supply.
struct Origin {
    meaning::ChamberId chamber;
    meaning::SourceId supply;
    friend bool operator==(const Origin&, const Origin&) = default;
    friend auto operator<=>(const Origin&, const Origin&) = default;
};

/// Fluid of `origin`, pushed by `source`, out at `outlet`; of gravity, `source` is none.
struct DischargeKey {
    meaning::SourceId source;
    Origin origin;
    meaning::OutletId outlet;
    friend bool operator==(const DischargeKey&, const DischargeKey&) = default;
    friend auto operator<=>(const DischargeKey&, const DischargeKey&) = default;
};

/// In which configurations it runs now, and in which it ran before the last event.
struct DischargeState {
    DischargeKey key;
    instants::Set now = instants::nothing;
    instants::Set before = instants::nothing;
};

/// A pressure that matters to a source: a relief valve's setting or a rating below what the source can give.
struct Threshold {
    meaning::Quantity at;
    std::unique_ptr<Reach> reach;           ///< without passing reducers to `at` or less
    bool is_relief = false;                 ///< a relief valve's setting, else a rating
    std::vector<meaning::Rating> weak = {}; ///< what is rated just so
};

struct SourceState {
    meaning::SourceId id;
    instants::Set on = instants::nothing;
    bool possibly_on = false;
    std::unique_ptr<Reach> reach; ///< from where it presses
    std::unique_ptr<Reach> draw;  ///< of a lifting part: backward from its suction
    std::vector<Threshold> thresholds;
};

/// Uncoupling, uncapping and lifting out.
bool takes_apart(instants::MoveKind kind);
/// How an end stands that such a move can take apart; nothing for other moves.
meaning::ValueSet together(const meaning::System& system, const instants::Move& move);

/// A variable put into a value in some configurations.
struct Placement {
    meaning::VariableId variable;
    std::uint32_t value = 0;
    instants::Set where = instants::nothing;
};

class Transport;

class Engine {
  public:
    Engine(const meaning::System& system, instants::Knowledge& knowledge);
    ~Engine();
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    const meaning::System& system() const { return system_; }
    instants::Knowledge& knowledge() { return knowledge_; }
    instants::Diagrams& diagrams() { return knowledge_.diagrams(); }
    instants::Set possible() const { return knowledge_.possible(); }
    const Network& network() const { return network_; }
    Contents& contents() { return contents_; }
    /// What every pocket may hold.
    Transport& transport() { return *transport_; }
    Heat& heat() { return heat_; }
    Charge& charge() { return charge_; }
    const std::vector<SourceState>& sources() const { return sources_; }
    const SourceState* source(meaning::SourceId id) const;

    // --- events
    /// Here a procedure starts: what runs now ran before.
    void begin();
    /// What the move puts where: what it names, and the ends that it leaves open.
    std::vector<Placement> placements(const instants::Move& move, instants::Set when);
    /// Puts things where the move puts them and works everything out anew.
    void move(const instants::Move& move, instants::Set when);
    /// Keeps the configurations of `set`.
    void narrow(instants::Set set);
    /// Contents changed: discharges and gravity are worked out anew.
    void contents_changed();
    /// In `when` it has been seen at these outlets that they have run out: pressure that was trapped is let off.
    void let_off(std::span<const meaning::OutletId> outlets, instants::Set when);
    /// Everything that is not known to be elsewhere is forgotten: how these variables stand.
    void forget(meaning::VariableId variable);

    // --- what is so, exact within possible()
    instants::Set truth(meaning::ExpressionId expression);
    /// How the variable may stand in the variants that have it; if none has, how it may stand at all.
    meaning::ValueSet values_where_there(meaning::VariableId variable);
    /// Where it could be seen to be true: of contents, all that is not surely otherwise.
    instants::Set plausible(meaning::ExpressionId expression);
    /// Some running source presses on the node with `pressure` or more.
    instants::Set pressed_with(meaning::NodeId node, const meaning::Quantity& pressure);
    /// The source gives more than `pressure`, while on.
    instants::Set gives_more_than(meaning::SourceId source, const meaning::Quantity& pressure, bool or_equal = false);
    /// Air is drawn at the start of this search, or something that is not surely liquid.
    instants::Set draws_air(Reach& draw);
    /// Where air may come otherwise than by emptying one of these.
    instants::Set draws_air_besides(Reach& draw, std::span<const meaning::ChamberId> emptied);
    /// Some liquid is drawn.
    instants::Set draws_something(Reach& draw);
    /// What this search draws on and where.
    std::vector<std::pair<Origin, instants::Set>> draws_on(Reach& draw);
    /// The lifting part pushes into at least one outlet.
    instants::Set has_outlet(const SourceState& source);
    /// Liquid of the chamber can fall to the outlet.
    instants::Set falls(meaning::ChamberId chamber, meaning::OutletId outlet);
    /// Pressure-driven discharges, those that have just stopped included.
    const std::vector<DischargeState>& discharges() const { return discharges_; }
    /// Gravity-driven ones.
    const std::vector<DischargeState>& gravity() const { return gravity_; }
    /// The configurations in which any of the outlet's ways is active.
    instants::Set active(meaning::OutletId outlet);
    /// The search for gravity from a chamber.
    Reach& gravity_reach(meaning::ChamberId chamber) { return *gravity_reach_[chamber.value]; }
    /// Where what a heated chamber holds could come out by its own pressure, by its index in heat().chambers().
    Reach& bursting_reach(std::size_t heated) { return *bursting_reach_[heated]; }
    /// Grows with everything that changes.
    std::uint64_t version() const { return version_; }
    /// Reach for pressure at the node's suction side: air and liquid drawn there.
    Reach& drawing_at(meaning::NodeId node);
    /// The vessels that may stand under it, and where they do.
    std::vector<std::pair<meaning::ChamberId, instants::Set>> vessels_under(meaning::OutletId outlet);
    /// The chambers and vessels that what comes out there comes into, whatever else it passes.
    std::vector<std::pair<meaning::ChamberId, instants::Set>> lands_in(meaning::OutletId outlet);
    FluidSet fluids_of(const Origin& origin) const;
    /// Where a source stands in sources().
    std::size_t index_of(meaning::SourceId source) const;
    /// What a source gives: itself, or what it draws on and where.
    std::vector<std::pair<Origin, instants::Set>> origins_of(const SourceState& source);
    /// The highest pressure that the source may give as things stand, Pa.
    double greatest_pressure(meaning::SourceId source);
    /// Seen: the chamber holds this fluid (any liquid where it is none), or nothing.
    void saw_holds(meaning::ChamberId chamber, meaning::FluidId fluid, instants::Set where);
    void saw_empty(meaning::ChamberId chamber, instants::Set where);
    bool is_gas(meaning::SourceId source) const;

  private:
    void build_sources();
    void build_gravity();
    void moved(std::vector<EdgeIndex> changed, std::vector<EdgeIndex> changed_in_detail,
               std::span<const meaning::VariableId> variables);
    instants::Set draws_air(Reach& draw, const std::function<instants::Set(meaning::ChamberId)>& gives_air);
    void refresh_source(SourceState& state);
    void work_out();
    void spread_contents();
    void work_out_discharges();
    void work_out_gravity();
    instants::Set fact(const meaning::Expression& fact);
    /// Where what the fact is about is left out by the options: there it counts as true.
    instants::Set left_out(const meaning::Expression& fact);

    const meaning::System& system_;
    instants::Knowledge& knowledge_;
    Network network_;
    Contents contents_;
    Heat heat_;
    Charge charge_;
    std::vector<SourceState> sources_;
    std::vector<std::unique_ptr<Reach>> gravity_reach_;
    std::vector<std::unique_ptr<Reach>> bursting_reach_; // per heated chamber
    std::vector<std::pair<meaning::NodeId, std::unique_ptr<Reach>>> drawing_;
    std::vector<std::unique_ptr<Reach>> landing_reach_;           // per outlet that lands in a port: onward from there
    std::vector<std::vector<std::uint32_t>> sources_by_variable_; // indices into sources_
    std::vector<DischargeState> discharges_;
    std::vector<DischargeState> gravity_;
    std::uint64_t version_ = 1;
    bool begun_ = false;
    std::unique_ptr<Transport> transport_;
};

} // namespace curbstop::proofs
