#include "output/whereabouts.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;

namespace {

const ZoneId kitchen(0), loft(1);

} // namespace

TEST_CASE("whoever skips a box has not gone where it leads") {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    const Applies with = Applies::under(system, system.expressions.option(OptionId(0)));
    const Applies without = Applies::under(system, system.expressions.negate(system.expressions.option(OptionId(0))));

    Whereabouts at;
    CHECK_FALSE(at.surely(kitchen)); // nobody knows where one starts
    at.are({kitchen});
    CHECK(at.surely(kitchen));
    CHECK_FALSE(at.surely(loft));

    const Whereabouts before = at;
    Whereabouts box = at.of_those(with);
    CHECK(box.surely(kitchen));
    box.are({loft});
    box.join_others(before, with);
    CHECK_FALSE(box.surely(kitchen));
    CHECK_FALSE(box.surely(loft));

    // Each of the two knows where its own readers are.
    CHECK(box.of_those(with).surely(loft));
    CHECK(box.of_those(without).surely(kitchen));
    // A remedy is for some of both.
    CHECK_FALSE(box.of_those(Applies::open()).surely(loft));

    box.are({kitchen});
    CHECK(box.surely(kitchen));
}

TEST_CASE("who goes through two boxes of one option is followed through both") {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    const Applies with = Applies::under(system, system.expressions.option(OptionId(0)));
    Whereabouts at;
    at.are({kitchen});
    for (int i = 0; i < 2; ++i) {
        const Whereabouts before = at;
        at = at.of_those(with);
        CHECK(at.surely(i == 0 ? kitchen : loft));
        at.are({loft});
        at.join_others(before, with);
    }
    CHECK_FALSE(at.surely(loft));
}

TEST_CASE("what is known stays small, however many boxes there are") {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    system.options.resize(40);
    Whereabouts at;
    at.are({kitchen});
    for (std::size_t i = 0; i < 40; ++i) { // 2 to the power of 40 sorts of readers
        const Applies with = Applies::under(system, system.expressions.option(OptionId(i)));
        const Whereabouts before = at;
        at = at.of_those(with);
        at.are({i % 2 == 0 ? loft : kitchen});
        at.join_others(before, with);
    }
    CHECK_FALSE(at.surely(loft));
    CHECK_FALSE(at.surely(kitchen));
}
