#include "output/quantity_words.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using meaning::Dimension;
using meaning::Unit;

namespace {

meaning::Quantity quantity(std::string_view number, Unit unit) {
    return *meaning::make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), unit);
}

} // namespace

TEST_CASE("says a quantity in both systems of units, once where they agree") {
    CHECK(output::quantity_words(quantity("4", Unit::L)) == "4 L (1.06 US gal)");
    CHECK(output::quantity_words(quantity("0", Unit::bar)) == "0 bar (0 psi)");
    CHECK(output::quantity_words(quantity("-13", Unit::degC)) == "-13 °C (8.6 °F)");
    CHECK(output::quantity_words(quantity("4", Unit::h)) == "4 h");
    CHECK(output::quantity_words(quantity("30", Unit::percent)) == "30 %");
}

TEST_CASE("adds quantities of one dimension") {
    CHECK_FALSE(output::sum({}).has_value());
    CHECK(*output::sum({quantity("1", Unit::L), quantity("500", Unit::mL)}) == quantity("1.5", Unit::L));
    CHECK_FALSE(output::sum({quantity("1", Unit::L), quantity("1", Unit::h)}).has_value());
    CHECK(*output::times(quantity("250", Unit::mL), 4) == quantity("1", Unit::L));
}

TEST_CASE("names a unit for each field but a count") {
    for (const Dimension dimension :
         {Dimension::length, Dimension::volume, Dimension::pressure, Dimension::temperature, Dimension::time,
          Dimension::flow, Dimension::concentration, Dimension::mass, Dimension::power}) {
        CHECK_FALSE(output::record_unit(dimension).empty());
    }
    CHECK(output::record_unit(Dimension::count).empty());
    CHECK(output::record_units(Dimension::count).empty());
}

TEST_CASE("the units to choose from are those that are named, each of its dimension") {
    for (std::size_t i = 0; i <= static_cast<std::size_t>(Dimension::count); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        std::string words;
        for (const Unit unit : output::record_units(dimension)) {
            CHECK(meaning::unit_info(unit).dimension == dimension);
            words += (words.empty() ? "" : " or ") + std::string(meaning::unit_info(unit).symbol);
        }
        CHECK(words == output::record_unit(dimension));
    }
}
