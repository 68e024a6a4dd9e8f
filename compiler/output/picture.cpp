#include "output/picture.h"

#include "output/sheet_picture.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

/// With more moved things than this, what is joined to them is left out: the picture would be of half the system.
constexpr std::size_t most_moved_with_neighbours = 4;

class Composer {
  public:
    Composer(const Words& words, const DrawingGraph& graph, const proofs::StepReport& step)
        : words_(&words)
        , graph_(&graph)
        , step_(&step)
        , state_(step_state(words.system(), step))
        , card_of_graph_(graph.cards.size()) {
        picture_.step = step.number;
    }

    Picture compose(const std::vector<Moved>& moves) {
        for (const Moved& moved : moves) {
            move(moved);
        }
        const std::size_t moved_cards = picture_.cards.size();
        pipes(moved_cards <= most_moved_with_neighbours);
        for (const Moved& moved : moves) {
            joints(moved);
        }
        outs();
        for (PictureCard& card : picture_.cards) {
            fill(card);
        }
        return std::move(picture_);
    }

  private:
    [[nodiscard]] const System& system() const { return words_->system(); }

    std::size_t add(PictureCard card) {
        picture_.cards.push_back(std::move(card));
        return picture_.cards.size() - 1;
    }

    std::size_t card_of(std::size_t in_graph) {
        if (!card_of_graph_[in_graph]) {
            const Card& from = graph_->cards[in_graph];
            PictureCard card;
            card.symbol = from.symbol;
            card.label = from.label;
            card.optional = from.optional;
            card.part = from.part;
            card.node = from.node;
            if (card.part && system()[card.part].variable) {
                card.passage = passage_of(system(), card.part, step_->standing);
            }
            card_of_graph_[in_graph] = add(std::move(card));
        }
        return *card_of_graph_[in_graph];
    }

    std::size_t card_of_part(PartId part) {
        const auto found = std::ranges::find(graph_->cards, part, &Card::part);
        if (found != graph_->cards.end()) {
            return card_of(static_cast<std::size_t>(found - graph_->cards.begin()));
        }
        const auto known = std::ranges::find(picture_.cards, part, &PictureCard::part);
        if (known != picture_.cards.end()) {
            return static_cast<std::size_t>(known - picture_.cards.begin());
        }
        PictureCard card; // no water passes
        card.symbol = Symbol::control;
        card.label = words_->part(part);
        card.part = part;
        return add(std::move(card));
    }

    std::size_t card_of_node(NodeId node) {
        if (system()[node].part) {
            return card_of_part(system()[node].part);
        }
        const auto found = std::ranges::find(graph_->cards, node, &Card::node);
        if (found != graph_->cards.end()) {
            return card_of(static_cast<std::size_t>(found - graph_->cards.begin()));
        }
        const auto known = std::ranges::find(picture_.cards, node, &PictureCard::node);
        if (known != picture_.cards.end()) {
            return static_cast<std::size_t>(known - picture_.cards.begin());
        }
        PictureCard card;
        card.symbol = system()[node].kind == NodeKind::vessel ? Symbol::vessel : Symbol::place;
        card.label = words_->node(node);
        card.node = node;
        return add(std::move(card));
    }

    std::size_t card_of_variable(VariableId id) {
        const Variable& variable = system()[id];
        if (variable.part) {
            return card_of_part(variable.part);
        }
        for (std::size_t i = 0; i < system().nodes.size(); ++i) {
            if (system().nodes[i].end == id) {
                return card_of_node(NodeId(i));
            }
        }
        for (const Chamber& chamber : system().chambers) {
            if (chamber.whereabouts == id) {
                return card_of_node(chamber.node);
            }
        }
        const auto known = std::ranges::find(picture_.cards, id, &PictureCard::variable);
        if (known != picture_.cards.end()) {
            return static_cast<std::size_t>(known - picture_.cards.begin());
        }
        PictureCard card;
        card.symbol = Symbol::cover;
        card.label = words_->variable(id);
        card.variable = id;
        return add(std::move(card));
    }

    void move(const Moved& moved) {
        const std::size_t index = card_of_variable(moved.variable);
        PictureCard& card = picture_.cards[index];
        card.moved = true;
        card.moves.push_back(move_words(*words_, moved, card.label));
    }

    void pipes(bool with_neighbours) {
        const std::vector<std::optional<std::size_t>> moved = card_of_graph_;
        for (const Line2d& line : graph_->lines) {
            const bool from = moved[line.from].has_value();
            const bool to = moved[line.to].has_value();
            if (!(with_neighbours ? from || to : from && to)) {
                continue;
            }
            PicturePipe pipe;
            pipe.from = neighbour(line.from, line.to);
            pipe.to = neighbour(line.to, line.from);
            pipe.kind = line.run != UINT32_MAX        ? PipeKind::pipe
                        : line.stroke == Stroke::fall ? PipeKind::falls
                                                      : PipeKind::inside;
            pipe.optional = line.optional;
            pipe.pressure = state_.pressure[line.from_node.value] && state_.pressure[line.to_node.value];
            if (pipe.kind == PipeKind::pipe) {
                pipe.holds = key(state_.runs[line.run]);
                pipe.shut_from = is_shut_at(system(), line.from_node, step_->standing);
                pipe.shut_to = is_shut_at(system(), line.to_node, step_->standing);
            }
            picture_.pipes.push_back(pipe);
        }
    }

