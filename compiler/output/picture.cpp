#include "output/picture.h"

#include "output/picture_ports.h"
#include "output/sheet_picture.h"

#include <algorithm>
#include <bit>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_parts = 2; ///< more is a wall of pictures that nobody reads

class Composer {
  public:
    Composer(const Words& words, const DrawingGraph& graph, const std::vector<ValueSet>& standing,
             const std::vector<ValueSet>& before, const std::vector<Moved>& moves)
        : words_(&words)
        , graph_(&graph)
        , standing_(standing)
        , before_(&before)
        , moves_(&moves) {}

    /// Nothing of what is no valve.
    [[nodiscard]] std::optional<PicturePart> part(const Moved& moved) const {
        const PartId id = system()[moved.variable].part;
        if (!id || system()[id].variable != moved.variable) {
            return std::nullopt;
        }
        const std::optional<ValveForm> form = valve_form(system(), id);
        if (!form) {
            return std::nullopt;
        }
        PicturePart result;
        result.lets_out = form->lets_out;
        result.label = words_->part(id);
        result.ports = port_words(*words_, *graph_, id, form->ports);
        if (result.lets_out) {
            result.out_to = lands_in(id);
        }
        result.frames = frames(moved, id, *form);
        const bool turns = std::ranges::any_of(
            result.frames, [&](const PictureFrame& frame) { return frame.ways != result.frames.front().ways; });
        return turns ? std::optional(std::move(result)) : std::nullopt;
    }

  private:
    [[nodiscard]] const System& system() const { return words_->system(); }

    /// The vessels that stand under it in this step; the ground or what else is below it, where they may not.
    [[nodiscard]] std::string lands_in(PartId part) const {
        std::vector<Phrase> places;
        bool surely = false;
        for (std::size_t i = 0; i < system().variables.size(); ++i) {
            const VariableId vessel(static_cast<std::uint32_t>(i));
            if (system()[vessel].kind != VariableKind::vessel) {
                continue;
            }
            const auto moved = std::ranges::find(*moves_, vessel, &Moved::variable);
            const bool placed = moved != moves_->end() && !moved->through.empty();
            for (std::uint32_t value = 0; value < system()[vessel].values.size(); ++value) {
                const NodeId under = system()[vessel].values[value].partner;
                if (!under || system()[under].part != part) {
                    continue;
                }
                const ValueSet before = (*before_)[i];
                if (placed ? std::ranges::find(moved->through, value) != moved->through.end()
                           : (before >> value & 1) != 0) {
                    places.push_back(phrase(words_->variable(vessel)));
                    // What was put under a part that only some have is there where the part is.
                    surely = surely || placed || std::has_single_bit(before) ||
                             system()[part].exists != Expressions::always();
                }
            }
        }
        for (const OutletId id : system()[part].outlets) {
            const Outlet& outlet = system()[id];
            const NodeId lands = outlet.lands ? outlet.lands : outlet.below ? system()[part].below : NodeId();
            const Phrase place =
                phrase(lands ? words_->node(lands) : Wording(words_->tongue().text(Saying::the_ground)));
            if (!surely && std::ranges::find(places, place) == places.end()) {
                places.push_back(place);
            }
        }
        return plain(words_->tongue().one_of(places));
    }

    [[nodiscard]] std::vector<PictureFrame> frames(const Moved& moved, PartId part, const ValveForm& form) const {
        std::vector<ValueSet> stands{moved.before};
        for (const std::uint32_t value : moved.through) {
            stands.push_back(ValueSet{1} << value);
        }
        if (moved.through.empty() || (moved.after >> moved.through.back() & 1) == 0) {
            stands.push_back(moved.after);
        }
        std::vector<PictureFrame> result;
        for (const ValueSet values : stands) {
            result.push_back(
                {words_->values(moved.variable, values), valve_ways(system(), part, form, values, standing_)});
        }
        return result;
    }

    const Words* words_;
    const DrawingGraph* graph_;
    std::vector<ValueSet> standing_;
    const std::vector<ValueSet>* before_;
    const std::vector<Moved>* moves_;
};

} // namespace

bool PicturePart::numbered() const {
    std::vector<std::vector<PictureWay>> stands;
    for (const PictureFrame& frame : frames) {
        stands.push_back(frame.ways);
    }
    return takes_sides(ports.size(), stands);
}

Picture compose_picture(const Words& words, const DrawingGraph& graph, const proofs::StepReport& step,
                        std::vector<ValueSet> before) {
    before.resize(words.system().variables.size(), ~ValueSet{0});
    std::vector<ValueSet> standing = step.standing;
    standing.resize(words.system().variables.size(), ~ValueSet{0});
    const std::vector<Moved> moves = moves_of(words.system(), step, before);
    const Composer composer(words, graph, standing, before, moves);
    Picture picture;
    picture.step = step.number;
    for (const Moved& moved : moves) {
        if (std::optional<PicturePart> part = composer.part(moved)) {
            picture.parts.push_back(std::move(*part));
        }
    }
    if (picture.parts.size() > most_parts) {
        picture.parts.clear();
    }
    return picture;
}

} // namespace curbstop::output
