#include "output/sheet_quantities.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using namespace curbstop::output;
using meaning::Unit;

namespace {

meaning::Quantity of(std::string_view number, Unit unit) {
    return *meaning::make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), unit);
}

/// What the sheet expects of a flow at 12 L/min, in L.
std::string expected(double needs, std::optional<double> asked, std::optional<double> most) {
    const auto tiny = tests::tiny_model();
    const Words words(tiny.model.system);
    const meaning::Flow flow;
    quantities::FlowAmount amount{.flow = &flow, .needs = needs / 1000};
    const double least = std::min(asked.value_or(needs), most.value_or(1e9));
    amount.rate = of("12", Unit::L_per_min);
    amount.least_minutes = least / 12;
    if (asked) {
        amount.written_least = *asked / 1000;
    }
    if (most) {
        amount.most = *most / 1000;
        amount.most_minutes = *most / 12;
    }
    const auto line = estimate_line(words, amount);
    return line ? plain(line->text) : std::string();
}

} // namespace

TEST_CASE("a step that says how much is to come is given no other figure, and its time goes by it") {
    CHECK(expected(22, 2, 3) == "10 to 15 seconds at 12 L/min (3.17 US gal/min).");
    CHECK(expected(0, 2, 2) == "about 10 seconds at 12 L/min (3.17 US gal/min).");
}

TEST_CASE("no figure stands above what the step allows") {
    CHECK(expected(22, {}, 3) == "about 15 seconds at 12 L/min (3.17 US gal/min).");
    CHECK(expected(11.7, {}, 12) == "about 60 seconds at 12 L/min (3.17 US gal/min)."); // 11.7 is printed as 12
    CHECK(expected(4.2, {}, 20) ==
          "4.5 L (1.25 US gal) or more is drawn, to fill what lies on the way; 20 to 100 seconds at 12 L/min "
          "(3.17 US gal/min).");
}

TEST_CASE("from two minutes on whole minutes are told") {
    CHECK(expected(0, 12, 30) == "1 min to 2 min 30 s at 12 L/min (3.17 US gal/min).");
    CHECK(expected(0, 23, 23) == "about 115 seconds at 12 L/min (3.17 US gal/min).");
    CHECK(expected(0, 24, 24) == "about 2 minutes at 12 L/min (3.17 US gal/min).");
}

TEST_CASE("where something stays is told in few rows, the greatest first, and the rest together") {
    const auto tiny = tests::tiny_model();
    const Words words(tiny.model.system);
    quantities::Quantities quantities;
    quantities::Supply supply{.fluid = meaning::FluidId(1)};
    const auto pocket = [](quantities::PocketKind kind, std::uint32_t index, double litres) {
        return quantities::PocketVolume{kind, "", index, litres / 1000};
    };
    supply.stays_in = {pocket(quantities::PocketKind::pipe, 0, 0.5), pocket(quantities::PocketKind::body, 0, 0.2),
                       pocket(quantities::PocketKind::body, 1, 0.01), pocket(quantities::PocketKind::body, 2, 0.8)};
    quantities.supplies = {supply};
    const InfoTable table = staying_table(words, quantities);
    REQUIRE(table.rows.size() == 3);
    CHECK(table.rows[0][0] == "Kitchen tap");
    CHECK(table.rows[1][0] == "Stop valve");
    CHECK(table.rows[2][0] == "pipes and what holds less, none of it for drinking water");
    CHECK(table.rows[2][2].starts_with("600 mL"));
    CHECK(staying_table(words, {}).columns.empty());
    // Of what people drink from nobody says so.
    quantities.supplies.front().stays_in.front().drinking = true;
    CHECK(staying_table(words, quantities).rows[2][0] == "pipes and what holds less");
}

TEST_CASE("of two fluids in one place the one that there may be more of comes first, and a twentieth is not named") {
    auto tiny = tests::tiny_model();
    const Words words(tiny.model.system);
    tiny.model.system.fluids[0].category = 3;
    quantities::Quantities quantities;
    const auto holds = [](std::uint32_t fluid, double share) {
        quantities::Supply supply{.fluid = meaning::FluidId(fluid)};
        supply.stays_in = {{quantities::PocketKind::body, "", 0, 0.001, share}};
        return supply;
    };
    quantities.supplies = {holds(0, 0.2), holds(1, 1)};
    const InfoTable table = staying_table(words, quantities);
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0][1] == words.fluid(meaning::FluidId(1)));
    CHECK(table.rows[0][2].starts_with("1 L"));
    CHECK(table.rows[1][2].starts_with("200 mL"));
    quantities.supplies = {holds(0, 0.05), holds(1, 1)};
    CHECK(staying_table(words, quantities).rows.size() == 1);
    // Drinking water is what belongs there.
    quantities.supplies = {holds(0, 0.2), holds(1, 1)};
    tiny.model.system.fluids[0].category = 1;
    CHECK(staying_table(words, quantities).rows.size() == 1);
}

TEST_CASE("how much bleach stands where it is measured out, and nowhere else") {
    const auto tiny = tests::tiny_model();
    const Words words(tiny.model.system);
    quantities::Quantities quantities;
    quantities::Dose dose{.fluid = meaning::FluidId(1), .chamber = {}, .volume = 0.001, .concentration = 50e-6};
    dose.rows = {{0.05, 1e-6}, {0.1, 0.5e-6}};
    quantities.doses = {dose};
    REQUIRE(dose_line(words, quantities, meaning::FluidId(1)));
    CHECK(plain(*dose_line(words, quantities, meaning::FluidId(1))) ==
          "To bring each 1 L (34 US fl oz) of water to 50 mg/L: 1 mL of bleach of 5 % or 1 mL of bleach of 10 %.");
    CHECK_FALSE(dose_line(words, quantities, meaning::FluidId(0)));
}
