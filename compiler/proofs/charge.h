// Pressure that stays: where liquid or gas is still charged after what pressed on it is off or cut off, as exact sets
// of configurations per place, and since when. The rules are those of compiler/reference/proofs.md, `Charge`. An event
// costs what it changes. Must not know: what is refused for it, how that is worded.
#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"
#include "proofs/extent.h"
#include "proofs/network.h"

namespace curbstop::proofs {

/// How a place came to be charged. Steps are numbered as on the sheet; 0 is before the first of this procedure.
struct ChargeStory {
    instants::Set where = instants::nothing;
    meaning::SourceId by; ///< what pressed on it last; of what is heated, the heat
    std::uint32_t pressed_in = 0;
    std::uint32_t cut_off_in = 0; ///< since when nothing has pressed on it, or when it spread here
    bool gas = false;
};

class Charge {
  public:
    Charge(const meaning::System& system, const Network& network, instants::Knowledge& knowledge);

    // --- events
    /// A supply or lifting part is on in `set` from the next event on.
    void runs(meaning::SourceId source, instants::Set set);
    /// Once, after runs(): what the sources may have left behind before anyone came.
    void begin();
    /// Another procedure goes on from here; its steps are numbered anew.
    void next_procedure();
    /// Events from here on are in this step.
    void in_step(std::uint32_t number) { step_ = number; }
    /// After a move, or after let_off(). `changed`: edges that may be open otherwise than before; `moved`: what was
    /// moved.
    void event(std::span<const EdgeIndex> changed, std::span<const meaning::VariableId> moved);
    /// In `when` it has been seen at these outlets that they have run out. An event() must follow.
    void let_off(std::span<const meaning::OutletId> outlets, instants::Set when);
    /// In `when` there is no pressure at the node, so neither where it would come from; with no node, nowhere.
    void none_at(meaning::NodeId node, instants::Set when);

    // --- what is so, exact within what is possible
    /// A running source presses on it, or it is charged.
    instants::Set under_pressure(meaning::NodeId node);
    instants::Set under_pressure_anywhere();
    instants::Set pressed_anywhere();
    /// A running source presses on it.
    instants::Set pressed(meaning::NodeId node) { return pressed_on(network_.source_vertex(node)); }
    /// It is charged with gas, a running source of gas included.
    instants::Set gas_at(Vertex vertex) const { return sets().either(gas_[vertex], gas_press_.at(vertex)); }
    /// Gas that is charged has a way to the outlet.
    instants::Set gas_pushes_out(meaning::OutletId outlet);
    /// Some node that is under pressure in a configuration; there must be one.
    meaning::NodeId somewhere(const std::vector<bool>& configuration) const;
    /// How the node came to be under pressure in a configuration.
    std::optional<ChargeStory> story(meaning::NodeId node, const std::vector<bool>& configuration) const;

  private:
    using Set = instants::Set;
    // Vertices, each listed once.
    struct Marked {
        std::vector<Vertex> list;
        std::vector<char> is;
        void add(Vertex vertex) {
            if (is[vertex] == 0) {
                is[vertex] = 1;
                list.push_back(vertex);
            }
        }
        void clear() {
            for (const Vertex vertex : list) {
                is[vertex] = 0;
            }
            list.clear();
        }
    };
    // What charges while it stands so: a store once it is pressed on, a heated chamber.
    struct Keeper {
        meaning::SourceId id;
        Vertex vertex;
        std::vector<meaning::VariableId> variables; ///< that its being on depends on
        Set on = instants::nothing;
    };
    struct Vent {
        meaning::ChamberId chamber;
        Set unvented_before;
    };

    instants::Diagrams& sets() const { return knowledge_.diagrams(); }
    bool some(Set set) const { return set != instants::nothing && !sets().disjoint(set, knowledge_.possible()); }
    Set pressed_on(Vertex vertex) const { return sets().either(liquid_press_.at(vertex), gas_press_.at(vertex)); }
    /// A vented chamber cannot.
    Set can_be_charged(Vertex vertex) const;
    Set unvented(meaning::ChamberId chamber) const { return network_.edge(through_[chamber.value]).open; }

