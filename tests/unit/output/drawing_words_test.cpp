#include "output/drawing_words.h"

#include "output/drawing_numbers.h"
#include "output/placed_drawing.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace curbstop::output;

namespace {

/// A line from (x, 0) down to (x, length), as the layout gives it: one curve that is straight.
std::vector<Point> down(double x, double length) {
    return {{x, 0}, {x, length / 3}, {x, length * 2 / 3}, {x, length}};
}

struct Drawn {
    DrawingGraph graph;
    std::vector<CardText> texts;
    Layout layout;

    void add_line(std::vector<Point> points) {
        Line2d line;
        line.run = static_cast<std::uint32_t>(graph.lines.size());
        for (std::size_t* end : {&line.from, &line.to}) {
            *end = graph.cards.size();
            graph.cards.emplace_back();
            texts.emplace_back();
        }
        layout.vertices.insert(layout.vertices.end(), {points.front(), points.back()});
        layout.edges.push_back(std::move(points));
        graph.lines.push_back(line);
    }
    void add_card(Point middle, double width, double height) {
        graph.cards.emplace_back();
        texts.push_back({{}, {}, width, height});
        layout.vertices.push_back(middle);
    }
    [[nodiscard]] std::vector<Point> places() const {
        const DrawnGraph drawn{&graph, &texts, &layout};
        return places_for_words(drawn, port_numbers(drawn));
    }
};

bool apart(Point a, Point b) { // words of 26 x 12
    return std::abs(a.x - b.x) >= 26 || std::abs(a.y - b.y) >= 12;
}

} // namespace

TEST_CASE("what a pipe holds is written half way along it") {
    Drawn drawn;
    drawn.add_line(down(50, 100));
    const Point at = drawn.places().front();
    CHECK(at.x == Approx(50));
    CHECK(std::abs(at.y - 50) < 6);
}

TEST_CASE("words of pipes beside each other lie on no others") {
    Drawn drawn;
    for (const double x : {50, 60, 70}) {
        drawn.add_line(down(x, 100));
    }
    const std::vector<Point> places = drawn.places();
    REQUIRE(places.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(places[i].x == Approx(50 + 10 * static_cast<double>(i)));
        for (std::size_t j = i + 1; j < 3; ++j) {
            CHECK(apart(places[i], places[j]));
        }
    }
}

TEST_CASE("numbers of pipes that come to a valve beside each other lie apart, and words off both") {
    Drawn drawn;
    drawn.add_card({50, 120}, 100, 40);
    using curbstop::meaning::NodeId;
    const std::vector<NodeId> ports{NodeId(7), NodeId(8)};
    drawn.graph.cards.front().numbered = true;
    drawn.graph.cards.front().valve = ValveForm{ports, false};
    for (const std::size_t i : {0U, 1U}) {
        drawn.add_line(down(45 + 10 * static_cast<double>(i), 100));
        Line2d& line = drawn.graph.lines.back();
        line.to = 0;
        line.to_node = ports[i];
        line.word = "cold";
    }
    const DrawnGraph all{&drawn.graph, &drawn.texts, &drawn.layout};
    const auto numbers = port_numbers(all);
    REQUIRE(numbers[0].size() == 1);
    REQUIRE(numbers[1].size() == 1);
    CHECK(numbers[0][0].words == "1 cold");
    CHECK(numbers[1][0].words == "2 cold");
    CHECK(numbers[0][0].leftwards); // away from each other
    CHECK_FALSE(numbers[1][0].leftwards);
    const std::vector<Point> places = places_for_words(all, numbers);
    CHECK(apart(places[0], places[1]));
    for (const Point& place : places) {
        CHECK(place.y + 6 <= numbers[0][0].foot.y - 8); // words are 12 high, numbers 10
    }
}

TEST_CASE("words keep off a card and off a pipe that crosses") {
    Drawn drawn;
    drawn.add_line(down(50, 100));
    drawn.add_card({60, 50}, 40, 20);
    drawn.add_line({{0, 30}, {30, 30}, {60, 30}, {100, 30}});
    const Point at = drawn.places().front();
    CHECK(std::abs(at.y - 50) >= 16);
    CHECK(std::abs(at.y - 30) >= 8);
}

TEST_CASE("pipes come to a joint apart from each other, and a joint of two has none to keep apart") {
    DrawingGraph graph;
    for (std::size_t i = 0; i < 6; ++i) {
        graph.cards.emplace_back();
        graph.cards.back().symbol = i == 0 || i == 5 ? Symbol::tee : Symbol::valve;
        if (i > 0 && i < 4) {
            graph.lines.push_back({0, i});
        }
    }
    graph.lines.push_back({5, 4});
    std::vector<CardText> texts;
    for (const Card& card : graph.cards) {
        texts.push_back(measure(card));
    }
    const LayoutGraph laid = layout_graph(graph, texts);
    CHECK(laid.vertices[0].bar);
    CHECK(laid.vertices[0].width >= 36);
    CHECK_FALSE(laid.vertices[5].bar);
    CHECK(laid.vertices[5].width == texts[5].width);
    KnownLayouts known;
    const PlacedDrawing placed = placed_drawing(graph, label_columns, 600, known);
    REQUIRE(placed.error.empty());
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = i + 1; j < 3; ++j) {
            const Point a = placed.layout.edges[i].front(), b = placed.layout.edges[j].front();
            CHECK(std::hypot(a.x - b.x, a.y - b.y) >= 10);
        }
    }
}
