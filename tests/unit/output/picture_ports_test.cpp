#include "output/picture_ports.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

TEST_CASE("no two ports of a part have the same words, and no port a list of more than two names") {
    const Tiny tiny = tiny_model();
    const System& system = tiny.model.system;
    const Words words(system);
    const DrawingGraph graph = drawing_graph(words, nullptr);
    for (std::size_t i = 0; i < system.parts.size(); ++i) {
        std::vector<NodeId> ports;
        for (const NodeId node : system.parts[i].nodes) {
            if (system[node].kind == NodeKind::port) {
                ports.push_back(node);
            }
        }
        std::vector<std::string> named = port_words(words, graph, PartId(static_cast<std::uint32_t>(i)), ports);
        REQUIRE(named.size() == ports.size());
        for (const std::string& each : named) {
            CHECK(each.find(" more") == std::string::npos);
        }
        std::erase(named, "");
        std::ranges::sort(named);
        CHECK(std::ranges::adjacent_find(named) == named.end());
    }
}
