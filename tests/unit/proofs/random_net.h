// Random pipework, for searches to be tried on.
#pragma once

#include <cstdint>
#include <random>
#include <string>

namespace curbstop {

/// A random net of stops, selectors, check valves and taps between tees, some of it with an option only.
inline std::string random_net(std::mt19937& random) {
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

} // namespace curbstop
