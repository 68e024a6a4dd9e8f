#include "output/drawing_zones.h"

#include "output/drawing_graph.h"
#include "output/drawing_parting.h"
#include "output/drawing_svg.h"
#include "output/line_words.h"
#include "output/live_states.h"
#include "output/picture_layout.h"
#include "output/sheet_picture.h"
#include "output/words.h"

#include "text/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
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

class Drawer {
  public:
    Drawer(const Words& words, const std::vector<ValueSet>& start)
        : words_(&words)
        , start_(&start)
        , graph_(drawing_graph(words, nullptr))
        , drawing_of_(graph_.cards.size())
        , marks_(graph_.lines.size()) {
        name_lines(words, graph_);
        for (Card& card : graph_.cards) {
            make_live(card);
        }
    }

    ZoneDrawings draw() {
        const std::size_t zones = words_->system().zones.size();
        std::vector<Group> by_zone(zones + 1);
        for (std::size_t i = 0; i < graph_.cards.size(); ++i) {
            by_zone[zone_of(i)].push_back(i);
        }
        for (std::size_t zone = 0; zone <= zones; ++zone) {
            if (!by_zone[zone].empty()) {
                add_groups(by_zone[zone], zone_name(zone));
            }
        }
        draw_all();
        if (result_.error.empty() && result_.zones.size() > 1) {
            overview(by_zone);
        }
        if (!result_.error.empty()) {
            return {{}, false, {}, std::move(result_.error)};
        }
        return std::move(result_);
    }

