#include "meaning/quantity.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

using namespace curbstop::meaning;

namespace {

Rational number(std::string_view text) {
    const auto parsed = parse_number(text);
    REQUIRE(std::holds_alternative<Rational>(parsed));
    return std::get<Rational>(parsed);
}

Quantity quantity(std::string_view text, std::string_view unit) {
    const auto found = unit_from_name(unit);
    REQUIRE(found);
    const auto made = make_quantity(number(text), *found);
    REQUIRE(made);
    return *made;
}

bool is_malformed(std::string_view text) {
    const auto parsed = parse_number(text);
    return std::holds_alternative<NumberError>(parsed) && std::get<NumberError>(parsed) == NumberError::malformed;
}

/// Both written forms are one quantity, to the last bit.
bool same(std::string_view a, std::string_view unit_a, std::string_view b, std::string_view unit_b) {
    return quantity(a, unit_a) == quantity(b, unit_b);
}

double in(std::string_view text, std::string_view unit, std::string_view other) {
    return to_double(quantity(text, unit), unit_from_name(other).value());
}

} // namespace

TEST_CASE("numbers are exact decimals") {
    CHECK(number("45") == Rational(45));
    CHECK(number("1.2") == Rational::ratio(6, 5));
    CHECK(number("-13") == Rational(-13));
    CHECK(number("-0.50") == Rational::ratio(-1, 2));
    CHECK(number("007") == Rational(7));
    for (const std::string_view text : {"", "-", ".5", "5.", "1e3", "1,5", "+1", "--1", "1.2.3", " 1", "0x1", "nan"}) {
        INFO(std::string(text));
        CHECK(is_malformed(text));
    }
}

