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
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::string>>
        pipes; // what runs in each, where that is told
    for (const Line2d& line : graph.lines) {
        const std::pair<std::size_t, std::size_t> ends = std::minmax(
            {zone_of(graph.cards[line.from], words.system()), zone_of(graph.cards[line.to], words.system())});
        if (ends.first != ends.second && line.stroke == Stroke::pipe) {
            pipes[ends].push_back(line.word);
        }
    }
    for (const auto& [ends, words_on] : pipes) {
        Card remark;
        remark.symbol = Symbol::remark;
        remark.label = plain(tongue.say_of<Saying::drawing_pipes>(words_on.size()));
        std::vector<Phrase>
            known; // said of all of them or of none: of four pipes, "cold" would be read as four cold ones
        const bool all_told = std::ranges::none_of(words_on, &std::string::empty);
        for (const std::string& word : words_on) {
            if (all_told && std::ranges::find(known, phrase(word)) == known.end()) {
                known.push_back(phrase(word));
            }
        }
        if (!known.empty()) {
            remark.label =
                plain(tongue.say<Saying::drawing_stands>(in<"what">(remark.label), in<"how">(tongue.all_of(known))));
        }
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
