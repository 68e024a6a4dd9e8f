#include "proofs/transport/freezing.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
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

// The tables of the standard library's antifreeze. Freezing: 2001 ASHRAE Handbook: Fundamentals, propylene glycol by
// volume.
meaning::Fluid propylene_glycol() {
    std::ifstream library(CURBSTOP_SOURCE_DIR "/stdlib/fluids.curb");
    const std::regex row(R"(\s*at ([0-9.]+) % +(freezes|bursts) +(-?[0-9.]+) degC)");
    meaning::Fluid fluid;
    std::smatch found;
    for (std::string line; std::getline(library, line);) {
        if (std::regex_match(line, found, row)) {
            meaning::Fluid::Strength& strength = fluid.strengths.emplace_back();
            strength.concentration = percent(found[1].str());
            (found[2].str() == "freezes" ? strength.freezes : strength.bursts) = celsius(found[3].str());
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

// The same handbook's table in its own steps of 1 % by mass, here by volume (the data file "ASHRAE, Propylene Glycol"
// of CoolProp). Of these the standard library keeps about every second.
TEST_CASE("no step of the published table freezes more than 0.1 K before we say so") {
    struct Step {
        double percent, freezes;
    };
    constexpr Step published[] = {
        {0, 0},        {4.8, -1.6},   {9.6, -3.3},   {14.5, -5.1},  {19.4, -7.1},  {20.4, -7.6},  {21.4, -8},
        {22.4, -8.6},  {23.4, -9.1},  {24.4, -9.6},  {25.3, -10.2}, {26.4, -10.8}, {27.4, -11.4}, {28.4, -12},
        {29.4, -12.7}, {30.4, -13.4}, {31.4, -14.1}, {32.4, -14.8}, {33.5, -15.6}, {34.4, -16.4}, {35.5, -17.3},
        {36.5, -18.2}, {37.5, -19.1}, {38.5, -20.1}, {39.6, -21.1}, {40.6, -22.1}, {41.6, -23.2}, {42.6, -24.3},
        {43.7, -25.5}, {44.7, -26.7}, {45.7, -27.9}, {46.8, -29.3}, {47.8, -30.6}, {48.9, -32.1}, {49.9, -33.5},
        {50.9, -35},   {51.9, -36.6}, {53, -38.2},   {54, -39.8},   {55, -41.6},   {56, -43.3},   {57, -45.2},
        {58, -47.1},   {59, -49},     {60, -51.1},
    };
    const meaning::Fluid fluid = propylene_glycol();
    for (const Step& step : published) {
        INFO(step.percent << " %");
        const double ours = *freezing_point(fluid, step.percent / 100);
        CHECK(ours >= step.freezes - 0.1);  // the dangerous side
        CHECK(ours <= step.freezes + 0.15); // the table itself is printed to 0.1 K
    }
}

// Math for HVACR (Goodheart-Willcox 2018), exercise 5-4, p. 107: percent of propylene glycol by volume to protect to a
// temperature. Where its two columns agree with themselves: the row for -40 degF is garbled in the copy read, and
// below it the burst column stays at 35 %. It is printed to whole percents and to tens of degF.
TEST_CASE("burst points are those published, and lie below the freezing points") {
    struct Row {
        double temperature, freeze_percent, burst_percent;
    };
    constexpr Row published[] = {{-6.6, 18, 12},  {-12.2, 29, 20}, {-17.8, 36, 24},
                                 {-23.3, 42, 28}, {-28.9, 46, 31}, {-34.4, 50, 33}};
    const meaning::Fluid fluid = propylene_glycol();
    for (const Row& row : published) {
        INFO(row.temperature << " degC");
        CHECK(*freezing_point(fluid, row.burst_percent / 100, Point::bursts) == Approx(row.temperature));
        // Two printed tables never agree better than this: ours is the handbook's.
        CHECK(*freezing_point(fluid, row.freeze_percent / 100) == Approx(row.temperature).margin(0.8));
    }
    std::size_t told = 0;
    for (const meaning::Fluid::Strength& strength : fluid.strengths) {
        told += strength.bursts ? 1 : 0;
    }
    CHECK(told == std::size(published)); // no other burst point has a source
    for (int percent = 1; percent <= 60; ++percent) {
        INFO(percent);
        const double strength = percent / 100.0;
        CHECK(*freezing_point(fluid, strength, Point::bursts) <
              *freezing_point(fluid, std::min(strength, 0.33))); // beyond 33 % no burst point is told
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
    meaning::Fluid without = propylene_glycol();
    for (meaning::Fluid::Strength& strength : without.strengths) {
        strength.bursts.reset();
    }
    CHECK_FALSE(freezing_point(without, 0.3, Point::bursts).has_value());
}

// C1 x V1 = C2 x V2: a litre of 40 % in a pipe that held 0.25 L of water is 32 %.
TEST_CASE("thinned antifreeze protects as what it has become") {
    const double thinned = 0.40 * 1.0 / 1.25;
    CHECK(thinned == Approx(0.32));
    CHECK(*freezing_point(propylene_glycol(), thinned) > *freezing_point(propylene_glycol(), 0.40));
}
