#include "output/quantity_words.h"
#include "output/tongue.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;

// What numbers, plurals and lists look like is held against a library with CLDR in tests/web/languages.test.mjs.
TEST_CASE("a sentence is filled where its language puts the places, labels marked") {
    const Phrase german =
        Tongue(Language::german).say<Saying::set_to>(in<"what">(label("Haupthahn")), in<"how">(label("offen")));
    CHECK(plain(german) == "Haupthahn auf „offen“ stellen.");
    REQUIRE(german.size() == 4);
    CHECK(german[0].label);
    CHECK_FALSE(german[1].label);
    CHECK(german[2].label);
    // The order of the arguments is nobody's business.
    CHECK(
        plain(
            Tongue(Language::english).say<Saying::set_to>(in<"how">(label("open")), in<"what">(label("Main cock")))) ==
        "Set Main cock to open.");
}

TEST_CASE("a number chooses its sentence") {
    CHECK(plain(Tongue(Language::english).say_of<Saying::place_changes>(1)) == "One change of place.");
    CHECK(plain(Tongue(Language::german).say_of<Saying::place_changes>(12)) == "12 Ortswechsel.");
    CHECK(plain(Tongue(Language::spanish).say_of<Saying::place_changes>(1)) == "Un cambio de lugar.");
    // French counts nothing as one.
    CHECK(plural_category(Language::french, 0) == Plural::one);
    CHECK(plural_category(Language::german, 0) == Plural::other);
}

TEST_CASE("lists end in the word of the language") {
    const std::vector<Phrase> three{phrase("a"), phrase("b"), phrase("c")};
    CHECK(plain(Tongue(Language::english).all_of(three)) == "a, b and c");
    CHECK(plain(Tongue(Language::german).one_of(three)) == "a, b oder c");
    CHECK(plain(Tongue(Language::french).all_of({phrase("a")})) == "a");
    CHECK(Tongue(Language::french).all_of({}).empty());
    CHECK(plain(Tongue(Language::spanish).all_of({phrase("agua"), phrase("inodoro")})) == "agua e inodoro");
    CHECK(plain(Tongue(Language::spanish).all_of({phrase("agua"), phrase("hielo")})) == "agua y hielo");
    CHECK(plain(Tongue(Language::spanish).one_of({phrase("agua"), phrase("otro")})) == "agua u otro");
}

TEST_CASE("quantities have the signs of the language, and nothing parts a number from its unit") {
    const Quantity cold = *make_quantity(std::get<Rational>(parse_number("-13.5")), Unit::degC);
    CHECK(quantity_words(cold) == "-13.5 °C (7.7 °F)");
    CHECK(quantity_words(cold, Tongue(Language::german)) == "-13,5\u00A0°C (7,7\u00A0°F)");
    const Quantity days = *make_quantity(Rational(3), Unit::d);
    CHECK(quantity_words(days, Tongue(Language::french)) == "3\u00A0j");
    RecordStatement drawn;
    drawn.dimension = Dimension::volume;
    CHECK(record_unit(drawn, Tongue(Language::spanish)) == "L o US gal");
}

TEST_CASE("what is foreign stays marked when texts are put together") {
    Wording text = "unter ";
    text.add(Wording("Low drain", Language::english));
    text.add(", ");
    text.add(Wording("kitchen", Language::english));
    CHECK(text == "unter Low drain, kitchen");
    CHECK(text.foreign == std::vector<Wording::Foreign>{{6, 15, Language::english}, {17, 24, Language::english}});
    // What touches is one.
    Wording twice("a", Language::french);
    twice.add(Wording("b", Language::french));
    CHECK(twice.foreign == std::vector<Wording::Foreign>{{0, 2, Language::french}});
}
