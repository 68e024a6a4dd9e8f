#include "output/drawing_parting.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace curbstop::output;

namespace {

/// A row of cards, each joined to the next; `t` is a joint, `p` a part.
DrawingGraph row(const std::string& cards) {
    DrawingGraph graph;
    for (std::size_t i = 0; i < cards.size(); ++i) {
        Card card;
        card.symbol = cards[i] == 't' ? Symbol::tee : Symbol::valve;
        graph.cards.push_back(card);
        if (i > 0) {
            Line2d line;
            line.from = i - 1;
            line.to = i;
            graph.lines.push_back(line);
        }
    }
    return graph;
}

CardGroup all_of(const DrawingGraph& graph) {
    CardGroup all;
    for (std::size_t i = 0; i < graph.cards.size(); ++i) {
        all.push_back(i);
    }
    return all;
}

} // namespace

TEST_CASE("what is too large is parted, nothing is lost and nothing drawn twice") {
    const DrawingGraph graph = row("pptpptpptpp");
    const auto fits = [](const CardGroup& group) { return group.size() <= 4; };
    std::multiset<std::size_t> seen;
    for (const CardGroup& piece : parted(graph, all_of(graph), fits)) {
        CHECK(fits(piece));
        seen.insert(piece.begin(), piece.end());
    }
    CHECK(seen.size() == graph.cards.size());
    CHECK(std::set<std::size_t>(seen.begin(), seen.end()).size() == graph.cards.size());
}

TEST_CASE("an assembly stays together however large it is") {
    DrawingGraph graph = row("pppp");
    for (Line2d& line : graph.lines) {
        line.stroke = Stroke::inside;
    }
    CHECK(parted(graph, all_of(graph), [](const CardGroup&) { return false; }).size() == 1);
}

TEST_CASE("joints alone go with what they have most pipes to, where they fit") {
    const DrawingGraph graph = row("pttpp");
    const std::vector<CardGroup> pieces{{0}, {1, 2}, {3, 4}};
    const auto roomy = joints_joined(graph, pieces, [](const CardGroup&) { return true; });
    REQUIRE(roomy.size() == 2);
    // One pipe to either: to the one in which there is room.
    const auto small = joints_joined(graph, pieces, [](const CardGroup& group) { return group.size() <= 3; });
    REQUIRE(small.size() == 2);
    CHECK(std::set<std::size_t>(small[0].begin(), small[0].end()) == std::set<std::size_t>{0, 1, 2});
    // Even where there is none anywhere.
    CHECK(joints_joined(graph, pieces, [](const CardGroup&) { return false; }).size() == 2);
    // Where there is nothing else, they are what there is.
    CHECK(joints_joined(row("tt"), {{0, 1}}, [](const CardGroup&) { return true; }).size() == 1);
}
