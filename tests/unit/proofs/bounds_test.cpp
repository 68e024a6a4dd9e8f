#include "proofs/transport/bounds.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "proofs/transport/pockets.h"

using namespace curbstop::proofs;

namespace {

Bounds random_bounds(std::mt19937& random) {
    std::uniform_real_distribution<double> part(0, 1);
    Bounds bounds;
    bounds.gas.part = part(random);
    bounds.full = random() % 3 == 0;
    bounds.gas.squeeze = random() % 2 == 0 ? 0 : 3e5 * part(random);
    bounds.most.resize(4, 0);
    bounds.least.resize(4, 0);
    for (std::size_t i = 0; i < 4; ++i) {
        bounds.most[i] = part(random);
        bounds.least[i] = bounds.most[i] * part(random);
    }
    return bounds;
}

bool no_stronger(const Bounds& weak, const Bounds& strong) {
    bool so = weak.gas.part <= strong.gas.part && weak.gas.squeeze >= strong.gas.squeeze && (!weak.full || strong.full);
    for (std::size_t i = 0; i < weak.most.size(); ++i) {
        so = so && weak.most[i] >= strong.most[i] && weak.least[i] <= strong.least[i];
    }
    return so;
}

} // namespace

// Contents per metre computed from the inside diameters that the trade tables of ASTM F876 (PEX, SDR 9) and ASTM B88
// (copper, type L: 0.0121 gal/ft for 1/2 in, as printed beside the sizes) give.
TEST_CASE("a pipe holds what the tables say") {
    constexpr double inch = 0.0254;
    constexpr double litre = 1e-3;
    CHECK(pipe_volume(0.485 * inch, 1) == Approx(0.1192 * litre).epsilon(0.001));
    CHECK(pipe_volume(0.681 * inch, 1) == Approx(0.2350 * litre).epsilon(0.001));
    CHECK(pipe_volume(0.545 * inch, 0.3048) == Approx(0.0121 * 3.785411784 * litre).epsilon(0.004));
    CHECK(pipe_volume(0.013, 1) == Approx(0.1327 * litre).epsilon(0.001)); // EN 1057, 15 x 1
}

// Boyle's law: at twice the pressure half the volume; one atmosphere above the air is twice the air's.
TEST_CASE("gas under pressure takes the room that Boyle leaves it") {
    Bounds bounds;
    bounds.gas.part = 0.9;
    CHECK(bounds.gas.now() == Approx(0.9));
    bounds.gas.squeeze = air_pressure;
    CHECK(bounds.gas.now() == Approx(0.45));
    bounds.gas.squeeze = 3 * air_pressure;
    CHECK(bounds.gas.now() == Approx(0.225));
}

// Densities at 0 degC: ice 0.9168 and water 0.99984 g/cm3. A body of water grows by 9.06 % when it freezes.
TEST_CASE("the room that ice needs is that of the densities, and half as much again") {
    CHECK(0.99984 / 0.9168 - 1 == Approx(0.0906).epsilon(0.001));
    CHECK(gas_to_freeze == Approx(1.5 * (0.99984 / 0.9168 - 1)).epsilon(0.001));
}

TEST_CASE("what is well mixed thins as e to the minus N") {
    Bounds own;
    own.most = {1, 0};
    own.least = {1, 0};
    Carried water;
    water.most = {0, 1};
    water.least = {0, 1};
    const Bounds once = mixed_with(own, water, 1);
    CHECK(once.most[0] == Approx(std::exp(-1.0)));
    CHECK(once.least[1] == Approx(1 - std::exp(-1.0)));
    const Bounds twice = mixed_with(once, water, 2);
    CHECK(twice.most[0] == Approx(std::exp(-3.0)));
}

TEST_CASE("joining and flowing only ever weaken, and more comes of more") {
    std::mt19937 random(3);
    for (int i = 0; i < 2000; ++i) {
        const Bounds a = random_bounds(random);
        const Bounds b = random_bounds(random);
        const Bounds both = joined(a, b);
        CHECK(no_stronger(both, a));
        CHECK(no_stronger(both, b));
        CHECK(no_stronger(widened(a, b), both));
        Carried few;
        few.join(a);
        Carried more = few;
        more.join(b);
        const Bounds own = random_bounds(random);
        CHECK(no_stronger(flowed_through(own, more, true, false), flowed_through(own, few, true, false)));
        CHECK(no_stronger(flowed_through(own, more, false, false), flowed_through(own, few, false, false)));
        CHECK(no_stronger(pressed_on(own, more, 1e5, WhileFull::traces, 0),
                          pressed_on(own, few, 1e5, WhileFull::traces, 0)));
        CHECK(no_stronger(swept_by(own, more), swept_by(own, few)));
        CHECK(no_stronger(flowed_through(both, few, true, false), flowed_through(a, few, true, false)));
    }
}

