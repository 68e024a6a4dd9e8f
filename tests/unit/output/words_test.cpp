#include "output/words.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;
using curbstop::output::tests::tiny_model;

namespace {

VariableId variable_named(const System& system, std::string_view name) {
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        if (system.variables[i].name == name) {
            return VariableId(i);
        }
    }
    return {};
}

} // namespace

TEST_CASE("a thing is named by its label, or by its name where it has none") {
    CHECK(label_of({"stop_valve", "Stop valve", "", {}}) == "Stop valve");
    CHECK(label_of({"heater.low_drain", "heater.low_drain", "", {}}) == "low drain");
    CHECK(label_of({"stop_valve", "  ", "", {}}) == "stop valve");
    CHECK(label_of({"", "", "", {}}) == "(no name)");
}

TEST_CASE("what an author sets in back-ticks is a literal, and a back-tick alone is a letter") {
    using Literals = std::vector<Wording::Literal>;
    const Wording one = with_literals("Turn `S3` to `on`.");
    CHECK(one == "Turn S3 to on.");
    CHECK(one.literals == Literals{{5, 7}, {11, 13}});
    CHECK(with_literals("5` long") == "5` long");
    CHECK(with_literals("5` long").literals.empty());
    CHECK(with_literals("`a` and 5` long") == "a and 5` long");
    CHECK(with_literals("``") == "``");
    CHECK(with_literals("``").literals.empty());
    const Wording joined = Wording("See ") + one;
    CHECK(joined.literals == Literals{{9, 11}, {15, 17}});
    CHECK(joined.from(10).literals == Literals{{0, 1}, {5, 7}});

    auto tiny = tiny_model();
    const Words words(tiny.model.system);
    CHECK(words.told(Text("Press `Reset`")) == "Press Reset");
    const Words french(tiny.model.system, Tongue(Language::french));
    const Wording foreign = french.told(Text("Press `Reset`"));
    CHECK(foreign.literals == Literals{{6, 11}});
    REQUIRE(foreign.foreign.size() == 1);
    CHECK(foreign.foreign[0].end == foreign.size());
}

TEST_CASE("ways to stand are read aloud") {
    auto tiny = tiny_model();
    const Words words(tiny.model.system);
    const VariableId stop = variable_named(tiny.model.system, "stop_valve");
    CHECK(words.values(stop, 1) == "shut");
    CHECK(words.values(stop, 2) == "open");
    CHECK(words.values(stop, 3) == "any way");
    CHECK(words.values(stop, 0) == "not there");
    CHECK(words.value(variable_named(tiny.model.system, "pan"), 1) == "under Drain cock");
}

TEST_CASE("the first value of a dial is the greatest setting, or an unknown one") {
    System system;
    Variable dial{{"regulator", "Regulator", "", {}}};
    dial.kind = VariableKind::dial;
    for (const std::string_view bar : {"8", "0", "2"}) {
        Value value{{std::string(bar), std::string(bar), "", {}}};
        value.setting = *make_quantity(std::get<Rational>(parse_number(bar)), Unit::bar);
        dial.values.push_back(value);
    }
    system.variables.push_back(dial);
    const Words words(system);
    CHECK(words.values(VariableId(0), 1) == "at most 8 bar (116 psi)");
    CHECK(words.values(VariableId(0), 4) == "2 bar (29 psi)");
    CHECK(words.value(VariableId(0), 0) == "8 bar (116 psi)");
}

TEST_CASE("places name the covers in the way") {
    auto tiny = tiny_model();
    const Words words(tiny.model.system);
    const auto places = words.places(variable_named(tiny.model.system, "stop_valve"));
    REQUIRE(places.size() == 1);
    CHECK(words.place(places.front()) == "Valve pit, behind Lid of the valve pit");
    CHECK(words.places(variable_named(tiny.model.system, "pan")).empty());
    CHECK(words.place(words.places(variable_named(tiny.model.system, "pit_lid")).front()) == "Valve pit");
}

TEST_CASE("an inner part says whose it is, once") {
    auto tiny = tiny_model();
    System& system = tiny.model.system;
    Part inner{{"stop_valve.element", "Element", "", {}}};
    inner.parent = PartId(0);
    system.parts.push_back(inner);
    inner.label = "Stop valve: element";
    system.parts.push_back(inner);
    const Words words(system);
    CHECK(words.part(PartId(system.parts.size() - 2)) == "Stop valve, Element");
    CHECK(words.part(PartId(system.parts.size() - 1)) == "Stop valve: element");
}

TEST_CASE("the label of an inner part is told from that of the whole, in French too") {
    CHECK(own_label_begins("Heater, element", "Heater") == 8);
    CHECK(own_label_begins("Heater: element", "Heater") == 8);
    CHECK(std::string("Chauffe-eau\u00A0: bouchon")
              .substr(own_label_begins("Chauffe-eau\u00A0: bouchon", "Chauffe-eau")) == "bouchon");
    CHECK(own_label_begins("Heater breaker", "Heater") == 0);
    CHECK(own_label_begins("Heater", "Heater") == 0);
    CHECK(own_label_begins("Tap", "Heater") == 0);
}

TEST_CASE("expressions are read aloud, with parentheses where they are needed") {
    auto tiny = tiny_model();
    System& system = tiny.model.system;
    Expressions& e = system.expressions;
    const ExpressionId stop = e.stands(variable_named(system, "stop_valve"), 1);
    const ExpressionId tap = e.stands(variable_named(system, "kitchen_tap"), 2);
    const ExpressionId shower = e.option(OptionId(0));
    const Words words(system);
    CHECK(plain(words.expression(e.either(stop, e.both(tap, shower)))) ==
          "Stop valve is shut or (Kitchen tap is open and with Shower)");
    CHECK(plain(words.expression(e.negate(stop))) == "Stop valve is not shut");
    CHECK(plain(words.expression(e.negate(shower))) == "without Shower");
    CHECK(words.condition(shower) == "with Shower");
    CHECK(words.condition(Expressions::always()).empty());
    CHECK(words.expressions(e.both(stop, tap)).size() == 2);
    Expression below;
    below.kind = ExpressionKind::pressure_below;
    below.node = NodeId(4);
    below.quantity = *make_quantity(Rational(3), Unit::bar);
    CHECK(plain(words.expression(e.add(below))) == "pressure at riser below 3 bar (43.5 psi)");
}

TEST_CASE("an observation keeps the owner's words, and says what they have to mean where a figure is read or they are "
          "missing") {
    auto tiny = tiny_model();
    const Words words(tiny.model.system);
    CHECK(plain(words.observation({ObservationKind::stops, {}, {}, "it only drips", {}})) == "it only drips");
    CHECK(plain(words.observation(
              {ObservationKind::reads_at_least, {}, make_quantity(Rational(3), Unit::bar), "green", {}})) ==
          "green (it reads at least 3 bar (43.5 psi))");
    CHECK(plain(words.observation({ObservationKind::only_air, {}, {}, "", {}})) == "only air comes");
    CHECK(plain(words.observation({ObservationKind::shows, FluidId(1), {}, "", {}})) == "Antifreeze shows: pink");
}
