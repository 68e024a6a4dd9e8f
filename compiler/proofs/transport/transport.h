// How fluids move: what every pocket may hold after each event, by the rules of compiler/reference/proofs.md. Carries
// the inventory from event to event. Must not know: what any obligation demands, how findings are worded.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "proofs/engine.h"
#include "proofs/transport/block_walk.h"
#include "proofs/transport/by_pocket.h"
#include "proofs/transport/inventory.h"
#include "proofs/transport/region.h"

namespace curbstop::proofs {

/// What the ways to an outlet were found with: the versions of what is pressed on (or falls), of what is drawn on, and
/// of the ways that lead into the outlet itself.
using Stamp = std::array<std::uint64_t, 3>;

/// What comes out at one outlet, pushed by one source: its ways now, and since it began.
struct Stream {
    meaning::SourceId source;
    meaning::OutletId outlet;
    instants::Set now = instants::nothing;
    std::vector<std::pair<Origin, instants::Set>> origins; ///< what is drawn, and where

    /// A pocket on its ways. `depth` orders the pockets along the flow.
    struct Place {
        PocketIndex pocket = no_pocket;
        std::uint32_t depth = 0;
        std::uint32_t rank = 0; ///< of what every way passes; 0 for the rest
        bool by_top = false;    ///< of a chamber: every way leaves it by a port at its top
    };
    /// The pockets passed in configurations that have the same ways, in the order of the flow.
    struct Way {
        instants::Set where = instants::nothing;
        Origin origin;
        std::vector<Place> places;
        std::size_t drawn = 0; ///< so many of them before the lifting part
    };
    std::vector<Way> ways;
    /// Per pocket: swept at every instant since the discharge began.
    ByPocket<instants::Set> swept;
    /// Which liquids the pockets on its ways may have had when it began (Bounds::had).
    ByPocket<std::vector<Held>> held;
    /// How the pockets on its ways stood when it began, or at the last `until` since.
    ByPocket<std::vector<Found>> found;
    instants::Set blown = instants::nothing; ///< of gas: nothing but air has been seen to come since it began
    bool brought = false;                    ///< what stood on its ways has been counted where it lands
    /// What it lands in, as it was when it began.
    ByPocket<Bounds> landing;
    Stamp stamp{};
    instants::Set possible = instants::nothing;
};

/// What may look like it has arrived already without anyone noticing, m3. Common practice, no source.
inline constexpr double looks_alike_volume = 0.1e-3;

/// Per place of a way, of volumes given for each: what is not parted from it and all that lies beyond it, together.
std::vector<double> volumes_ahead(const Stream::Way& way, std::span<const double> volumes);

/// Whether what is seen at a glass (none: at the outlet) tells of a place on the way: of what lies before it, and of
/// its body.
bool seen_before(const Stream::Place& place, const Stream::Place* glass);

/// What falls out of a chamber: to an outlet, or into another chamber.
struct Fall {
    meaning::ChamberId from;
    Vertex target = none;                     ///< the outlet's, or the chamber's `low`
    instants::Set now = instants::nothing;    ///< where it would, if the chamber gave something
    instants::Set giving = instants::nothing; ///< of these, where it does
    instants::Set full = instants::nothing;   ///< of these, where the chamber was full when it began to run out
    std::vector<Passage> passages;
    Stamp stamp{};
    std::vector<std::pair<meaning::ChamberId, instants::Set>> lands; ///< of an outlet
    /// The version of the inventory when it was applied last, and what was possible then. 0: it has to be applied.
    std::uint64_t applied = 0;
    instants::Set possible = instants::nothing;
};

/// What a source, or a chamber by gravity, reaches with a fluid of at least this category: against the arrow, too, of
/// one-way ways that do not keep it back.
struct BackRegion {
    meaning::SourceId source;
    meaning::ChamberId chamber; ///< of gravity
    int category = 3;
    std::unique_ptr<Region> region;
};

/// What a drain, or the opening of a breach, has let out of a run or body: what was in it before.
struct LetOut {
    meaning::OutletId outlet;
    PocketIndex pocket = no_pocket;
    Piece was;
};

/// More than a vessel or an open chamber has room for may come into it.
struct TooMuch {
    meaning::ChamberId chamber;
    double volume = 0; ///< that may come, m3; `unlimited` where nothing says how much
    double room = 0;   ///< m3
    instants::Set where = instants::nothing;
    Cause was; ///< what brought what is in it already
    CauseKind kind = CauseKind::flow;
};

/// What fluid of one origin has to fill, or to push out, before it shows at what a flow names.
struct ToFill {
    Origin origin;
    meaning::SourceId source;
    instants::Set where = instants::nothing; ///< it runs
    struct Part {
        PocketIndex pocket = no_pocket;
        instants::Set fill = instants::nothing;  ///< it is to be filled
        instants::Set again = instants::nothing; ///< and held something that mixes with what comes
    };
    std::vector<Part> parts; ///< each pocket once
    /// Pressure tanks that hang on its ways.
    std::vector<std::pair<PocketIndex, instants::Set>> stores;
};

/// More than any vessel holds, m3: where nothing limits what may come.
inline constexpr double unlimited = 1e9;

/// An outside supply of drinking water.
bool supplies_drinking_water(const meaning::System& system, meaning::SourceId source);

/// Whether what a flow ends with is air that is drawn, or nothing more that comes.
bool draws_air(const meaning::System& system, const meaning::Flow& flow);

/// How much a flow says that passes, m3.
double volume_of(const std::optional<meaning::Quantity>& quantity, double otherwise);

class Transport {
  public:
    Transport(const meaning::System& system, instants::Knowledge& knowledge);
    ~Transport();

