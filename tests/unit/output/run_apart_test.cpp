#include "output/run_apart.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <stdexcept>

using namespace curbstop::output;

TEST_CASE("what is worked out in another process comes back, however much it is") {
    CHECK(run_apart([] { return std::vector{1.5, -2.0}; }) == std::vector{1.5, -2.0});
    CHECK(run_apart([] { return std::vector<double>{}; }) == std::vector<double>{});
    // More than a pipe holds at once (pipe(7): 65,536 bytes).
    const std::vector<double> many(100000, 0.25);
    CHECK(run_apart([&] { return many; }) == many);
}

TEST_CASE("work that ends its process, throws or gives nothing takes nothing with it") {
    CHECK_FALSE(run_apart([]() -> std::optional<std::vector<double>> { std::abort(); }));
    CHECK_FALSE(run_apart([]() -> std::optional<std::vector<double>> { throw std::runtime_error("no"); }));
    CHECK_FALSE(run_apart([]() -> std::optional<std::vector<double>> { return std::nullopt; }));
}
