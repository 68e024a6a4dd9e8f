#include "proofs/transport/freezing.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <regex>
#include <string>

#include "meaning/quantity.h"

using namespace curbstop;
using namespace curbstop::proofs;

namespace {

meaning::Quantity percent(const std::string& number) {
    return *meaning::make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), meaning::Unit::percent);
}
meaning::Quantity celsius(const std::string& number) {
    return *meaning::make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), meaning::Unit::degC);
}

// The table of the standard library's antifreeze: 2001 ASHRAE Handbook: Fundamentals, propylene glycol by volume.
meaning::Fluid propylene_glycol() {
    std::ifstream library(CURBSTOP_SOURCE_DIR "/stdlib/fluids.curb");
    const std::regex row(R"(\s*at ([0-9.]+) % +freezes +(-?[0-9.]+) degC)");
    meaning::Fluid fluid;
    std::smatch found;
    for (std::string line; std::getline(library, line);) {
        if (std::regex_match(line, found, row)) {
            fluid.strengths.push_back({percent(found[1].str()), celsius(found[2].str()), {}});
        }
    }
    REQUIRE(fluid.strengths.size() > 10);
    return fluid;
}

// CoolProp's correlation "APG" of the same handbook's data, degC, from 10 % to 60 % by volume:
// T/K = exp(sum c_i (x - 0.35)^i).
double correlation(double x) {
    constexpr double c[] = {5.546103, -0.326277, -0.6666873, -0.8800598, -1.071417, -1.875782};
    double sum = 0;
    double power = 1;
    for (const double coefficient : c) {
        sum += coefficient * power;
        power *= x - 0.35;
    }
    return std::exp(sum) - 273.15;
}

} // namespace

TEST_CASE("between the points of the table the published correlation is kept") {
    const meaning::Fluid fluid = propylene_glycol();
    for (int tenths = 100; tenths <= 600; ++tenths) {
        const double x = tenths / 1000.0;
        INFO(x);
        const double point = *freezing_point(fluid, x);
        // The curve bends downwards: between its points a straight line is a little too cold, never by more than this.
        CHECK(point >= correlation(x) - 0.1);
        CHECK(point <= correlation(x) + 0.35);
    }
}

TEST_CASE("the points of the table are hit, and water freezes at 0 degC") {
    const meaning::Fluid fluid = propylene_glycol();
    CHECK(*freezing_point(fluid, 0) == Approx(0));
    CHECK(*freezing_point(fluid, 0.294) == Approx(-12.7));
    CHECK(*freezing_point(fluid, 0.6) == Approx(-51.1));
}

TEST_CASE("nothing is guessed beyond the table, or without one") {
    CHECK(*freezing_point(propylene_glycol(), 0.9) == Approx(-51.1));
    CHECK_FALSE(freezing_point(meaning::Fluid{}, 0.3).has_value());
    CHECK_FALSE(freezing_point(propylene_glycol(), 0.3, Point::bursts).has_value());
}

// C1 x V1 = C2 x V2: a litre of 40 % in a pipe that held 0.25 L of water is 32 %.
TEST_CASE("thinned antifreeze protects as what it has become") {
    const double thinned = 0.40 * 1.0 / 1.25;
    CHECK(thinned == Approx(0.32));
    CHECK(*freezing_point(propylene_glycol(), thinned) > *freezing_point(propylene_glycol(), 0.40));
}