  private:
    [[nodiscard]] std::size_t zone_of(std::size_t card) const {
        return graph_.cards[card].zone ? graph_.cards[card].zone->value : words_->system().zones.size();
    }
    [[nodiscard]] Wording zone_name(std::size_t zone) const {
        return zone < words_->system().zones.size() ? words_->zone(ZoneId(zone))
                                                    : Wording(tongue().text(Saying::drawing_without_place));
    }

    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }
    [[nodiscard]] Wording one_of(const Wording& name, std::uint64_t number, std::uint64_t all) const {
        return plain(tongue().say<Saying::drawing_one_of>(in<"name">(name), in<"number">(tongue().number(number)),
                                                          in<"all">(tongue().number(all))));
    }

    void make_live(Card& card) const {
        const System& system = words_->system();
        if (card.symbol == Symbol::tee || card.symbol == Symbol::place) {
            return;
        }
        card.live_columns = 6; // for what it holds
        const VariableId variable = card.part ? system[card.part].variable : system[card.node].end;
        for (std::size_t value = 0; variable && value < system[variable].values.size(); ++value) {
            const std::size_t columns = text::display_width(words_->value(variable, static_cast<std::uint32_t>(value)));
            card.live_columns = std::max(card.live_columns, std::min(columns + 6, most_live_columns));
        }
        if (variable) {
            card.at_start = stands_words(*words_, variable, *start_);
        }
        if (card.valve) {
            card.stands = stands_in(system, card, *start_);
        }
    }

    // Cards of one group with what joins them, and for each pipe that leaves it a card that says where to.
    [[nodiscard]] DrawingGraph part_of_graph(const Group& group) const {
        DrawingGraph part;
        std::vector<std::optional<std::size_t>> place(graph_.cards.size());
        for (const std::size_t card : group) {
            place[card] = part.cards.size();
            part.cards.push_back(graph_.cards[card]);
        }
        std::map<std::pair<std::size_t, std::size_t>, Onward> leaving; // per card that falls come to, and zone
        for (const Line2d& line : graph_.lines) {
            if (!place[line.from] && !place[line.to]) {
                continue;
            }
            Line2d drawn = line;
            if (place[line.from] && place[line.to]) {
                drawn.from = *place[line.from];
                drawn.to = *place[line.to];
                part.lines.push_back(std::move(drawn));
                continue;
            }
            const bool from_here = place[line.from].has_value();
            const std::size_t here = from_here ? line.from : line.to;
            const std::size_t there = from_here ? line.to : line.from;
            const bool same_place = zone_of(there) == zone_of(here); // which is more than one drawing holds
            const std::string zone = same_place ? std::string() : std::string(zone_name(zone_of(there)));
            if (line.stroke == Stroke::fall && from_here) {
                // No line: that it falls is what its sign says.
                part.cards[*place[here]].over = plain(tongue().say<Saying::falls_over>(
                    in<"from">(graph_.cards[here].label), in<"to">(graph_.cards[there].label)));
                continue;
            }
            if (line.stroke == Stroke::fall) {
                Onward& onward = leaving[{here, zone_of(there)}];
                onward.from.push_back(graph_.cards[there].label);
                onward.line = line;
                continue;
            }
            (from_here ? drawn.from : drawn.to) = *place[here];
            (from_here ? drawn.to : drawn.from) =
                add_onward(part, plain(tongue().say<Saying::leads_to>(in<"names">(title_there(there)))),
                           onward_words(zone, destination(there, here), tongue()), mark_of(line), line);
            part.lines.push_back(std::move(drawn));
        }
        for (auto& [key, onward] : leaving) {
            onward.line.to = *place[key.first];
            const auto names = in<"names">(names_words(onward.from, tongue()));
            onward.line.from = add_falls(
                part, plain(key.second == zone_of(group.front())
                                ? tongue().say<Saying::comes_from>(names)
                                : tongue().say<Saying::comes_from_place>(in<"place">(zone_name(key.second)), names)));
            part.lines.push_back(std::move(onward.line));
        }
        return part;
    }
    struct Onward {
        std::vector<std::string> from;
        Line2d line;
    };
    static std::size_t add_onward(DrawingGraph& part, std::string words, const std::string& in_full, std::string mark,
                                  const Line2d& line) {
        Card onward;
        onward.symbol = Symbol::onward;
        onward.label = std::move(words);
        onward.title = mark + ": " + in_full;
        onward.mark = std::move(mark);
        onward.detail = line.word;
        onward.when = line.when; // it goes with its pipe
        part.cards.push_back(std::move(onward));
        return part.cards.size() - 1;
    }
    static std::size_t add_falls(DrawingGraph& part, const std::string& words) {
        Card from;
        from.symbol = Symbol::onward;
        from.label = from.title = words;
        part.cards.push_back(std::move(from));
        return part.cards.size() - 1;
    }
    // As long as it is not settled what is in which drawing, as wide as it may become.
    [[nodiscard]] std::string title_there(std::size_t card) const {
        return drawing_of_[card] ? std::string(titles_[*drawing_of_[card]]) : std::string(zone_name(zone_of(card)));
    }
    [[nodiscard]] std::string mark_of(const Line2d& line) const {
        const std::size_t index = static_cast<std::size_t>(&line - graph_.lines.data());
        return marks_[index] == 0 ? std::string("AA") : letters(marks_[index]);
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
    void number(const std::vector<Group>& drawings) {
        for (std::size_t i = 0; i < drawings.size(); ++i) {
            for (const std::size_t card : drawings[i]) {
                drawing_of_[card] = i;
            }
        }
        std::uint32_t last = 0;
        for (std::size_t i = 0; i < drawings.size(); ++i) {
            for (std::size_t line = 0; line < graph_.lines.size(); ++line) {
                const auto from = drawing_of_[graph_.lines[line].from];
                const auto to = drawing_of_[graph_.lines[line].to];
                if (from != to && (from == i || to == i) && graph_.lines[line].stroke != Stroke::fall &&
                    marks_[line] == 0) {
                    marks_[line] = ++last;
                }
            }
        }
    }

    // A tee has a name of the author's only: where its pipes lead says more.
    [[nodiscard]] std::string destination(std::size_t card, std::size_t seen_from) const {
        if (graph_.cards[card].symbol != Symbol::tee) {
            return graph_.cards[card].label;
        }
        std::vector<bool> passed(graph_.cards.size());
        passed[seen_from] = passed[card] = true;
        std::vector<std::string> found;
        parts_beyond(graph_, card, passed, found);
        return names_words(found, tongue());
    }

    struct Placed {
        DrawingGraph graph;
        std::vector<CardText> texts;
        PackedLayout layout;
    };
    [[nodiscard]] Placed place(const Group& group, DrawingSize size) const {
        Placed placed{part_of_graph(group), {}, {}};
        return place(std::move(placed), size);
    }
    [[nodiscard]] static Placed place(Placed placed, DrawingSize size) {
        LayoutGraph to_place;
        to_place.rank_gap = 24;
        to_place.side_gap = 10;
        for (const Card& card : placed.graph.cards) {
            placed.texts.push_back(measure(card, most_columns));
            to_place.vertices.push_back({placed.texts.back().width, placed.texts.back().height, {}});
        }
        for (const Line2d& line : placed.graph.lines) {
            to_place.edges.emplace_back(line.from, line.to);
        }
        placed.layout = lay_out_in_rows(to_place, size.width);
        return placed;
    }

    [[nodiscard]] static bool fits(const Placed& placed, DrawingSize size) {
        return placed.layout.width <= size.width && placed.layout.height <= size.height;
    }

    // As few drawings as there can be: each piece in the first that has room for it.
    [[nodiscard]] std::vector<Group> drawings_of(const Group& group, DrawingSize size) {
        std::vector<Group> drawn;
        const auto fits_here = [&](const Group& some) { return fits(place(some, size), size); };
        for (const Group& piece : joints_joined(graph_, parted(graph_, group, fits_here), fits_here)) {
            const auto room = std::ranges::find_if(drawn, [&](const Group& drawing) {
                Group more = drawing;
                more.insert(more.end(), piece.begin(), piece.end());
                return fits_here(more);
            });
            if (room == drawn.end()) {
                drawn.push_back(piece);
            } else {
                room->insert(room->end(), piece.begin(), piece.end());
            }
        }
        return drawn;
    }

    void add_groups(const Group& group, const Wording& name) {
        DrawingSize size = narrow;
        std::vector<Group> drawn = drawings_of(group, narrow);
        if (drawn.size() > most_narrow) {
            std::vector<Group> larger = drawings_of(group, wide);
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
    // A piece that the library cannot lay out never fits; draw_all() finds out why.
    void draw_all() {
        number(drawings_);
        for (std::size_t i = 0; i < drawings_.size() && result_.error.empty(); ++i) {
            const Placed placed = place(drawings_[i], sizes_[i]);
            result_.error = placed.layout.error;
            result_.zones.push_back({titles_[i], svg(placed, titles_[i]), placed.layout.width > narrow.width,
                                     drawing_key(placed.graph, tongue())});
        }
    }

    [[nodiscard]] static std::string svg(const Placed& placed, const std::string& title, bool live = true) {
        const Layout layout{placed.layout.width, placed.layout.height, placed.layout.vertices, placed.layout.edges, {}};
        DrawnGraph drawn{&placed.graph, &placed.texts, &layout};
        drawn.live = live;
        return drawing_svg(drawn, title);
    }

    void overview(const std::vector<Group>& by_zone) {
        Placed placed;
        std::vector<std::size_t> card_of_zone(by_zone.size());
        for (std::size_t zone = 0; zone < by_zone.size(); ++zone) {
            if (by_zone[zone].empty()) {
                continue;
            }
            Card card;
            card.symbol = Symbol::zone;
            card.label = card.title = zone_name(zone);
            const auto parts = std::ranges::count_if(
                by_zone[zone], [this](std::size_t index) { return graph_.cards[index].symbol != Symbol::tee; });
            card.detail = plain(tongue().say_of<Saying::drawing_parts>(static_cast<std::uint64_t>(parts)));
            card_of_zone[zone] = placed.graph.cards.size();
            placed.graph.cards.push_back(std::move(card));
        }
        std::map<std::pair<std::size_t, std::size_t>, std::size_t> pipes;
        for (const Line2d& line : graph_.lines) {
            const std::pair<std::size_t, std::size_t> ends = std::minmax({zone_of(line.from), zone_of(line.to)});
            if (ends.first != ends.second && line.stroke == Stroke::pipe) {
                ++pipes[ends];
            }
        }
        for (const auto& [ends, count] : pipes) {
            Card remark;
            remark.symbol = Symbol::remark;
            remark.label = plain(tongue().say_of<Saying::drawing_pipes>(count));
            Line2d line;
            line.title = plain(
                tongue().say<Saying::pipe_ends>(in<"from">(zone_name(ends.first)), in<"to">(zone_name(ends.second))));
            line.from = card_of_zone[ends.first];
            line.to = placed.graph.cards.size();
            placed.graph.lines.push_back(line);
            line.from = line.to;
            line.to = card_of_zone[ends.second];
            placed.graph.lines.push_back(line);
            placed.graph.cards.push_back(std::move(remark));
        }
        placed = place(std::move(placed), narrow);
        result_.error = placed.layout.error;
        result_.wide_overview = placed.layout.width > narrow.width;
        result_.overview = svg(placed, tongue().text(Saying::drawing_overview), false);
    }

    const Words* words_;
    const std::vector<ValueSet>* start_;
    DrawingGraph graph_;
    std::vector<Group> drawings_;
    std::vector<DrawingSize> sizes_;                     ///< that they were made for
    std::vector<Wording> titles_;                        ///< of the drawings
    std::vector<std::optional<std::size_t>> drawing_of_; ///< of each card, once that is settled
    std::vector<std::uint32_t> marks_;                   ///< of each line that leaves a drawing, then too
    ZoneDrawings result_;
};

} // namespace

ZoneDrawings draw_zones(const Words& words, const std::vector<ValueSet>& start) {
    return Drawer(words, start).draw();
}

} // namespace curbstop::output
