// The sums against worked examples of others; the source stands beside each.
#include "quantities/amounts.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "proofs/transport/pockets.h"

using namespace curbstop;
using namespace curbstop::quantities;
using meaning::Unit;

namespace {

double gallons(double count) {
    return count * meaning::to_double(*meaning::make_quantity(meaning::Rational(1), Unit::gal), Unit::m3);
}
double fluid_ounces(double count) {
    return gallons(count) / 128;
}
meaning::Quantity of(std::int64_t count, std::int64_t parts, Unit unit) {
    return *meaning::make_quantity(*meaning::Rational::ratio(count, parts), unit);
}
meaning::Fluid::Strength point(std::int64_t tenths, std::int64_t freezes_tenths) {
    return {of(tenths, 10, Unit::percent), of(freezes_tenths, 10, Unit::degC), std::nullopt};
}

} // namespace

TEST_CASE("time is volume by flow") {
    // wastewater101.net, "Back to basics", August 2018.
    const auto at = [](double volume, double per_minute) { return minutes(gallons(volume), gallons(per_minute) / 60); };
    CHECK(at(85'000, 55) == Approx(1545).margin(1));
    CHECK(at(50, 5) == Approx(10));
    CHECK(at(45'000, 85) == Approx(529).margin(1));
    CHECK(at(5'775, 175) == Approx(33));
}

TEST_CASE("bleach by C1 V1 = C2 V2") {
    // Maine CDC, Disinfection Equations: 5,000 gal to 100 ppm.
    CHECK(bleach(gallons(5'000), 100e-6, 0.06) == Approx(gallons(8.33)).epsilon(0.001));
    CHECK(bleach(gallons(5'000), 100e-6, 0.12) == Approx(gallons(4.17)).epsilon(0.001));
    // Kansas Department of Health and Environment, kdhe.ks.gov/1019: the label, and its examples 1 and 2.
    CHECK(bleach(gallons(1), 410e-6, 0.0525) == Approx(fluid_ounces(1)).epsilon(0.001));
    CHECK(bleach(gallons(1'000), 50e-6, 0.0525) == Approx(fluid_ounces(122)).epsilon(0.001));
    CHECK(bleach(gallons(10'000), 410e-6, 0.0525) == Approx(gallons(78)).epsilon(0.003));
    // Wyoming Administrative Code, Agriculture, chapter 12, section 12-10: "approximately" 50 ppm.
    CHECK(bleach(gallons(1'000), 50e-6, 0.0525) == Approx(gallons(1)).epsilon(0.05));
    // CDC, Make Water Safe: half a millilitre of 6 % in a gallon comes to 7.9 mg/L.
    CHECK(bleach(gallons(1), 7.9e-6, 0.06) == Approx(0.5e-6).epsilon(0.01));
}

TEST_CASE("contents of pipes") {
    // ASTM B88 type L, contents in gal/ft (piping-designer.com, datasheet 1640): bore in inches.
    const double foot = 0.3048;
    const double inch = 0.0254;
    CHECK(proofs::pipe_volume(0.785 * inch, 10 * foot) == Approx(gallons(0.251)).epsilon(0.004));
    CHECK(proofs::pipe_volume(1.025 * inch, 10 * foot) == Approx(gallons(0.429)).epsilon(0.004));
    // A published table of pipe contents: 12 mm bore, 0.1131 L/m.
    CHECK(proofs::pipe_volume(0.012, 5) == Approx(0.5655e-3).epsilon(0.001));
}

TEST_CASE("what blowing leaves thins antifreeze") {
    CHECK(diluted(0.4, 0.1) == Approx(0.36)); // by hand
    CHECK(diluted(0.3, 0) == Approx(0.3));
    meaning::Fluid glycol; // rows of 2001 ASHRAE Handbook: Fundamentals, propylene glycol by volume
    glycol.strengths = {point(344, -164), point(375, -191), point(396, -211), point(416, -232), point(600, -511)};
    // By hand: 16.4 + 2.7 x 1.6 / 3.1.
    CHECK(*freezes_at(glycol, 0.36) == Approx(-17.79).margin(0.01));
    // The APG formula of CoolProp (2001 ASHRAE Handbook) gives -17.77 there: exp(5.546103 - 0.326277 x 0.01 - ...) K.
    const double x = 0.36 - 0.35;
    const double kelvin = std::exp(5.546103 - 0.326277 * x - 0.6666873 * x * x - 0.8800598 * x * x * x);
    CHECK(*freezes_at(glycol, 0.36) == Approx(kelvin - 273.15).margin(0.1));
    CHECK(*freezes_at(glycol, 0.6) == Approx(-51.1));
    CHECK_FALSE(freezes_at(glycol, 0.61)); // nothing is guessed beyond the table
    CHECK_FALSE(freezes_at(meaning::Fluid{}, 0.3));
}

TEST_CASE("trips with a vessel of limited size") {
    CHECK(trips(75e-3, 20e-3) == 4U); // 3.75
    CHECK(trips(20e-3, 20e-3) == 1U);
    CHECK(trips(20.1e-3, 20e-3) == 2U);
    CHECK(trips(0, 20e-3) == 0U);
    CHECK_FALSE(trips(1, 0));
}

TEST_CASE("a volume is rounded up and never down") {
    CHECK(rounded_up(1.889e-3) == of(19, 10, Unit::L));
    CHECK(rounded_up(2.41e-3) == of(5, 2, Unit::L));
    CHECK(rounded_up(16.35e-3) == of(17, 1, Unit::L));
    CHECK(rounded_up(5e-3) == of(5, 1, Unit::L));
    for (double volume = 0; volume < 0.1; volume += 0.00137) {
        const double up = meaning::to_double(rounded_up(volume), Unit::m3);
        CHECK(up > volume - 1.1e-6);
        CHECK(up - volume < 1.01e-3);
    }
}
