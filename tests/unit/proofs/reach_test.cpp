#include "proofs/reach.h"

#include <catch2/catch.hpp>

#include "proofs/random_net.h"
#include "support_model.h"

#include <algorithm>
#include <random>
#include <string>

using namespace curbstop;
using namespace curbstop::meaning;
using namespace curbstop::proofs;

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
            network.refresh(changed, knowledge);
            for (Reach& reach : kept) {
                if (random() % 3 == 0) { // not asked for a while: several changes come at once
                    continue;
                }
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
