#include "output/drawing_zones.h"

#include "output/drawing_excerpt.h"
#include "output/drawing_overview.h"
#include "output/drawing_parting.h"
#include "output/line_words.h"
#include "output/live_states.h"

#include "text/utf8.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace curbstop::output {

using namespace meaning;

namespace {

// In CSS pixels, letters of 12 (9 pt). Narrow: a telephone's screen (360) less margins, read from top to bottom; on
// paper and on wider screens several stand beside each other. Wide: a page between its margins, for a place that would
// come to more than two narrow drawings, as nobody follows a pipe over three; on a telephone it is slid.
struct DrawingSize {
    double width, height;
};
constexpr DrawingSize narrow{320, 1000}, wide{660, 880};
constexpr std::size_t most_narrow = 2;
constexpr std::size_t most_columns = 14, most_live_columns = 15;

using Group = CardGroup;
using Pieces = std::vector<Group>; // of one drawing, with the pipes between them cut

void make_live(const Words& words, Card& card) {
    const System& system = words.system();
    if (card.symbol == Symbol::tee || card.symbol == Symbol::place) {
        return;
    }
    card.live_columns = 6; // for what it holds
    const VariableId variable = card.part ? system[card.part].variable : system[card.node].end;
    for (std::size_t value = 0; variable && value < system[variable].values.size(); ++value) {
        const std::size_t columns = text::display_width(words.value(variable, static_cast<std::uint32_t>(value)));
        card.live_columns = std::max(card.live_columns, std::min(columns + 6, most_live_columns));
    }
}

void show_standing(const Words& words, const std::vector<ValueSet>& standing, Card& card) {
    const VariableId variable = card.part   ? words.system()[card.part].variable
                                : card.node ? words.system()[card.node].end
                                            : VariableId();
    if (card.live_columns > 0 && variable) {
        card.at_start = stands_words(words, variable, standing);
    }
    if (card.valve) {
        card.stands = stands_in(words.system(), card, standing);
    }
}

class Placer {
  public:
    explicit Placer(const Words& words)
        : words_(&words)
        , graph_(drawing_graph(words, nullptr))
        , drawing_of_(graph_.cards.size())
        , marks_(graph_.lines.size())
        , far_ends_{[this](std::size_t card) { return title_there(card); },
                    [this](std::size_t line) { return mark_of(line); }} {
        name_lines(words, graph_);
        for (Card& card : graph_.cards) {
            make_live(words, card);
            show_standing(words, {}, card); // a valve's sign takes as much room however it stands
        }
    }
    Placer(const Placer&) = delete; // what it hands out refers to it
    Placer& operator=(const Placer&) = delete;
    ~Placer() = default;

    PlacedZones place() {
        const std::vector<Group> by_zone = cards_by_zone(graph_, words_->system());
        for (std::size_t zone = 0; zone < by_zone.size(); ++zone) {
            if (!by_zone[zone].empty()) {
                add_groups(by_zone[zone], zone_name(*words_, zone));
            }
        }
        number();
        PlacedZones result;
        for (std::size_t i = 0; i < drawings_.size(); ++i) {
            result.zones.push_back({titles_[i], place(drawings_[i], sizes_[i])});
        }
        if (result.zones.size() > 1) {
            result.overview =
                placed_drawing(drawing_overview(*words_, graph_, by_zone), most_columns, narrow.width, known_);
        }
        // A piece that the library cannot lay out never fits, so that it is here that this shows.
        const auto failed =
            std::ranges::find_if(result.zones, [](const PlacedZone& zone) { return !zone.drawing.error.empty(); });
        result.error = failed != result.zones.end() ? failed->drawing.error
                       : result.overview            ? result.overview->error
                                                    : std::string();
        return result;
    }

  private:
    // As long as it is not settled what is in which drawing, as wide as it may become.
    [[nodiscard]] std::string title_there(std::size_t card) const {
        return std::string(drawing_of_[card]
                               ? titles_[*drawing_of_[card]]
                               : one_of(zone_name(*words_, zone_of(graph_.cards[card], words_->system())), 9, 9));
    }
    [[nodiscard]] std::string mark_of(std::size_t line) const {
        return marks_[line] == 0 ? std::string("AA") : letters(marks_[line]);
    }
    // Numbers are the sides of valves, P is what may be under pressure, and I and O would be read as numbers.
    static std::string letters(std::uint32_t number) {
        constexpr std::string_view alphabet = "ABCDEFGHJKLMNQRSTUVWXYZ";
        std::string mark;
        for (; number > 0; number = (number - 1) / alphabet.size()) {
            mark.insert(mark.begin(), alphabet[(number - 1) % alphabet.size()]);
        }
        return mark;
    }
    // One letter for both ends of a pipe, from the first drawing on.
    void number() {
        std::vector<std::size_t> piece_of(graph_.cards.size());
        std::size_t pieces = 0;
        for (std::size_t i = 0; i < drawings_.size(); ++i) {
            for (const Group& piece : drawings_[i]) {
                ++pieces;
                for (const std::size_t card : piece) {
                    drawing_of_[card] = i;
                    piece_of[card] = pieces;
                }
            }
        }
        std::uint32_t last = 0;
        for (std::size_t i = 0; i < drawings_.size(); ++i) {
            for (std::size_t line = 0; line < graph_.lines.size(); ++line) {
                const auto& [from, to] = std::pair(graph_.lines[line].from, graph_.lines[line].to);
                if (piece_of[from] != piece_of[to] && (drawing_of_[from] == i || drawing_of_[to] == i) &&
                    graph_.lines[line].stroke != Stroke::fall && marks_[line] == 0) {
                    marks_[line] = ++last;
                }
            }
        }
    }

