#include "output/drawing.h"

#include "output/drawing_graph.h"
#include "output/drawing_symbols.h"
#include "output/layout.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

namespace {

const Card& card_named(const DrawingGraph& graph, const std::string& label) {
    for (const Card& card : graph.cards) {
        if (card.label == label) {
            return card;
        }
    }
    FAIL("no such card: " << label);
    return graph.cards.front();
}

std::size_t count(const std::string& text, std::string_view what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++found;
    }
    return found;
}

} // namespace

TEST_CASE("signs are read off the ways of a part, not off its kind") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    const DrawingGraph graph = drawing_graph(words, nullptr);
    CHECK(card_named(graph, "Stop valve").symbol == Symbol::supply);
    CHECK(card_named(graph, "Drain cock").symbol == Symbol::tap);
    CHECK(card_named(graph, "riser").symbol == Symbol::tee);
    CHECK(graph.lines.size() == 3);
}

TEST_CASE("a tee is drawn with the nearest part") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    CHECK(card_named(drawing_graph(words, nullptr), "riser").zone == ZoneId(0));
}

TEST_CASE("couplings that might be made are not drawn") {
    System system;
    for (const char* name : {"a", "b"}) {
        Node node{{name, name, "", {}}};
        node.kind = NodeKind::end;
        system.nodes.push_back(node);
    }
    Way way;
    way.from = NodeId(0);
    way.to = NodeId(1);
    system.ways.push_back(way);
    const Words words(system);
    CHECK(drawing_graph(words, nullptr).lines.empty());
}

TEST_CASE("pipes under pressure and standings are shown for a step") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    const DrawingGraph graph = drawing_graph(words, &tiny.report.steps[0]);
    CHECK(card_named(graph, "Stop valve").detail == "open");
    std::size_t thick = 0;
    for (const Line2d& line : graph.lines) {
        thick += line.pressurised ? 1 : 0;
    }
    CHECK(thick == 1);
}

TEST_CASE("every sign but a tee's has a form") {
    for (const Symbol symbol : {Symbol::plain, Symbol::valve, Symbol::three_way, Symbol::check_valve, Symbol::reducer,
                                Symbol::relief, Symbol::tap, Symbol::opening, Symbol::pump, Symbol::supply,
                                Symbol::tank, Symbol::heated_tank, Symbol::store, Symbol::end, Symbol::place}) {
        CHECK(symbol_svg(symbol).starts_with('<'));
    }
}

TEST_CASE("the layout keeps cards apart and inside") {
    LayoutGraph graph;
    for (int i = 0; i < 6; ++i) {
        graph.vertices.push_back({80, 30, static_cast<std::size_t>(i % 2)});
    }
    graph.edges = {{0, 1}, {1, 2}, {2, 3}, {0, 3}, {4, 4}};
    graph.clusters = 3;
    graph.cluster_margin = 10;
    const LayoutResult result = lay_out(graph);
    INFO(result.error);
    REQUIRE(result.layout.has_value());
    const Layout& layout = *result.layout;
    REQUIRE(layout.vertices.size() == 6);
    REQUIRE(layout.edges.size() == 5);
    CHECK_FALSE(layout.clusters.at(2).has_value());
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(layout.vertices[i].x >= 40);
        CHECK(layout.vertices[i].x <= layout.width - 40);
        CHECK(layout.vertices[i].y >= 15);
        for (std::size_t j = 0; j < i; ++j) {
            CHECK((std::abs(layout.vertices[i].x - layout.vertices[j].x) >= 80 ||
                   std::abs(layout.vertices[i].y - layout.vertices[j].y) >= 30));
        }
    }
}

TEST_CASE("nothing cannot be drawn, and says so") {
    const System system;
    const Drawing drawing = draw_system(Words(system));
    CHECK(drawing.svg.empty());
    CHECK(drawing.error == "there is nothing to draw: the system has no plumbing");
}

TEST_CASE("no label becomes markup of the drawing") {
    const std::size_t scripts = 0;
    for (const std::string& label : hostile_labels()) {
        INFO(label);
        const Tiny tiny = tiny_model(label);
        const Drawing drawing = draw_system(Words(tiny.model.system));
        REQUIRE(drawing.error.empty());
        CHECK(count(drawing.svg, "<script") == scripts);
        CHECK(count(drawing.svg, "<img") == 0);
        CHECK(count(drawing.svg, "<svg") == count(drawing.svg, "</svg>"));
        CHECK(count(drawing.svg, "<title>") == count(drawing.svg, "</title>"));
    }
}

TEST_CASE("a long label is cut on its card and whole in its title") {
    const std::string label(500, 'W');
    const Tiny tiny = tiny_model(label);
    const std::string svg = draw_system(Words(tiny.model.system)).svg;
    CHECK(svg.find("<title>" + label) != std::string::npos);
    CHECK(svg.find("…</text>") != std::string::npos);
}

TEST_CASE("the same drawing twice is the same bytes") {
    const Tiny tiny = tiny_model();
    CHECK(draw_system(Words(tiny.model.system)).svg == draw_system(Words(tiny.model.system)).svg);
}

TEST_CASE("a drawing says which language its words are in, and speaks it") {
    const Tiny tiny = tiny_model();
    const std::string svg = draw_system(Words(tiny.model.system, Tongue(Language::german)), &tiny.report.steps[0]).svg;
    CHECK(count(svg, "xml:lang=\"de\"") == 1);
    CHECK(count(svg, "aria-label=\"Zeichnung: ") == 1);
    CHECK(count(svg, "Dick: kann unter Druck stehen.") == 1);
    CHECK(count(svg, "may be") == 0);
}

TEST_CASE("a zone is drawn with what is there, and with words for where its pipes lead") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    const std::vector<ZoneId> zones = drawn_zones(words);
    REQUIRE(zones.size() > 1);
    const DrawingGraph whole = drawing_graph(words, nullptr);
    for (const Card& card : whole.cards) {
        std::size_t in = 0;
        for (const ZoneId zone : zones) {
            const Drawing drawing = draw_zone(words, zone);
            REQUIRE(drawing.error.empty());
            in += count(drawing.svg, "<title>" + card.title + "</title>");
        }
        INFO(card.title);
        CHECK(in == 1);
    }
    // A pipe into another zone is named as that: once on each side.
    std::size_t leaving = 0;
    for (const Line2d& line : whole.lines) {
        leaving += whole.cards[line.from].zone != whole.cards[line.to].zone && line.stroke == Stroke::pipe ? 1 : 0;
    }
    std::size_t named = 0;
    for (const ZoneId zone : zones) {
        for (const ZoneId other : zones) {
            named += count(draw_zone(words, zone).svg, "<title>to " + std::string(words.zone(other)));
        }
    }
    CHECK(leaving > 0);
    CHECK(named == 2 * leaving);
}
