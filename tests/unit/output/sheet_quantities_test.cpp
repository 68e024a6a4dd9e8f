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
          "4.5 L (1.19 US gal) or more is drawn, to fill what lies on the way; 20 to 100 seconds at 12 L/min "
          "(3.17 US gal/min).");
}

TEST_CASE("from two minutes on whole minutes are told") {
    CHECK(expected(0, 12, 30) == "1 to 3 minutes at 12 L/min (3.17 US gal/min).");
    CHECK(expected(0, 23, 23) == "about 115 seconds at 12 L/min (3.17 US gal/min).");
    CHECK(expected(0, 24, 24) == "about 2 minutes at 12 L/min (3.17 US gal/min).");
}