    // A tee says little by itself: it is told where its other pipes lead.
    std::size_t neighbour(std::size_t in_graph, std::size_t seen_from) {
        const bool known = card_of_graph_[in_graph].has_value();
        const std::size_t index = card_of(in_graph);
        if (!known && picture_.cards[index].symbol == Symbol::tee) {
            std::vector<bool> passed(graph_->cards.size());
            passed[seen_from] = passed[in_graph] = true;
            parts_beyond(*graph_, in_graph, passed, picture_.cards[index].beyond);
        }
        return index;
    }
    // What an end is coupled to or dipped in, what a vessel stands under.
    void joints(const Moved& moved) {
        const Variable& variable = system()[moved.variable];
        for (std::size_t value = 0; value < variable.values.size(); ++value) {
            const NodeId partner = variable.values[value].partner;
            if (moved.after != ValueSet{1} << value || !partner) {
                continue;
            }
            PicturePipe joint;
            joint.from = card_of_variable(moved.variable);
            joint.to = card_of_node(partner);
            joint.kind = PipeKind::coupled;
            if (variable.kind == VariableKind::vessel) {
                std::swap(joint.from, joint.to);
                joint.kind = PipeKind::falls;
            }
            const bool drawn = std::ranges::any_of(picture_.pipes, [&](const PicturePipe& pipe) {
                return pipe.kind == joint.kind && ((pipe.from == joint.from && pipe.to == joint.to) ||
                                                   (pipe.from == joint.to && pipe.to == joint.from));
            });
            if (!drawn && joint.from != joint.to) {
                picture_.pipes.push_back(joint);
            }
        }
    }

    void outs() {
        std::vector<OutletId> before;
        std::vector<OutletId> now;
        const auto add = [](const std::vector<proofs::Discharge>& list, std::size_t count,
                            std::vector<OutletId>& found) {
            for (std::size_t i = 0; i < count; ++i) {
                if (std::ranges::find(found, list[i].outlet) == found.end()) {
                    found.push_back(list[i].outlet);
                }
            }
        };
        add(step_->discharges, step_->discharges_before, before);
        add(step_->falls, step_->falls_before, before);
        add(step_->discharges, step_->discharges.size(), now);
        add(step_->falls, step_->falls.size(), now);
        for (const OutletId id : now) {
            out(system()[id], std::ranges::find(before, id) == before.end());
        }
    }
    void out(const Outlet& outlet, bool is_new) {
        PictureOut found;
        NodeId lands = outlet.lands;
        PartId part = outlet.part;
        NodeId node = outlet.end;
        const ChamberId fills = outlet.fills                                                  ? outlet.fills
                                : lands && outlet.part && system()[lands].part == outlet.part ? system()[lands].chamber
                                                                                              : ChamberId();
        if (fills) {
            found.fills = true;
            part = system()[fills].part;
            node = system()[fills].node;
            lands = {};
        } else if (!lands && outlet.below) {
            for (PartId above = outlet.part; above && !lands; above = system()[above].parent) {
                lands = system()[above].below;
            }
        }
        found.at = part ? words_->part(part) : node ? words_->node(node) : std::string();
        found.into = lands ? words_->node(lands) : std::string();
        const auto shown = std::ranges::find_if(picture_.cards, [&](const PictureCard& card) {
            return part ? card.part == part : node && card.node == node;
        });
        if (shown != picture_.cards.end()) {
            found.card = static_cast<std::size_t>(shown - picture_.cards.begin());
        } else if (!is_new) {
            return;
        }
        const bool told = std::ranges::any_of(picture_.outs, [&](const PictureOut& other) {
            return other.at == found.at && other.into == found.into && other.fills == found.fills;
        });
        if (!told) {
            picture_.outs.push_back(std::move(found));
        }
    }

    std::size_t key(const Content& filling) {
        const auto known = std::ranges::find(picture_.key, filling, &KeyEntry::filling);
        if (known != picture_.key.end()) {
            return static_cast<std::size_t>(known - picture_.key.begin());
        }
        picture_.key.push_back({filling.fluids.empty() ? std::nullopt : std::optional(filling.fluids.front()), filling,
                                filling_words(*words_, filling)});
        return picture_.key.size() - 1;
    }

    void fill(PictureCard& card) {
        if (card.part) {
            for (const Content& filling : state_.of_part(system(), card.part)) {
                card.holds.push_back(key(filling));
            }
            card.pressure = state_.presses_on(system(), card.part);
        } else if (card.node) {
            if (const ChamberId chamber = system()[card.node].chamber) {
                card.holds.push_back(key(state_.chambers[chamber.value]));
            }
            card.pressure = state_.pressure[card.node.value];
        }
    }

    const Words* words_;
    const DrawingGraph* graph_;
    const proofs::StepReport* step_;
    StepState state_;
    std::vector<std::optional<std::size_t>> card_of_graph_;
    Picture picture_;
};

} // namespace

Picture compose_picture(const Words& words, const DrawingGraph& graph, const proofs::StepReport& step,
                        std::vector<ValueSet> before) {
    before.resize(words.system().variables.size(), ~ValueSet{0});
    const std::vector<Moved> moves = moves_of(words.system(), step, before);
    return moves.empty() ? Picture{} : Composer(words, graph, step).compose(moves);
}

} // namespace curbstop::output
