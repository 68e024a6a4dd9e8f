#include "output/quantity_words.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using meaning::Dimension;
using meaning::RecordKind;
using meaning::Unit;

namespace {

meaning::Quantity quantity(std::string_view number, Unit unit) {
    return *meaning::make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), unit);
}

std::string unit_of_record(RecordKind kind, Dimension dimension = Dimension::count) {
    meaning::RecordStatement record;
    record.kind = kind;
    record.dimension = dimension;
    return output::record_unit(record);
}

} // namespace

TEST_CASE("says a quantity in both systems of units, once where they agree") {
    CHECK(output::quantity_words(quantity("4", Unit::L)) == "4 L (1 US gal)");
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

TEST_CASE("names a unit for each field but a count, each of its dimension") {
    for (std::size_t i = 0; i <= static_cast<std::size_t>(Dimension::count); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const auto units = output::record_units(dimension);
        CHECK(units.empty() == (dimension == Dimension::count));
        for (const Unit unit : units) {
            CHECK(meaning::unit_info(unit).dimension == dimension);
        }
        CHECK(unit_of_record(RecordKind::measured, dimension).empty() == units.empty());
    }
    CHECK(unit_of_record(RecordKind::measured, Dimension::volume) == "L or US gal");
    CHECK(unit_of_record(RecordKind::measured, Dimension::concentration) == "mg/L or %");
    CHECK(unit_of_record(RecordKind::date) == "YYYY-MM-DD");
    CHECK(unit_of_record(RecordKind::clock) == "HH:MM");
}

TEST_CASE("the unit that an author names comes first, with what others use for as much") {
    using Units = std::vector<Unit>;
    CHECK(output::record_units(Dimension::volume, Unit::mL) == Units{Unit::mL, Unit::floz});
    CHECK(output::record_units(Dimension::pressure, Unit::psi) == Units{Unit::psi, Unit::bar});
    CHECK(output::record_units(Dimension::concentration, Unit::mg_per_L) == Units{Unit::mg_per_L});
    CHECK(output::record_units(Dimension::time, Unit::h) == Units{Unit::h});
}

TEST_CASE("US volumes are what a measure shows, on the safe side") {
    using output::Towards;
    const auto told = [](const char* number, Unit unit, Towards side) {
        return output::quantity_words(quantity(number, unit), output::Tongue(output::Language::english), side);
    };
    // NIST Handbook 44, appendix C: 1 US gallon is 3.785411784 L, 1 US fluid ounce 29.5735295625 mL.
    // 200 mL are 6.76 fl oz, 3 L 0.793 gal, 10 L 2.642 gal, 65 L 17.17 gal, 75 L 19.81 gal.
    CHECK(told("200", Unit::mL, Towards::more) == "200 mL (7 US fl oz)");
    CHECK(told("200", Unit::mL, Towards::less) == "200 mL (6.5 US fl oz)");
    CHECK(told("3", Unit::L, Towards::more) == "3 L (1 US gal)");
    CHECK(told("3", Unit::L, Towards::less) == "3 L (0.75 US gal)");
    CHECK(told("10", Unit::L, Towards::more) == "10 L (2.75 US gal)");
    CHECK(told("65", Unit::L, Towards::less) == "65 L (17 US gal)");
    CHECK(told("75", Unit::L, Towards::nearest) == "75 L (20 US gal)");
    // What the author wrote in US measures is not rounded.
    CHECK(told("1.1", Unit::gal, Towards::more).ends_with("(1.1 US gal)"));
}

TEST_CASE("from one US measure to another there is something between") {
    const auto told = [](const char* least, const char* most) {
        const output::Range range = output::range_words(quantity(least, Unit::L), quantity(most, Unit::L),
                                                        output::Tongue(output::Language::english));
        return range.least + " to " + range.most;
    };
    CHECK(told("5", "10") == "5 L (1.5 US gal) to 10 L (2.5 US gal)");
    // No quarter gallon lies between: 3.9 L are 131.87 fl oz, 4.1 L 138.64, 3 L 101.44, 4 L 135.26, or 1.0567 gal.
    CHECK(told("3.9", "4.1") == "3.9 L (132 US fl oz) to 4.1 L (138 US fl oz)");
    CHECK(told("3", "4") == "3 L (102 US fl oz) to 4 L (135 US fl oz)");
    CHECK(told("4", "4") == "4 L (1.06 US gal) to 4 L (1.06 US gal)"); // no whole ounce either
}
