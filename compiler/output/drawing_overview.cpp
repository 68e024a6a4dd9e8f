#include "output/drawing_overview.h"

#include "output/drawing_excerpt.h"

#include <algorithm>
#include <map>
#include <utility>

namespace curbstop::output {

DrawingGraph drawing_overview(const Words& words, const DrawingGraph& graph, const std::vector<CardGroup>& by_zone) {
    const Tongue& tongue = words.tongue();
    DrawingGraph overview;
    std::vector<std::size_t> card_of_zone(by_zone.size());
    for (std::size_t zone = 0; zone < by_zone.size(); ++zone) {
        if (by_zone[zone].empty()) {
            continue;
        }
        Card card;
        card.symbol = Symbol::zone;
        card.label = card.title = zone_name(words, zone);
        const auto parts = std::ranges::count_if(
            by_zone[zone], [&graph](std::size_t index) { return graph.cards[index].symbol != Symbol::tee; });
        card.detail = plain(tongue.say_of<Saying::drawing_parts>(static_cast<std::uint64_t>(parts)));
        card_of_zone[zone] = overview.cards.size();
        overview.cards.push_back(std::move(card));
    }
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> pipes;
    for (const Line2d& line : graph.lines) {
        const std::pair<std::size_t, std::size_t> ends = std::minmax(
            {zone_of(graph.cards[line.from], words.system()), zone_of(graph.cards[line.to], words.system())});
        if (ends.first != ends.second && line.stroke == Stroke::pipe) {
            ++pipes[ends];
        }
    }
    for (const auto& [ends, count] : pipes) {
        Card remark;
        remark.symbol = Symbol::remark;
        remark.label = plain(tongue.say_of<Saying::drawing_pipes>(count));
        Line2d line;
        line.title = plain(tongue.say<Saying::pipe_ends>(in<"from">(zone_name(words, ends.first)),
                                                         in<"to">(zone_name(words, ends.second))));
        line.from = card_of_zone[ends.first];
        line.to = overview.cards.size();
        overview.lines.push_back(line);
        line.from = line.to;
        line.to = card_of_zone[ends.second];
        overview.lines.push_back(line);
        overview.cards.push_back(std::move(remark));
    }
    return overview;
}

} // namespace curbstop::output
