#include "proofs/transport/region.h"

#include <catch2/catch.hpp>

#include "proofs/random_net.h"
#include "support_model.h"

#include <algorithm>
#include <array>
#include <random>
#include <tuple>

using namespace curbstop;
using namespace curbstop::meaning;
using namespace curbstop::proofs;

namespace {

using Steps = std::vector<std::tuple<Vertex, std::uint32_t, std::uint32_t>>;

// Steps of the same depth stand in no order, and neither do passages.
std::vector<std::pair<instants::Set, Steps>> sorted(const std::vector<Passage>& passages) {
    std::vector<std::pair<instants::Set, Steps>> all;
    for (const Passage& passage : passages) {
        Steps steps;
        for (const PassageStep& step : passage.steps) {
            steps.emplace_back(step.vertex, step.depth, step.rank);
        }
        std::ranges::sort(steps);
        all.emplace_back(passage.where, std::move(steps));
    }
    std::ranges::sort(all);
    return all;
}

} // namespace

TEST_CASE("a region that is asked now and then tells the same ways as one made anew") {
    std::mt19937 random(23);
    int told = 0;
    for (int net = 0; net < 40; ++net) {
        const auto made = model_from(random_net(random));
        const System& system = made->model.system;
        instants::Knowledge knowledge(system, 1'000'000);
        int unknown = 0;
        for (std::size_t i = 0; i < system.variables.size(); ++i) {
            if (unknown < 2 && random() % 4 == 0) { // few, so that all the ways they make are told apart
                ++unknown;
            } else {
                knowledge.pin(VariableId(i), ValueSet{1} << random() % system.variables[i].values.size());
            }
        }
        REQUIRE(knowledge.settle());
        Network network(system, knowledge, Grain::pockets);
        const ReachSpec spec{.starts = {network.source_vertex(NodeId(1))},
                             .classes = static_cast<std::uint8_t>(pass | outlet | outlet_inside)};
        Region kept(network, system, spec);
        for (int move = 0; move < 60; ++move) {
            const VariableId variable(random() % system.variables.size());
            const auto value = static_cast<std::uint32_t>(random() % system[variable].values.size());
            knowledge.put(variable, value, random() % 3 == 0 ? knowledge.option(OptionId(0)) : instants::everything);
            std::vector<EdgeIndex> changed = network.edges_of(variable);
            network.refresh(changed, knowledge);
            if (random() % 3 == 0) {
                continue;
            }
            Region anew(network, system, spec);
            for (int question = 0; question < 6; ++question) {
                const Vertex target = random() % network.vertex_count();
                const Vertex other = random() % network.vertex_count();
                const instants::Set where =
                    knowledge.diagrams().both(kept.reached(target, knowledge), knowledge.possible());
                if (where == instants::nothing) {
                    continue;
                }
                ++told;
                const std::array sinks{target, other};
                REQUIRE(sorted(kept.passages(target, sinks, where, knowledge)) ==
                        sorted(anew.passages(target, sinks, where, knowledge)));
                REQUIRE(sorted(kept.chains_to(target, where, knowledge)) ==
                        sorted(anew.chains_to(target, where, knowledge)));
            }
        }
    }
    REQUIRE(told > 1000); // else the nets lead nowhere
}
