// The pipes of the standard library, through the whole way from text to model, against published tables.
#include "meaning/build.h"
#include "text/embedded_modules.h"

#include <catch2/catch.hpp>

#include <numbers>
#include <string>
#include <vector>

using namespace curbstop;

namespace {

struct Row {
    const char* pipe;
    double bore_mm;          // inside diameter as printed
    double litres_per_metre; // contents, where the table prints them; 0 where it does not
    double tolerance;        // of the contents
};

// The bore of a pipe in millimetres, read from a system with one run of it.
double bore_of(const std::string& pipe) {
    text::SourceSet sources;
    text::DiagnosticSink sink;
    const text::SourceId root =
        sources.add("test.curb", "use pipes\n"
                                 "kind stop { port a  position shut { }  position open { } }\n"
                                 "system s \"S\" {\n  zone z \"Z\"\n  part one : stop \"One\" at z\n"
                                 "  part two : stop \"Two\" at z\n  run one.a - two.a : " +
                                     pipe + " 1 m\n}\n");
    const auto find = [&](std::string_view name, text::SourceId, text::Span) {
        const auto text = text::find_embedded_module(name);
        return text ? meaning::FoundModule{sources.add(std::string(name), std::string(*text))} : meaning::FoundModule{};
    };
    const auto model = meaning::build(sources, root, find, sink);
    REQUIRE(model.has_value());
    REQUIRE(model->system.runs.size() == 1);
    REQUIRE(model->system.runs.front().bore.has_value());
    return meaning::to_double(*model->system.runs.front().bore, meaning::Unit::mm);
}

double litres_per_metre(double bore_mm) { // pi/4 d^2, a square millimetre by a metre being a millilitre
    return std::numbers::pi / 4 * bore_mm * bore_mm / 1000;
}

void check(const std::vector<Row>& rows) {
    for (const Row& row : rows) {
        INFO(row.pipe);
        const double bore = bore_of(row.pipe);
        CHECK(bore == Approx(row.bore_mm).epsilon(1e-9));
        if (row.litres_per_metre != 0) {
            CHECK(litres_per_metre(bore) == Approx(row.litres_per_metre).epsilon(row.tolerance));
        }
    }
}

constexpr double inch = 25.4; // mm, exact: NIST SP 811 B.8
// US gallons per foot to litres per metre: 3.785411784 / 0.3048 (NIST Handbook 44 App. C).
constexpr double gallons_per_foot = 3.785411784 / 0.3048;

} // namespace

TEST_CASE("PEX, copper tube size: PEX tubing chart after ASTM F876 (pipefittercalculator; San Joaquin county record)") {
    // The chart's gallons per 100 ft are for the average wall, its inside diameters for the least: up to 7 % apart.
    check({{"pex_3_8", 0.360 * inch, 0.50 / 100 * gallons_per_foot, 0.07},
           {"pex_1_2", 0.485 * inch, 0.92 / 100 * gallons_per_foot, 0.07},
           {"pex_5_8", 0.584 * inch, 1.34 / 100 * gallons_per_foot, 0.07},
           {"pex_3_4", 0.681 * inch, 1.83 / 100 * gallons_per_foot, 0.07},
           {"pex_1", 0.875 * inch, 3.03 / 100 * gallons_per_foot, 0.07}});
    // Inside diameter = outside diameter less two walls, of the same chart.
    CHECK(bore_of("pex_1_2") == Approx((0.625 - 2 * 0.070) * inch));
    CHECK(bore_of("pex_1") == Approx((1.125 - 2 * 0.125) * inch));
}

TEST_CASE("copper type L, ASTM B88: inside diameters (copper tube size charts), contents (piping-designer 1640)") {
    check({{"copper_3_8", 0.430 * inch, 0.00753 * gallons_per_foot, 0.004},
           {"copper_1_2", 0.545 * inch, 0.0121 * gallons_per_foot, 0.004},
           {"copper_3_4", 0.785 * inch, 0.0251 * gallons_per_foot, 0.004},
           {"copper_1", 1.025 * inch, 0.0429 * gallons_per_foot, 0.004}});
}

TEST_CASE("metric: EN 1057:2010 table 3 for copper, DIN 16893 SDR 11 for PE-X, contents of a 12 mm bore") {
    check({{"copper_15", 13, 0.1327, 0.001},
           {"copper_22", 20, 0.3142, 0.001},
           {"pex_25", 20.4, 0, 0},
           {"bore_12", 12, 0.1131, 0.001}}); // table of pipe contents, goodwin.crimea.ua
}

TEST_CASE(
    "hoses are named by their inside diameter; the step from 1/2 to 5/8 in raises the area by 56 % (engineerfix)") {
    check({{"hose_1_2", 0.5 * inch, 0, 0}, {"hose_5_8", 0.625 * inch, 0, 0}, {"hose_3_4", 0.75 * inch, 0, 0}});
    CHECK(litres_per_metre(bore_of("hose_5_8")) / litres_per_metre(bore_of("hose_1_2")) == Approx(1.5625));
}
