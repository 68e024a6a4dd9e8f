#include "output/drawing_excerpt.h"

#include "output/sheet_picture.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace curbstop::output {

namespace {

class Excerpt {
  public:
    Excerpt(const Words& words, const DrawingGraph& graph, const FarEnds* far_ends)
        : words_(&words)
        , graph_(&graph)
        , far_ends_(far_ends)
        , place_(graph.cards.size())
        , piece_(graph.cards.size()) {}

    DrawingGraph of(const std::vector<CardGroup>& pieces) {
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            for (const std::size_t card : pieces[i]) {
                piece_[card] = i;
                place_[card] = part_.cards.size();
                part_.cards.push_back(graph_->cards[card]);
            }
        }
        for (std::size_t i = 0; i < graph_->lines.size(); ++i) {
            const Line2d& line = graph_->lines[i];
            if (place_[line.from] && place_[line.to] && piece_[line.from] == piece_[line.to]) {
                Line2d drawn = line;
                drawn.from = *place_[line.from];
                drawn.to = *place_[line.to];
                part_.lines.push_back(std::move(drawn));
                continue;
            }
            for (const bool from_here : {true, false}) {
                if (place_[from_here ? line.from : line.to]) {
                    leave(i, from_here);
                }
            }
        }
        add_falls();
        return std::move(part_);
    }

  private:
    struct Falls {
        std::vector<std::string> from;
        Line2d line;
    };

    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }
    [[nodiscard]] std::size_t zone(std::size_t card) const { return zone_of(graph_->cards[card], words_->system()); }

    void leave(std::size_t index, bool from_here) {
        const Line2d& line = graph_->lines[index];
        const std::size_t here = from_here ? line.from : line.to;
        const std::size_t there = from_here ? line.to : line.from;
        if (line.stroke == Stroke::fall && from_here) {
            // No line: that it falls is what its sign says.
            part_.cards[*place_[here]].over = plain(tongue().say<Saying::falls_over>(
                in<"from">(graph_->cards[here].label), in<"to">(graph_->cards[there].label)));
            return;
        }
        if (line.stroke == Stroke::fall) {
            Falls& falls = falls_[{here, zone(there)}];
            falls.from.push_back(graph_->cards[there].label);
            falls.line = line;
            return;
        }
        // Within one place there is no other to name, which is more than one drawing holds.
        const std::string place =
            zone(there) == zone(here) ? std::string() : std::string(zone_name(*words_, zone(there)));
        const std::string in_full = onward_words(place, destination(there, here), tongue());
        Card onward;
        onward.symbol = Symbol::onward;
        onward.label = onward.title = in_full;
        onward.mark = "…";
        if (far_ends_ != nullptr) {
            onward.mark = far_ends_->mark(index);
            // In the same drawing the letter is enough.
            onward.label = place_[there]
                               ? std::string()
                               : plain(tongue().say<Saying::leads_to>(in<"names">(far_ends_->drawn_in(there))));
            onward.title = onward.mark + ": " + in_full;
        }
        onward.detail = line.word;
        onward.when = line.when; // it goes with its pipe
        Line2d drawn = line;
        (from_here ? drawn.from : drawn.to) = *place_[here];
        (from_here ? drawn.to : drawn.from) = part_.cards.size();
        part_.cards.push_back(std::move(onward));
        part_.lines.push_back(std::move(drawn));
    }

    // One card for all that comes to the same from the same place.
    void add_falls() {
        for (auto& [key, falls] : falls_) {
            const auto& [here, from_zone] = key;
            const auto names = in<"names">(names_words(falls.from, tongue()));
            Card from;
            from.symbol = Symbol::onward;
            from.label = from.title =
                plain(from_zone == zone(here)
                          ? tongue().say<Saying::comes_from>(names)
                          : tongue().say<Saying::comes_from_place>(in<"place">(zone_name(*words_, from_zone)), names));
            falls.line.to = *place_[here];
            falls.line.from = part_.cards.size();
            part_.cards.push_back(std::move(from));
            part_.lines.push_back(std::move(falls.line));
        }
    }

    // A tee has a name of the author's only: where its pipes lead says more.
    [[nodiscard]] std::string destination(std::size_t card, std::size_t seen_from) const {
        if (graph_->cards[card].symbol != Symbol::tee) {
            return graph_->cards[card].label;
        }
        std::vector<bool> passed(graph_->cards.size());
        passed[seen_from] = passed[card] = true;
        std::vector<std::string> found;
        parts_beyond(*graph_, card, passed, found);
        return names_words(found, tongue());
    }

    const Words* words_;
    const DrawingGraph* graph_;
    const FarEnds* far_ends_;
    std::vector<std::optional<std::size_t>> place_;              ///< in the excerpt, of each card that is in it
    std::vector<std::size_t> piece_;                             ///< of each card that is in it
    std::map<std::pair<std::size_t, std::size_t>, Falls> falls_; ///< per card that they come to, and place
    DrawingGraph part_;
};

} // namespace

std::size_t zone_of(const Card& card, const meaning::System& system) {
    return card.zone ? card.zone->value : system.zones.size();
}

Wording zone_name(const Words& words, std::size_t zone) {
    return zone < words.system().zones.size() ? words.zone(meaning::ZoneId(zone))
                                              : Wording(words.tongue().text(Saying::drawing_without_place));
}

std::vector<CardGroup> cards_by_zone(const DrawingGraph& graph, const meaning::System& system) {
    std::vector<CardGroup> by_zone(system.zones.size() + 1);
    for (std::size_t i = 0; i < graph.cards.size(); ++i) {
        by_zone[zone_of(graph.cards[i], system)].push_back(i);
    }
    return by_zone;
}

DrawingGraph drawing_excerpt(const Words& words, const DrawingGraph& graph, const std::vector<CardGroup>& pieces,
                             const FarEnds* far_ends) {
    return Excerpt(words, graph, far_ends).of(pieces);
}

} // namespace curbstop::output