    const Pockets& pockets() const { return pockets_; }
    Inventory& inventory() { return inventory_; }
    const Network& network() const { return network_; }
    const std::vector<Stream>& streams() const { return streams_; }
    const std::vector<Fall>& falls() const { return falls_; }
    /// What drains and breaches have let out of runs and bodies since this was last called.
    std::vector<LetOut> take_let_out() { return std::exchange(let_out_, {}); }
    std::optional<PocketIndex> pocket_at(Vertex vertex) const {
        return pocket_of_[vertex] == no_pocket ? std::nullopt : std::optional(pocket_of_[vertex]);
    }

    /// What is to be filled at the `until` of a flow of liquid, per source and origin that it names.
    std::vector<ToFill> to_fill(Engine& engine, const meaning::Flow& flow, instants::Set when);

    /// The configurations of `where` in which a chamber still gives something.
    instants::Set gives(meaning::ChamberId chamber, instants::Set where);

    /// Where each pocket belongs to the drinking-water system.
    const std::vector<instants::Set>& drinking_water();

    std::vector<BackRegion>& back_regions() { return back_regions_; }
    /// What has come into vessels and open chambers beyond their room since this was last called.
    std::vector<TooMuch> take_too_much() { return std::exchange(too_much_, {}); }
    /// How much falls at most by what covers it, m3; nothing where that is not said. It is asked when a fall begins.
    using Limit = std::function<std::optional<double>(const DischargeKey&, instants::Set)>;
    void limit_by(Limit limit) { limit_ = std::move(limit); }

    /// Causes from here on are of this step.
    void at_step(std::uint32_t number) { step_ = number; }
    /// Edges of network() whose condition may have changed.
    void refresh(std::vector<EdgeIndex> changed);
    /// What runs has changed, or what is known.
    void after_event(Engine& engine);
    /// The observation of a flow or drain has come; credits what it proves.
    void until(Engine& engine, const meaning::Flow& flow, instants::Set when);
    void poured(Engine& engine, meaning::ChamberId vessel, meaning::NodeId into, instants::Set when);
    void saw_holds(meaning::ChamberId chamber, meaning::FluidId fluid, instants::Set where);
    void saw_empty(meaning::ChamberId chamber, instants::Set where);
    /// So long nothing is done.
    void wait(const meaning::Quantity& time, instants::Set when);
    /// Pockets of these parts and of the runs that join them are left out of every promise to be disinfected.
    void leave_out(const std::vector<meaning::PartId>& parts);
    std::vector<bool> pockets_of(const std::vector<meaning::PartId>& parts) const;

