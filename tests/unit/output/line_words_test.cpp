#include "output/line_words.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

namespace {

/// A tap that mixes on two pipes, over a basin that runs to a tank; `back`: and from there to the tap's cold side.
struct Washroom {
    System system;
    NodeId node(const char* name, const char* label, NodeKind kind, PartId part = {}) {
        Node made{{name, std::string(label), "", {}}};
        made.kind = kind;
        made.part = part;
        system.nodes.push_back(made);
        const NodeId id(system.nodes.size() - 1);
        if (part) {
            system.parts[part.value].nodes.push_back(id);
        }
        return id;
    }
    PartId part(const char* name, const char* label) {
        Part made{{name, std::string(label), "", {}}};
        system.parts.push_back(made);
        return PartId(system.parts.size() - 1);
    }
    void way(WayKind kind, NodeId from, NodeId to, PartId of, ExpressionId condition = Expressions::always()) {
        Way made;
        made.kind = kind;
        made.from = from;
        made.to = to;
        made.part = of;
        made.condition = condition;
        system.ways.push_back(made);
    }
    void run(NodeId from, NodeId to) {
        Run made{from, to, std::string("pipe"),   *make_quantity(std::get<Rational>(parse_number("1")), Unit::m),
                 {},   {}, Expressions::always(), {}};
        Way through;
        through.from = from;
        through.to = to;
        through.run = static_cast<std::uint32_t>(system.runs.size());
        system.runs.push_back(made);
        system.ways.push_back(through);
    }

    explicit Washroom(bool back) {
        const PartId tap = part("tap", "Tap"), basin = part("basin", "Basin"), tank = part("tank", "Tank");
        Variable stands{{"tap", std::string("Tap"), "", {}}};
        stands.kind = VariableKind::position;
        stands.part = tap;
        for (const char* value : {"shut", "cold", "hot"}) {
            stands.values.push_back(Value{{value, std::string(value), "", {}}});
        }
        system.variables.push_back(stands);
        system.parts[tap.value].variable = VariableId(0);
        const NodeId cold = node("tap.cold", "Tap (cold)", NodeKind::port, tap);
        const NodeId hot = node("tap.hot", "Tap (hot)", NodeKind::port, tap);
        const NodeId bowl = node("basin.bowl", "Basin (bowl)", NodeKind::port, basin);
        const NodeId inlet = node("tank.inlet", "Tank (inlet)", NodeKind::port, tank);
        const NodeId tee = node("tee", "tee", NodeKind::tee);
        const NodeId end = node("end", "End", NodeKind::end);
        way(WayKind::fall, cold, bowl, tap, system.expressions.stands(VariableId(0), 1));
        way(WayKind::fall, hot, bowl, tap, system.expressions.stands(VariableId(0), 2));
        run(cold, tee);
        run(tee, end);
        run(bowl, inlet);
        if (back) {
            run(inlet, tee);
        }
    }
};

std::vector<std::string> words_of(const System& system, const DrawingGraph& graph) {
    std::vector<std::string> words(system.runs.size());
    for (const Line2d& line : graph.lines) {
        if (line.run != UINT32_MAX) {
            words[line.run] = line.word;
        }
    }
    return words;
}

} // namespace

TEST_CASE("pipes are called what a tap calls the side that they hang on, over joints; what runs on below is waste") {
    const Washroom washroom(false);
    const Words words(washroom.system);
    DrawingGraph graph = drawing_graph(words, nullptr);
    name_lines(words, graph);
    CHECK(words_of(washroom.system, graph) == std::vector<std::string>{"cold", "cold", "waste"});
}

TEST_CASE("where what is below comes back to what taps draw from, nothing is called waste") {
    const Washroom washroom(true);
    const Words words(washroom.system);
    DrawingGraph graph = drawing_graph(words, nullptr);
    name_lines(words, graph);
    for (const std::string& word : words_of(washroom.system, graph)) {
        CHECK(word != "waste");
    }
}

TEST_CASE("where no tap mixes and none is over a basin, nothing is said of pipes") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    DrawingGraph graph = drawing_graph(words, nullptr);
    name_lines(words, graph);
    for (const Line2d& line : graph.lines) {
        CHECK(line.word.empty());
    }
}