    [[nodiscard]] PlacedDrawing place(const Pieces& pieces, DrawingSize size) {
        return placed_drawing(drawing_excerpt(*words_, graph_, pieces, &far_ends_), most_columns, size.width, known_);
    }

    [[nodiscard]] static bool fits(const PlacedDrawing& placed, DrawingSize size) {
        return placed.error.empty() && placed.layout.width <= size.width && placed.layout.height <= size.height;
    }

    [[nodiscard]] Wording one_of(const Wording& name, std::uint64_t number, std::uint64_t all) const {
        const Tongue& tongue = words_->tongue();
        return plain(tongue.say<Saying::drawing_one_of>(in<"name">(name), in<"number">(tongue.number(number)),
                                                        in<"all">(tongue.number(all))));
    }
    // As few drawings as there can be, and what follows on each other in one where there is room: each piece in the
    // last, or else in the first that takes it, with pipes drawn through if that fits, and otherwise cut.
    [[nodiscard]] std::vector<Pieces> drawings_of(const Group& group, DrawingSize size) {
        std::vector<Pieces> drawn;
        const auto fits_here = [&](const Group& some) { return fits(place({some}, size), size); };
        const auto takes = [&](Pieces& drawing, const Group& piece) {
            for (std::size_t i = 0; i <= drawing.size(); ++i) {
                Pieces more = drawing;
                if (i < drawing.size()) {
                    more[i].insert(more[i].end(), piece.begin(), piece.end());
                } else {
                    more.push_back(piece);
                }
                const bool joins = i == drawing.size() || is_joined(drawing[i], piece);
                if (joins && fits(place(more, size), size)) {
                    drawing = std::move(more);
                    return true;
                }
            }
            return false;
        };
        for (const Group& piece : joints_joined(graph_, parted(graph_, group, fits_here), fits_here)) {
            const bool last_takes = !drawn.empty() && takes(drawn.back(), piece);
            if (!last_takes && std::ranges::none_of(drawn, [&](Pieces& each) { return takes(each, piece); })) {
                drawn.push_back({piece});
            }
        }
        return drawn;
    }
    [[nodiscard]] bool is_joined(const Group& a, const Group& b) const {
        const auto is_in = [](std::size_t card, const Group& group) {
            return std::ranges::find(group, card) != group.end();
        };
        return std::ranges::any_of(graph_.lines, [&](const Line2d& line) {
            return (is_in(line.from, a) && is_in(line.to, b)) || (is_in(line.from, b) && is_in(line.to, a));
        });
    }

    void add_groups(const Group& group, const Wording& name) {
        DrawingSize size = narrow;
        std::vector<Pieces> drawn = drawings_of(group, narrow);
        if (drawn.size() > most_narrow) {
            std::vector<Pieces> larger = drawings_of(group, wide);
            if (larger.size() < drawn.size()) {
                drawn = std::move(larger);
                size = wide;
            }
        }
        for (std::size_t i = 0; i < drawn.size(); ++i) {
            titles_.push_back(drawn.size() == 1 ? name : one_of(name, i + 1, drawn.size()));
            drawings_.push_back(std::move(drawn[i]));
            sizes_.push_back(size);
        }
    }

    const Words* words_;
    DrawingGraph graph_;
    KnownLayouts known_;
    std::vector<Pieces> drawings_;
    std::vector<DrawingSize> sizes_;                     ///< that they were made for
    std::vector<Wording> titles_;                        ///< of the drawings
    std::vector<std::optional<std::size_t>> drawing_of_; ///< of each card, once that is settled
    std::vector<std::uint32_t> marks_;                   ///< of each line that leaves a drawing, then too
    FarEnds far_ends_;
};

bool is_wide(const PlacedDrawing& placed) {
    return placed.layout.width > narrow.width;
}

std::string svg(const PlacedDrawing& placed, const DrawingGraph& graph, std::string_view title, bool live) {
    DrawnGraph drawn{&graph, &placed.texts, &placed.layout};
    drawn.live = live;
    return drawing_svg(drawn, title);
}

} // namespace

PlacedZones placed_zones(const Words& words) {
    return Placer(words).place();
}

ZoneDrawings draw_zones(const Words& words, const PlacedZones& placed, const std::vector<ValueSet>& start) {
    ZoneDrawings result;
    result.error = placed.error;
    if (!result.error.empty()) {
        return result;
    }
    if (placed.overview) {
        result.overview =
            svg(*placed.overview, placed.overview->graph, words.tongue().text(Saying::drawing_overview), false);
        // Of few words: it is made a little smaller before it has to be slid.
        result.wide_overview = placed.overview->layout.width > 1.15 * narrow.width;
    }
    for (const PlacedZone& zone : placed.zones) {
        DrawingGraph graph = zone.drawing.graph;
        for (Card& card : graph.cards) {
            show_standing(words, start, card);
        }
        result.zones.push_back({zone.title, svg(zone.drawing, graph, zone.title, true), is_wide(zone.drawing),
                                drawing_key(graph, words.tongue())});
    }
    return result;
}

} // namespace curbstop::output
