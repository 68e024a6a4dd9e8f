#include "proofs/reach.h"

#include <catch2/catch.hpp>

#include "support_model.h"

#include <algorithm>
#include <random>
#include <string>

using namespace curbstop;
using namespace curbstop::meaning;
using namespace curbstop::proofs;

namespace {

// A random net of stops, selectors, check valves and taps between tees, some of it with an option only.
std::string random_net(std::mt19937& random) {
    const auto below = [&](std::uint32_t bound) { return random() % bound; };
    std::string text = R"(
pipe hose { bore 13 mm }
kind stop { port a, b  position shut { }  position open { a <-> b } }
kind selector { port a, b, c  position left { a <-> b }  position right { a <-> c } }
kind check { port a, b  always { a -> b } }
kind tap { port a  position shut { }  position open { a ~> below } }
system net "Net" {
  option extra "Extra"
  zone yard "Yard"
)";
    const std::uint32_t tees = 4 + below(6);
    std::string runs;
    for (std::uint32_t i = 0; i < tees; ++i) {
        text += "  tee t" + std::to_string(i) + "\n";
    }
    const std::uint32_t parts = 6 + below(10);
    for (std::uint32_t i = 0; i < parts; ++i) {
        const char* kinds[] = {"stop", "stop", "selector", "check", "tap"};
        const std::string kind = kinds[below(5)];
        const std::string name = "p" + std::to_string(i);
        text += "  part " + name + " : " + kind + " \"P\" at yard" + (below(4) == 0 ? " only with extra" : "") + "\n";
        for (const char* port : {"a", "b", "c"}) {
            if ((port[0] == 'b' && kind == "tap") || (port[0] == 'c' && kind != "selector")) {
                continue;
            }
            runs += "  run " + name + "." + port + " - t" + std::to_string(below(tees)) + " : hose 1 m\n";
        }
    }
    for (std::uint32_t i = 0; i < tees; ++i) { // every tee joins two runs at least
        for (const char* end : {"x", "y"}) {
            const std::string name = std::string(end) + std::to_string(i);
            text += "  part " + name + " : tap \"T\" at yard\n";
            runs += "  run " + name + ".a - t" + std::to_string(i) + " : hose 1 m\n";
        }
    }
    return text + runs + "}\nprocedure w \"W\" on net { stage \"S\" { step \"S\" { set x0 to open } } }\n";
}

} // namespace

TEST_CASE("a search kept up to date answers like one made anew") {
    std::mt19937 random(7);
    for (int net = 0; net < 60; ++net) {
        const auto made = model_from(random_net(random));
        const System& system = made->model.system;
        instants::Knowledge knowledge(system, 1'000'000);
        for (std::size_t i = 0; i < system.variables.size(); ++i) { // leave a few unknown
            if (random() % 4 != 0) {
                knowledge.pin(VariableId(i), ValueSet{1} << random() % system.variables[i].values.size());
            }
        }
        REQUIRE(knowledge.settle());
        Network network(system, knowledge);
        const ReachSpec forward{.starts = {network.arrival(NodeId(1))}, .classes = pass | outlet};
        const ReachSpec backward{
            .starts = {network.arrival(NodeId(2))}, .direction = Direction::backward, .classes = pass | breath};
        Reach kept[] = {{network, system, forward}, {network, system, backward}};
        for (int move = 0; move < 60; ++move) {
            const VariableId variable(random() % system.variables.size());
            const auto value = static_cast<std::uint32_t>(random() % system[variable].values.size());
            const instants::Set where = random() % 3 == 0 ? knowledge.option(OptionId(0)) : instants::everything;
            std::vector<EdgeIndex> changed;
            if (random() % 10 == 0) { // look instead of moving
                const instants::Set seen = knowledge.stands(variable, ValueSet{1} << value);
                if (!knowledge.diagrams().disjoint(seen, knowledge.possible())) {
                    knowledge.narrow(seen);
                }
                changed = network.varying();
            } else {
                knowledge.put(variable, value, where);
                changed = network.edges_of(variable);
            }
            std::erase_if(changed, [&](EdgeIndex edge) { return !network.refresh(edge, knowledge); });
            for (Reach& reach : kept) {
                reach.update(changed);
                Reach anew(network, system, reach.spec());
                for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
                    REQUIRE(reach.possible(vertex) == anew.possible(vertex));
                    REQUIRE(reach.definite(vertex) == anew.definite(vertex));
                    const instants::Set a = reach.exact(vertex, knowledge);
                    const instants::Set b = anew.exact(vertex, knowledge);
                    REQUIRE(knowledge.diagrams().both(a, knowledge.possible()) ==
                            knowledge.diagrams().both(b, knowledge.possible()));
                }
                std::vector<Vertex> marks = reach.marks();
                std::vector<Vertex> expected = anew.marks();
                std::ranges::sort(marks);
                std::ranges::sort(expected);
                REQUIRE(marks == expected);
            }
        }
    }
}

TEST_CASE("the exact answer is the union over single configurations") {
    std::mt19937 random(11);
    for (int net = 0; net < 40; ++net) {
        const auto made = model_from(random_net(random));
        const System& system = made->model.system;
        std::vector<VariableId> open;
        instants::Knowledge all(system, 1'000'000);
        for (std::size_t i = 0; i < system.variables.size(); ++i) {
            if (open.size() < 5 && random() % 3 == 0) {
                open.emplace_back(i);
            } else {
                all.pin(VariableId(i), ValueSet{1} << random() % system.variables[i].values.size());
            }
        }
        REQUIRE(all.settle());
        Network network(system, all);
        const ReachSpec spec{.starts = {network.arrival(NodeId(1))}, .classes = pass | outlet};
        Reach reach(network, system, spec);
        // Every configuration by itself, searched plainly over edges that are open in it.
        for (std::uint32_t row = 0; row < 64; ++row) {
            std::vector<bool> assignment(1, (row & 1) != 0);
            for (std::uint32_t bit = 0; bit < 5; ++bit) {
                assignment.push_back((row >> (bit + 1) & 1) != 0);
            }
            std::vector<char> reached(network.vertex_count());
            std::vector<Vertex> queue = spec.starts;
            for (const Vertex start : queue) {
                reached[start] = 1;
            }
            while (!queue.empty()) {
                const Vertex at = queue.back();
                queue.pop_back();
                for (const EdgeIndex index : network.out_of(at)) {
                    const Edge& edge = network.edge(index);
                    if ((edge.classes & spec.classes) != 0 && all.diagrams().contains(edge.open, assignment) &&
                        reached[edge.to] == 0) {
                        reached[edge.to] = 1;
                        queue.push_back(edge.to);
                    }
                }
            }
            for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
                REQUIRE(all.diagrams().contains(reach.exact(vertex, all), assignment) == (reached[vertex] != 0));
            }
        }
    }
}
