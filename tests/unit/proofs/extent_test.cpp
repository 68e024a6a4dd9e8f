#include "proofs/extent.h"

#include <catch2/catch.hpp>

#include "proofs/random_net.h"
#include "proofs/reach.h"
#include "support_model.h"

#include <algorithm>
#include <random>

using namespace curbstop;
using namespace curbstop::meaning;
using namespace curbstop::proofs;
using instants::Set;

TEST_CASE("what is kept up to date is the union of searches made anew, and every change is told") {
    std::mt19937 random(23);
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
        instants::Diagrams& sets = knowledge.diagrams();
        Network network(system, knowledge);
        Extent extent(network, pass);
        struct Start {
            Vertex vertex;
            Set set = instants::nothing;
        };
        Start starts[] = {{network.arrival(NodeId(1))}, {network.arrival(NodeId(2))}, {network.arrival(NodeId(2))}};
        for (int move = 0; move < 80; ++move) {
            std::vector<Set> before;
            for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
                before.push_back(extent.at(vertex));
            }
            const VariableId variable(random() % system.variables.size());
            const auto value = static_cast<std::uint32_t>(random() % system[variable].values.size());
            const Set where = random() % 3 == 0 ? knowledge.option(OptionId(0)) : instants::everything;
            std::vector<EdgeIndex> changed, shut, opened;
            if (random() % 10 == 0) { // look instead of moving
                const Set seen = knowledge.stands(variable, ValueSet{1} << value);
                if (!sets.disjoint(seen, knowledge.possible())) {
                    knowledge.narrow(seen);
                }
                changed = network.varying();
            } else {
                knowledge.put(variable, value, where);
                changed = network.edges_of(variable);
            }
            for (const EdgeIndex edge : changed) {
                const Set open = network.edge(edge).open;
                network.refresh(edge, knowledge);
                if (!sets.within(network.edge(edge).open, open)) {
                    opened.push_back(edge);
                }
                if (!sets.within(open, network.edge(edge).open)) {
                    shut.push_back(edge);
                }
            }
            if (random() % 4 == 0) { // a start comes or goes
                const std::uint32_t which = static_cast<std::uint32_t>(random() % 3);
                const Set some[] = {instants::nothing, instants::everything, knowledge.option(OptionId(0)), where};
                starts[which].set = some[random() % 4];
                extent.start(which, starts[which].vertex, starts[which].set);
            }
            extent.update(shut, opened, knowledge);
            for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
                Set expected = instants::nothing;
                for (const Start& start : starts) {
                    Reach anew(network, system, {.starts = {start.vertex}, .classes = pass});
                    expected = sets.either(expected, sets.both(start.set, anew.exact(vertex, knowledge)));
                }
                REQUIRE(sets.both(extent.at(vertex), knowledge.possible()) ==
                        sets.both(expected, knowledge.possible()));
                const auto told = std::ranges::find(extent.changes(), vertex, &Extent::Change::vertex);
                REQUIRE((told == extent.changes().end() ? extent.at(vertex) : told->before) == before[vertex]);
            }
        }
    }
}