TEST_CASE("a full dead leg takes in traces at its mouth, one with air all that comes") {
    Bounds full;
    full.full = true;
    full.most = {1, 0};
    full.least = {1, 0};
    Carried ahead;
    ahead.most = {0, 1};
    ahead.least = {0, 1};
    CHECK(pressed_on(full, ahead, 3e5, WhileFull::nothing, 0).most[1] == 0);
    CHECK(pressed_on(full, ahead, 3e5, WhileFull::traces, 0).most[1] == Approx(traces));
    CHECK(pressed_on(full, ahead, 3e5, WhileFull::traces, 0).least[0] >= 1 - traces);
    Bounds airy = full;
    airy.full = false;
    airy.gas.part = 0.9;
    const Bounds squeezed = pressed_on(airy, ahead, 3e5, WhileFull::nothing, 0);
    CHECK(squeezed.most[1] == 1);
    CHECK(squeezed.least[0] == 0);
    CHECK_FALSE(squeezed.had(1));
    CHECK(pressed_on(squeezed, ahead, 3e5, WhileFull::nothing, 0) == squeezed); // squeezing does not compound
    // Beside as much again its gas may all have gathered there; beside a little, some of it is left.
    CHECK(pressed_on(airy, ahead, 3e5, WhileFull::nothing, 1).gas.now() == 0);
    CHECK(pressed_on(airy, ahead, 3e5, WhileFull::nothing, 0.1).gas.now() == Approx(squeezed.gas.now() - 0.1));
}

TEST_CASE("shares are the same whether they fit in place or not") {
    Shares shares;
    for (std::size_t count = 1; count <= 20; ++count) {
        shares.resize(count, static_cast<double>(count));
    }
    REQUIRE(shares.size() == 20);
    for (std::size_t i = 0; i < 20; ++i) {
        CHECK(shares[i] == static_cast<double>(i + 1));
    }
    Shares copy = shares;
    copy[19] = 0;
    CHECK(copy != shares);
    CHECK(copy < shares);
    copy.resize(5, 0);
    CHECK(copy.size() == 5);
    CHECK(copy[4] == 5);
    shares.resize(5, 0);
    CHECK(copy == shares);
    shares.assign(9, 0.25);
    CHECK(std::count(shares.begin(), shares.end(), 0.25) == 9);
}

TEST_CASE("what falls and what blows agree in the end on a pocket that both run through") {
    Carried water;
    water.most.assign(2, 1);
    water.least.assign(2, 0);
    Bounds drained;
    drained.most.assign(2, 1);
    drained.least.assign(2, 0);
    drained.gas.part = gas_after_emptying;
    const Bounds flooded = flooded_by(drained, water, false);
    CHECK(flooded.gas.part == drained.gas.part);
    CHECK(flooded.gas.now() == 0);
    CHECK(flooded_by(drained, water, true).gas.now() == drained.gas.part); // it runs out again
    Carried blown;
    blown.join(flooded);
    const Bounds through = flowed_through(flowed_through(drained, water, true, false), blown, false, false);
    CHECK(flowed_through(through, water, true, false) == through);
    CHECK(flowed_through(through, blown, false, false) == through);
    // Alone, air that comes through a flooded pocket may bring on what stands there.
    CHECK(flowed_through(drained, blown, false, false).gas.now() == 0);
}

TEST_CASE("what has flowed through already is told without working it out") {
    std::mt19937 random(11);
    const auto one_of = [&](auto... values) {
        const std::array all{values...};
        return all.at(random() % all.size());
    };
    const auto any_bounds = [&] {
        Bounds bounds = random_bounds(random);
        bounds.gas.part = one_of(0.0, 0.5, 0.9);
        bounds.gas.squeeze = one_of(0.0, 2e5);
        bounds.gas.flooded = one_of(LiquidSet{0}, LiquidSet{2});
        bounds.squeezed_in = one_of(LiquidSet{0}, LiquidSet{1}, LiquidSet{4});
        for (std::size_t i = 0; i < bounds.most.size(); ++i) {
            bounds.most[i] = one_of(0.0, 0.005, 1.0);
            bounds.least[i] = one_of(0.0, 1.0);
        }
        bounds.hygiene.agent = one_of(no_liquid, 1U);
        bounds.hygiene.reading = bounds.hygiene.agent == no_liquid ? 0 : one_of(0.5, 1.0);
        bounds.hygiene.clean = one_of(true, false);
        bounds.hygiene.sanitised = one_of(true, false);
        bounds.hygiene.brimful = one_of(true, false, false);
        bounds.hygiene.wetted = one_of(true, false, false);
        return bounds;
    };
    int steady = 0;
    for (int i = 0; i < 200'000; ++i) {
        const bool liquid = random() % 2 == 0;
        const bool keeps_gas = random() % 2 == 0;
        Bounds own = any_bounds();
        Carried before;
        before.join(any_bounds());
        for (int again = 0; again < 2; ++again) { // as it is, and once it has flowed
            const Bounds after = flowed_through(own, before, liquid, keeps_gas);
            REQUIRE(has_flowed_through(own, before, liquid, keeps_gas) == (after == own));
            steady += after == own ? 1 : 0;
            own = after;
        }
    }
    CHECK(steady > 200'000); // the second time at the latest, but for what the first has begun
}