  private:
    /// The dead legs of one source, as they were last worked out: per block what lies ahead of it.
    struct Legs {
        /// All that pressing on a pocket hangs on. Where that is what it was the last time, nothing changes.
        struct Press {
            std::uint32_t ahead = UINT32_MAX;
            instants::Set dead = instants::nothing;
            WhileFull takes = WhileFull::nothing;
            double shared = 0;
            std::uint64_t changed_at = 0; ///< the pocket, before
            friend bool operator==(const Press&, const Press&) = default;
        };

        bool known = false; ///< worked out at all
        instants::Set on = instants::nothing, possible = instants::nothing, running = instants::nothing;
        instants::Set pressed = instants::nothing; ///< where it is on and that is possible
        double pressure = 0;
        BlockWalk walk;
        std::vector<Press> last;              ///< per vertex
        std::vector<Block> leg_blocks;        ///< of the leg that is being measured, kept as they ask for memory
        std::vector<PocketIndex> leg_pockets; ///< likewise
        std::vector<char> behind_leg;         ///< per block
        std::vector<Block> root;              ///< per block: the one that the leg it belongs to begins with
        std::vector<Block> gassy;             ///< with pockets that may hold gas and were pressed on
        std::vector<std::uint32_t> hollow_at; ///< per block that is not full off the flows, or from which such a one
                                              ///< hangs: the vertex that it hangs by itself; else UINT32_MAX
        std::vector<std::uint32_t> hollow;    ///< per vertex: how many of those hang by it
        std::vector<std::pair<PocketIndex, instants::Set>> flows;
        std::vector<instants::Set> flowing; ///< per pocket
        std::size_t seen = 0;               ///< of the inventory's changes

        void start_anew(const LiveBlocks& blocks, Carried origin, std::size_t pocket_count, std::size_t vertex_count);
        /// Writes down whether a block is hollow, and queues the one it hangs from where that matters to it.
        void note_hollow(const LiveBlocks& tree, Block block, bool is_hollow);
    };
    struct Regions {
        std::unique_ptr<Region> pressed, drawn;
        Legs legs;
    };
    /// What stands beside the ways of all that falls from one chamber, as it was last worked out.
    struct Standing {
        bool known = false; ///< worked out at all
        instants::Set holds = instants::nothing, possible = instants::nothing;
        std::array<std::uint64_t, 2> idle_at{}; ///< the versions at which nothing was beneath it that is not full
        BlockWalk walk;
        std::vector<std::pair<PocketIndex, instants::Set>> falls; ///< where something falls through a pocket
        std::uint64_t falls_version = 0;
        std::size_t seen = 0; ///< of the inventory's changes
    };
    /// Runs and bodies that may not be full.
    struct Hollows {
        std::vector<PocketIndex> pockets;
        std::vector<std::uint32_t> place; ///< per pocket: 1 + its place in `pockets`, or 0
        std::uint64_t version = 1;
        std::size_t seen = 0; ///< of the inventory's changes

