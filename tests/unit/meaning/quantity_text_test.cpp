#include "meaning/quantity_text.h"

#include <catch2/catch.hpp>

using namespace curbstop::meaning;

namespace {

Quantity quantity(std::string_view text, Unit unit) {
    return make_quantity(std::get<Rational>(parse_number(text)), unit).value();
}

} // namespace

TEST_CASE("a number that ends soon is shown as it is") {
    CHECK(format_quantity(quantity("4", Unit::bar), Unit::bar) == "4 bar");
    CHECK(format_quantity(quantity("45", Unit::psi), Unit::psi) == "45 psi");
    CHECK(format_quantity(quantity("-13", Unit::degC), Unit::degC) == "-13 °C");
    CHECK(format_quantity(quantity("30", Unit::percent), Unit::percent) == "30 %");
    CHECK(format_quantity(quantity("12.345", Unit::L), Unit::L) == "12.345 L");
    CHECK(format_quantity(quantity("0.05", Unit::L), Unit::L) == "0.05 L");
    CHECK(format_quantity(quantity("-0.5", Unit::m), Unit::m) == "-0.5 m");
    CHECK(format_quantity(quantity("5", Unit::one), Unit::one) == "5");
    CHECK(format_quantity(quantity("1500000", Unit::Pa), Unit::Pa) == "1500000 Pa");
    CHECK(format_quantity(quantity("0", Unit::degC), Unit::degC) == "0 °C");
}

TEST_CASE("any other number is rounded to three digits") {
    CHECK(format_quantity(quantity("4", Unit::bar), Unit::psi) == "58 psi");      // 58.0151 (NIST SP 811 factor)
    CHECK(format_quantity(quantity("1", Unit::gal), Unit::L) == "3.79 L");        // 3.785411784 (Handbook 44)
    CHECK(format_quantity(quantity("45", Unit::psi), Unit::bar) == "3.1 bar");    // 3.10264
    CHECK(format_quantity(quantity("1", Unit::L), Unit::gal) == "0.264 US gal");  // 0.264172
    CHECK(format_quantity(quantity("150", Unit::psi), Unit::kPa) == "1034 kPa");  // 1034.214: whole units stay
    CHECK(format_quantity(quantity("9.999", Unit::gal), Unit::L) == "37.9 L");    // 37.8503
    CHECK(format_quantity(quantity("-1", Unit::degF), Unit::degC) == "-18.3 °C"); // -18.3333
    CHECK(format_quantity(quantity("1", Unit::mL), Unit::gal) == "0.000264 US gal");
}

TEST_CASE("a unit of another dimension gives the base unit") {
    CHECK(format_quantity(quantity("4", Unit::bar), Unit::L) == "400000 Pa");
}

TEST_CASE("handy units") {
    const auto shown = [](std::string_view text, Unit unit, UnitSystem system) {
        return format_quantity(quantity(text, unit), system);
    };
    CHECK(shown("0.25", Unit::L, UnitSystem::metric) == "250 mL");
    CHECK(shown("12", Unit::L, UnitSystem::metric) == "12 L");
    CHECK(shown("12", Unit::L, UnitSystem::us) == "3.17 US gal");
    CHECK(shown("12", Unit::L, UnitSystem::imperial) == "2.64 imp gal");
    CHECK(shown("0.25", Unit::L, UnitSystem::us) == "8.45 US fl oz");
    CHECK(shown("0.25", Unit::L, UnitSystem::imperial) == "8.8 imp fl oz");
    CHECK(shown("0", Unit::mL, UnitSystem::metric) == "0 L");
    CHECK(shown("2", Unit::bar, UnitSystem::us) == "29 psi");
    CHECK(shown("50", Unit::mbar, UnitSystem::metric) == "50 mbar");
    CHECK(shown("13", Unit::mm, UnitSystem::metric) == "13 mm");
    CHECK(shown("13", Unit::mm, UnitSystem::us) == "0.512 in");
    CHECK(shown("5", Unit::degC, UnitSystem::us) == "41 °F");
    CHECK(shown("5", Unit::degC, UnitSystem::imperial) == "5 °C");
    CHECK(shown("90", Unit::min, UnitSystem::us) == "90 min");
    CHECK(shown("24", Unit::h, UnitSystem::us) == "1 d");
    CHECK(shown("0.5", Unit::s, UnitSystem::us) == "0.5 s");
    CHECK(shown("50", Unit::ppm, UnitSystem::metric) == "50 mg/L");
    CHECK(shown("5", Unit::percent, UnitSystem::metric) == "5 %");
    CHECK(shown("250", Unit::g, UnitSystem::metric) == "250 g");
    CHECK(shown("1500", Unit::W, UnitSystem::metric) == "1.5 kW");
    CHECK(shown("10", Unit::L_per_min, UnitSystem::us) == "2.64 US gal/min");
}

TEST_CASE("what is written can be read again as the same quantity") {
    for (const UnitInfo& unit : all_units()) {
        for (const std::string_view text : {"1.2", "-13", "0.001", "999999999999999999"}) {
            const Quantity before = quantity(text, unit.unit);
            const auto written = write_quantity(before, unit.unit);
            REQUIRE(written);
            CHECK(*written == std::string(text) + (unit.name.empty() ? "" : " ") + std::string(unit.name));
        }
    }
    // In litres this gallon has more digits than a number may have, so another unit is found.
    CHECK(write_quantity(quantity("0.000000000000001", Unit::gal), Unit::L) == "0.000000000000001 gal");
    CHECK_FALSE(write_quantity({Dimension::count, Rational::ratio(1, 3).value()}, Unit::one));
}