TEST_CASE("a number has at most 18 digits") {
    CHECK((number("999999999999999999").numerator() == 999'999'999'999'999'999));
    CHECK(number("0.00000000000000001") == Rational::ratio(1, 100'000'000'000'000'000));
    for (const std::string_view text : {"1000000000000000000", "0.000000000000000001", "0000000000000000000"}) {
        const auto parsed = parse_number(text);
        REQUIRE(std::holds_alternative<NumberError>(parsed));
        CHECK(std::get<NumberError>(parsed) == NumberError::too_long);
    }
}

TEST_CASE("every number of 18 digits fits every unit and comes back exactly") {
    for (const UnitInfo& unit : all_units()) {
        for (const std::string_view text : {"999999999999999999", "-999999999999999999", "0.99999999999999999"}) {
            INFO(std::string(text) + " " + std::string(unit.name));
            const auto made = make_quantity(number(text), unit.unit);
            REQUIRE(made);
            CHECK(made->dimension == unit.dimension);
            CHECK(value_in(*made, unit.unit) == number(text));
        }
    }
}

TEST_CASE("exact conversions of length, mass and time") {
    CHECK(same("1", "ft", "0.3048", "m"));      // NIST SP 811 (2008), appendix B.8: exact
    CHECK(same("1", "inch", "25.4", "mm"));     // NIST SP 811 (2008), appendix B.8: exact
    CHECK(same("12", "inch", "1", "ft"));       // NIST Handbook 44, appendix C
    CHECK(same("1", "lb", "0.45359237", "kg")); // NIST SP 811 (2008), appendix B.8: exact
    CHECK(same("16", "oz", "1", "lb"));         // NIST Handbook 44, appendix C: avoirdupois
    CHECK(same("1", "kg", "1000000", "mg"));    // SI prefixes
    CHECK(same("1", "d", "24", "h"));           // SI Brochure, table 8
    CHECK(same("1", "h", "60", "min"));         // SI Brochure, table 8
    CHECK(same("1", "min", "60", "s"));         // SI Brochure, table 8
    CHECK(same("1", "kW", "1000", "W"));        // SI prefixes
    CHECK(same("100", "cm", "1", "m"));         // SI prefixes
}

TEST_CASE("exact conversions of volume and flow") {
    CHECK(same("1", "gal", "3.785411784", "L")); // NIST Handbook 44, appendix C: 231 cubic inches exactly
    // 231 cubic inches, from the inch of 25.4 mm.
    CHECK(quantity("1", "gal").value ==
          Rational::ratio(static_cast<Integer>(231) * 254 * 254 * 254, 1'000'000'000'000));
    CHECK(same("128", "floz", "1", "gal"));           // NIST Handbook 44, appendix C
    CHECK(same("1", "gal_imp", "4.54609", "L"));      // Weights and Measures Act 1985 (UK)
    CHECK(same("160", "floz_imp", "1", "gal_imp"));   // Weights and Measures Act 1985 (UK)
    CHECK(same("1", "floz_imp", "28.4130625", "mL")); // follows from the two above
    CHECK(quantity("1", "floz") != quantity("1", "floz_imp"));
    CHECK(in("1", "floz", "mL") == Approx(29.57352956).epsilon(1e-9)); // Debian package `units`, 2.22
    CHECK(in("1", "gal_imp", "gal") == Approx(1.20095).epsilon(1e-6)); // Debian package `units`, 2.22
    CHECK(same("1", "L", "100", "cL"));                                // SI prefixes
    CHECK(same("1", "L", "10", "dL"));                                 // SI prefixes
    CHECK(same("1", "m3", "1000", "L"));                               // SI Brochure, table 8
    CHECK(same("1", "gal/min", "3.785411784", "L/min"));               // the gallon above
    CHECK(same("1", "L/s", "3600", "L/h"));
    CHECK(same("1", "L/s", "60", "L/min"));
    CHECK(same("3.6", "m3/h", "1", "L/s"));
}

TEST_CASE("exact conversions of pressure") {
    CHECK(same("1", "bar", "100", "kPa"));     // NIST SP 811 (2008), appendix B.8: exact
    CHECK(same("1", "bar", "1000", "mbar"));   // SI prefixes
    CHECK(same("1", "MPa", "10", "bar"));      // SI prefixes
    CHECK(same("1", "mH2O", "9806.65", "Pa")); // NIST SP 811: cmH2O, conventional, 98.0665 Pa
    CHECK(same("1", "mH2O", "9.80665", "kPa"));
    CHECK(in("1", "psi", "Pa") == Approx(6894.757).epsilon(1e-7));         // NIST SP 811, appendix B.8
    CHECK(in("1", "psi", "kPa") == Approx(6.894757293).epsilon(1e-9));     // Debian package `units`, 2.22
    CHECK(in("30", "psi", "kPa") == Approx(206.84271).epsilon(1e-7));      // 30 * 6.894757, NIST SP 811, B.8
    CHECK(in("150", "psi", "kPa") == Approx(1034.21355).epsilon(1e-7));    // 150 * 6.894757, NIST SP 811, B.8
    CHECK(in("1", "psi", "bar") == Approx(0.0689475729).epsilon(1e-9));    // Debian package `units`, 2.22
    CHECK(in("101325", "Pa", "psi") == Approx(14.69594878).epsilon(1e-9)); // Debian package `units`, 2.22
    CHECK(in("1", "ftH2O", "Pa") == Approx(2989.067).epsilon(1e-7));       // NIST SP 811, appendix B.8: conventional
    CHECK(in("1", "psi", "ftH2O") == Approx(2.306659).epsilon(1e-6));      // 6894.757 / 2989.067, both from SP 811
    CHECK(same("1", "ftH2O", "0.3048", "mH2O"));                           // the foot above
}

TEST_CASE("worked examples of standing water") {
    // EPANET's own test of its units (tests/test_units.cpp): 100 ft of standing water are 43.33 psi, 30.48 m of it
    // 298.76 kPa, with its rounded factors 0.4333 psi/ft and 6.895 kPa/psi.
    CHECK(in("100", "ftH2O", "psi") == Approx(43.33).epsilon(1e-3));
    CHECK(in("30.48", "mH2O", "kPa") == Approx(298.76035).epsilon(1e-3));
    // EPANET's example Net1, its published report: tank 2 holds 120 ft of water, 52.00 psi at its foot.
    CHECK(in("120", "ftH2O", "psi") == Approx(52.00).epsilon(1e-3));
}

TEST_CASE("temperatures are affine") {
    // (F - 32) / 1.8 and K - 273.15: NIST SP 811 (2008), appendix B.8, exact.
    CHECK(same("32", "degF", "0", "degC"));
    CHECK(same("212", "degF", "100", "degC"));
    CHECK(same("-40", "degF", "-40", "degC"));
    CHECK(same("273.15", "K", "0", "degC"));
    CHECK(same("0", "K", "-459.67", "degF"));
    CHECK(in("210", "degF", "degC") == Approx(98.8889).epsilon(1e-6));
    CHECK(in("-50", "degF", "degC") == Approx(-45.5556).epsilon(1e-6));
    CHECK(in("-17", "degC", "degF") == Approx(1.4).epsilon(1e-12));
}

TEST_CASE("concentrations and counts") {
    CHECK(quantity("30", "%").value == Rational::ratio(3, 10));
    CHECK(same("1", "%", "10000", "ppm"));
    CHECK(same("50", "ppm", "50", "mg/L")); // common practice in disinfection: a litre of water taken as 1 kg
    CHECK(quantity("4", "").dimension == Dimension::count);
}

TEST_CASE("worked examples of a dose of bleach") {
    // What reaches the water: strength x volume of bleach / volume of water, as the health departments reckon.
    const auto strength = [](double percent_of_bleach, double bleach_litres, double water_litres) {
        return in("1", "%", "mg/L") * percent_of_bleach * bleach_litres / water_litres;
    };
    // Kansas Department of Health and Environment (kdhe.ks.gov/1019), 5.25 %: 1 fl oz in a gallon is 410 mg/L; 122 fl
    // oz bring 1,000 gal to 50 mg/L, 78 gal bring 10,000 gal to 410 mg/L.
    CHECK(strength(5.25, in("1", "floz", "L"), in("1", "gal", "L")) == Approx(410).epsilon(0.001));
    CHECK(strength(5.25, in("122", "floz", "L"), in("1000", "gal", "L")) == Approx(50).epsilon(0.001));
    CHECK(strength(5.25, in("78", "gal", "L"), in("10000", "gal", "L")) == Approx(410).epsilon(0.002));
    // Maine CDC, Disinfection Equations: 8.33 gal of 6 % or 4.17 gal of 12 % bring 5,000 gal to 100 ppm.
    CHECK(strength(6, in("8.33", "gal", "L"), in("5000", "gal", "L")) == Approx(100).epsilon(0.001));
    CHECK(strength(12, in("4.17", "gal", "L"), in("5000", "gal", "L")) == Approx(100).epsilon(0.001));
    // CDC, Make Water Safe: about 0.5 mL of 6 % in a gallon; worked out from these, 7.9 mg/L.
    CHECK(strength(6, in("0.5", "mL", "L"), in("1", "gal", "L")) == Approx(7.9).epsilon(0.01));
}

TEST_CASE("quantities of one dimension are ordered, whatever unit they were written in") {
    CHECK(quantity("45", "psi") < quantity("4", "bar"));
    CHECK(quantity("59", "psi") > quantity("4", "bar"));
    CHECK(quantity("-13", "degC") < quantity("32", "degF"));
    CHECK(quantity("90", "min") == quantity("1.5", "h"));
}

TEST_CASE("a unit of another dimension gives nothing") {
    CHECK_FALSE(value_in(quantity("1", "bar"), Unit::m));
    CHECK(std::isnan(to_double(quantity("1", "bar"), Unit::m)));
    CHECK_FALSE(unit_from_name("barg"));
    CHECK_FALSE(unit_from_name("l"));
    CHECK_FALSE(unit_from_name("PSI"));
}

TEST_CASE("names, dimensions and codes of units") {
    std::set<std::string_view> names;
    std::set<std::string_view> codes;
    for (const UnitInfo& unit : all_units()) {
        INFO(std::string(unit.name));
        CHECK(unit_from_name(unit.name) == unit.unit);
        CHECK(&unit_info(unit.unit) == &unit);
        CHECK(unit.factor.sign() > 0);
        CHECK_FALSE(unit.ucum.empty());
        CHECK((unit.symbol.empty() == (unit.unit == Unit::one)));
        CHECK(names.insert(unit.name).second);
        CHECK(codes.insert(unit.ucum).second);
        CHECK(unit_info(unit_of(unit.dimension)).dimension == unit.dimension);
        CHECK(dimension_from_name(dimension_name(unit.dimension)) == unit.dimension);
    }
    CHECK_FALSE(dimension_from_name("area"));
    // Codes of UCUM, table "Conversion of Customary Units" and others.
    CHECK(unit_info(Unit::psi).ucum == "[psi]");
    CHECK(unit_info(Unit::gal_imp).ucum == "[gal_br]");
    CHECK(unit_info(Unit::degC).ucum == "Cel");
}

TEST_CASE("the language reference and the table of units agree") {
    // Rows of the table in compiler/reference/language.md: | `dimension` … | `unit unit …` … |
    std::ifstream reference(std::string(CURBSTOP_SOURCE_DIR) + "/compiler/reference/language.md");
    std::size_t units = 0;
    for (std::string line; std::getline(reference, line);) {
        const std::size_t name_end = line.starts_with("| `") ? line.find('`', 3) : std::string::npos;
        const auto dimension =
            name_end == std::string::npos ? std::nullopt : dimension_from_name(line.substr(3, name_end - 3));
        const std::size_t begin = name_end == std::string::npos ? name_end : line.find('`', name_end + 1);
        if (!dimension || begin == std::string::npos) {
            continue;
        }
        std::istringstream listed(line.substr(begin + 1, line.find('`', begin + 1) - begin - 1));
        for (std::string name; listed >> name; ++units) {
            INFO(name);
            const auto unit = unit_from_name(name);
            REQUIRE(unit);
            CHECK(unit_info(*unit).dimension == *dimension);
        }
    }
    CHECK(units == all_units().size() - 1); // a count has no unit
}