        void note(PocketIndex pocket, bool is_hollow);
    };
    struct Bladder {
        PocketIndex pocket = no_pocket;
        Vertex vertex = none;
        meaning::ExpressionId on = meaning::Expressions::always(); ///< it is not shut off
        std::unique_ptr<Region> lets_out;                          ///< what it pushes into
        instants::Set pushed = instants::nothing; ///< where it has done so in this event: once is enough
    };
    void build_regions();
    void build_back_regions();
    void note_openings(Engine& engine);
    void spill(Engine& engine, PocketIndex body, meaning::OutletId outlet, instants::Set opened);
    void gather_streams(Engine& engine);
    /// Says whether any has just begun.
    bool gather_falls(Engine& engine);
    std::uint64_t apply_all(Engine& engine);
    bool lands_on_port(meaning::OutletId outlet) const { return landing_[outlet.value] != nullptr; }
    /// Whether anything has changed since that version of the inventory in what a rule reads and writes.
    bool has_changed(Engine& engine, meaning::OutletId outlet, std::uint64_t since) const;
    bool has_changed(Engine& engine, const Stream& stream, std::uint64_t since) const;
    bool has_changed(Engine& engine, const Fall& running, std::uint64_t since) const;
    void gather_fall(std::vector<Fall>& before, Fall running);
    /// Where what a pump draws from an origin begins.
    Vertex origin_vertex(const Origin& origin) const;
    void find_ways(Engine& engine, Stream& stream);
    /// Writes down how the pocket stands now.
    void note_found(Stream& stream, PocketIndex pocket, instants::Set then);
    void begin_stream(Engine& engine, Stream& stream, instants::Set began);
    void flow(Engine& engine, const Stream& stream);
    /// `with_air`: a pump draws some; of a source of gas, nothing else comes any more.
    void flow(Engine& engine, const Stream& stream, const Stream::Way& way, bool with_air);
    std::vector<instants::Set> differently_clean(const Stream::Way& way);
    void leave_what_all_pass();
    void fall(Engine& engine, const Fall& fall);
    bool reaches_hollow(Region& region) const;
    void note_hollows();
    std::vector<std::pair<PocketIndex, instants::Set>> fallen_through(meaning::ChamberId from);
    void join_by_pocket(std::vector<std::pair<PocketIndex, instants::Set>>& where);
    void stand_beside(Engine& engine, meaning::ChamberId from);
    Carried comes_beside(const Standing& standing, const Region& region, Block block, PocketIndex pocket);
    void stand_in_block(meaning::ChamberId from, Block block);
    void dead_legs(Engine& engine, std::size_t source);
    void join_drawn(Region& drawn, const Origin& origin, instants::Set where, Carried& into);
    bool is_full(PocketIndex pocket) const;
    bool may_hold_gas(PocketIndex pocket) const;
    bool gives_way(const Region& region, const Legs& legs, PocketIndex pocket, std::uint32_t member);
    /// What gives way to what presses: one pocket, or more than that one.
    struct Hollow {
        PocketIndex one = no_pocket;
        bool several = false;
        bool any() const { return several || one != no_pocket; }
        bool beside(PocketIndex pocket) const { return several || (one != no_pocket && one != pocket); }
    };
    Hollow hollow_of(const Region& region, const Legs& legs, Block block);
    Block leg_root(const Region& region, const Legs& legs, Block block);
    double leg_volume(const Region& region, Legs& legs, Block root) const;
    std::uint32_t carried_to(const Region& region, BlockWalk& walk, Block block, instants::Set on);
    void press_block(Region& region, Legs& legs, Block block, bool liquid);
    void refill_bladder(Region& region, Block block, PocketIndex bladder, instants::Set dead, const Carried& origin,
                        double pressure);
    void bladders(Engine& engine);
    void push_out(Engine& engine, const Bladder& bladder, meaning::OutletId outlet, const Passage& passage);
    std::vector<Vertex> openings(Engine& engine, std::size_t source) const;
    std::vector<std::pair<LiquidSet, instants::Set>> arriving_from(const Origin& origin);
    void add_to_fill(Engine& engine, const Stream& stream, const Stream::Way& way, LiquidSet arriving,
                     instants::Set here, ToFill& into);
    Carried composition(Engine& engine, const Stream& stream, const Stream::Way& way);
    void credit_drawn_out(const meaning::Flow& flow, const Stream& stream, instants::Set when);
    void credit_sweep(Engine& engine, const meaning::Flow& flow, const Stream& stream, instants::Set when);
    void credit_air(const meaning::Flow& flow, const Stream& stream, instants::Set when, bool gas);
    void credit_clear(Engine& engine, const meaning::Flow& flow, const Stream& stream, instants::Set when);
    void credit_reading(Engine& engine, const meaning::Flow& flow, const Stream& stream, instants::Set when);
    void credit_landing(Engine& engine, const meaning::Flow& flow, const Stream& stream, instants::Set when);
    void credit_basin(meaning::ChamberId basin, const Carried& what, double volume, instants::Set when);
    void credit_passing(meaning::ChamberId first, const Carried& what, double volume, instants::Set when);
    /// Where on a way a flow is seen or read: null where that is at its outlet, nothing where it is not on this way.
    std::optional<const Stream::Place*> glass_of(const meaning::Flow& flow, const Stream& stream,
                                                 const Stream::Way& way) const;
    /// Per place of a way, whether it looks alike, in the configurations of `where`.
    struct Alike {
        instants::Set where;
        std::vector<char> places;
    };
    /// Configurations in which other things stood on a way when the stream began; all in one where there are too many.
    std::vector<instants::Set> beginnings(const Stream& stream, const Stream::Way& way, instants::Set when);
    /// Per place of a way, the origin before them: whether the disinfectant may have stood from there on already.
    std::vector<char> reads_alike(const meaning::Flow& flow, const Stream& stream, const Stream::Way& way,
                                  std::uint32_t agent, double reading, instants::Set where);
    bool leaves_by_top(PocketIndex pocket, const Passage& passage, std::uint32_t rank, bool towards_root) const;
    /// Whether what is seen at an outlet, or read there, tells that what the origin holds has arrived.
    bool shows_arrival(const meaning::Flow& flow, const Carried& what) const;
    std::vector<Alike> looks_alike(const meaning::Flow& flow, const Stream& stream, const Stream::Way& way,
                                   const Carried& what, instants::Set when);
    std::vector<char> alike_within(const meaning::Flow& flow, const Stream& stream, const Stream::Way& way,
                                   LiquidSet arriving, instants::Set where);
    void take_in(meaning::ChamberId chamber, const Carried& carried, instants::Set where, CauseKind kind);
    void land(Engine& engine, meaning::OutletId outlet, const Carried& carried, instants::Set where, CauseKind kind);
    void lose_gas(meaning::ChamberId chamber, double volume, instants::Set where, CauseKind kind);
    /// What comes in here stays in these.
    struct Receiver {
        meaning::ChamberId chamber;
        instants::Set where = instants::nothing;
    };
    void add_receivers(Engine& engine, meaning::ChamberId chamber, instants::Set where,
                       std::vector<meaning::ChamberId>& passed, std::vector<Receiver>& found);
    void receive(const std::vector<Receiver>& receivers, double volume, CauseKind kind, meaning::ChamberId filled);
    void come_in(Engine& engine, meaning::ChamberId chamber, double volume, instants::Set where, CauseKind kind);
    void count_flow(Engine& engine, const meaning::Flow& flow, instants::Set when);
    void count_falls(Engine& engine);
    void rinse_way_down(const meaning::Flow& flow, meaning::OutletId outlet, instants::Set when);
    void credit_drain(Engine& engine, const meaning::Flow& flow, instants::Set when);
    /// Per way of the system the pocket that lies on it, mostly none.
    std::vector<PocketIndex> passed_pockets() const;
    Cause cause(CauseKind kind) const { return {kind, step_}; }