    // charge.cpp: an event
    void find_edges();
    void sort_out(std::span<const EdgeIndex> changed);
    void take_over_presses();
    void lose_press(std::vector<Set>& charged, const Extent::Change& change, Set now);
    void note_press(Vertex vertex, const Extent& extent, Set grown);
    bool charge(std::vector<Set>& charged, Vertex vertex, Set more, const ChargeStory& story);
    void spread_on(std::vector<Set>& charged, Marked& work);
    void vents_move();
    void gas_settles();
    void liquid_settles();
    void look_again_before(Vertex vertex, const std::vector<Set>& ran_out);
    /// What a `while` asks of anything but positions counts as so.
    void refresh(Keeper& keeper) {
        keeper.on =
            knowledge_.truth(system_[keeper.id].on, [](const meaning::Expression&) { return instants::everything; });
    }
    void start_at_chambers();
    bool liquid(const std::vector<Set>& charged) const { return &charged == &liquid_; }
    std::uint8_t classes(const std::vector<Set>& charged) const {
        return static_cast<std::uint8_t>(liquid(charged) ? pass : pass | gas_fall);
    }

    // charge_out.cpp: running out
    template <typename WayOut>
    void run_out(std::vector<Set>& charged, std::span<const Vertex> candidates, const WayOut& way_out);
    Set fills(const Edge& edge) const;
    void all_run_out(std::vector<Set>& charged, std::span<const Vertex> candidates);
    void standing_open_run_out();

    // charge_start.cpp
    struct Reached {
        std::vector<Set> where;
        std::vector<meaning::SourceId> by;
    };
    struct Start {
        meaning::SourceId by;
        Vertex vertex;
        Set set;
    };
    Set could_be(meaning::ExpressionId expression, bool wanted);
    Set could_be_open(const Edge& edge);
    Reached could_reach(std::uint8_t classes, std::span<const Start> starts, std::span<const Set> open);

    static bool is_asked_for(const meaning::System& system);

    const meaning::System& system_;
    const Network& network_;
    instants::Knowledge& knowledge_;
    const bool asked_for_;            ///< else nothing is followed: where nothing is opened by hand it costs nothing
    Extent liquid_press_, gas_press_; ///< what running sources press on
    std::vector<Set> liquid_, gas_;   ///< per vertex: charged, beyond what a running source of that phase presses on;
                                      ///< liquid only where no source presses at all and no gas is
    std::vector<Keeper> stores_, heats_;
    std::vector<std::pair<meaning::SourceId, Set>> chamber_sources_; ///< pressing at a chamber: only while unvented
    std::vector<EdgeIndex> through_;                                 ///< per chamber: from `in` to `out`
    std::vector<meaning::ChamberId> entered_;                        ///< per vertex: the chamber whose `in` it is
    std::vector<char> standing_open_;      ///< per edge: to an outlet that no part's position shuts
    std::vector<char> always_vented_;      ///< per chamber
    std::vector<Set> seen_open_;           ///< per edge: how it stood at the last event
    std::vector<EdgeIndex> opened_, shut_; ///< of this event
    std::vector<Vent> vents_;              ///< chambers whose vents moved in this event
    Marked gas_work_, liquid_work_;        ///< to be spread on from
    Marked gas_out_, liquid_out_;          ///< may have got a way out
    std::vector<Set> out_;                 ///< per vertex, while running out; else nothing
    std::vector<Vertex> ran_out_;          ///< whose out_ is not nothing
    std::uint32_t step_ = 0, procedure_ = 0;
    struct Press {
        meaning::SourceId by;
        std::uint32_t step = 0, procedure = 0;
    };
    struct Past : ChargeStory {
        std::uint32_t pressed_procedure = 0, cut_off_procedure = 0;
    };
    std::vector<Press> last_press_;
    std::vector<std::vector<Past>> past_;
};

} // namespace curbstop::proofs