    const meaning::System& system_;
    instants::Knowledge& knowledge_;
    Pockets pockets_;
    Network network_;
    std::vector<PocketIndex> pocket_of_; // per vertex
    Inventory inventory_;
    std::vector<std::vector<Vertex>> vertices_of_; // per pocket
    std::vector<Regions> regions_;                 // as the engine's sources
    std::vector<std::unique_ptr<Region>> gravity_; // per chamber; null for vessels
    std::vector<Standing> standing_;               // per chamber
    Hollows hollow_;
    std::vector<std::unique_ptr<Region>> landing_; // per outlet that lands on a port: onward from there
    std::vector<Bladder> bladders_;
    std::vector<BackRegion> back_regions_;
    std::vector<Stream> streams_;
    std::vector<Fall> falls_;
    std::uint64_t falls_version_ = 1; // grows when their ways change
    std::vector<LetOut> let_out_;
    /// Falls that have just begun: which, and where.
    std::vector<std::pair<std::size_t, instants::Set>> begun_falls_;
    std::vector<TooMuch> too_much_;
    std::vector<instants::Set> drinking_water_; ///< empty: nobody has asked yet
    Limit limit_;
    std::vector<std::pair<EdgeIndex, instants::Set>> openings_; // breaches and open ends, as they were
    std::uint32_t step_ = 0;
};

} // namespace curbstop::proofs
