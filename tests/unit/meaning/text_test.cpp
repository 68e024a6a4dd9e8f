#include "meaning/text.h"

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;
using meaning::Language;
using meaning::Text;

TEST_CASE("a text says what it is given in, else the author's own") {
    const Text text("Low drain", Language::english, {{Language::german, "Ablass unten"}});
    CHECK(text.in(Language::german).text == "Ablass unten");
    CHECK(text.in(Language::german).language == Language::german);
    CHECK(text.in(Language::french).text == "Low drain");
    CHECK(text.in(Language::french).language == Language::english);
}

TEST_CASE("a text made of two is given in what both are given in") {
    const Text heater("Heater", Language::english, {{Language::german, "Boiler"}, {Language::french, "Chauffe-eau"}});
    const Text plug("plug", Language::english, {{Language::german, "Schraube"}});
    const Text made = meaning::composed(heater, ": ", plug);
    CHECK(made == "Heater: plug");
    CHECK(made.in(Language::german).text == "Boiler: Schraube");
    CHECK(made.in(Language::french).text == "Heater: plug"); // not half of each
    // Lexique des règles typographiques en usage à l'Imprimerie nationale (from memory): a no-break space before a
    // colon.
    const Text bouchon("plug", Language::english, {{Language::french, "bouchon"}});
    CHECK(meaning::composed(heater, ": ", bouchon).in(Language::french).text == "Chauffe-eau\u00A0: bouchon");
    CHECK(meaning::composed(heater, " (", bouchon, ")").in(Language::french).text == "Chauffe-eau (bouchon)");
    // The author writes German, the library English.
    const Text own("Kessel", Language::german);
    CHECK(meaning::composed(own, ": ", plug) == "Kessel: Schraube");
}

namespace {

constexpr const char* hut = R"(
language de
kind tap { port line  position shut "zu" en "shut" { }  position open "auf" { line ~> below } }
system hut "Hütte" fr "Cabane" {
  languages de, en, fr
  zone room "Stube" en "Room" fr "Pièce"
  part low : tap "Ablass" en "Drain" fr "Vidange" at room
}
procedure work "Arbeit" en "Work" fr "Travail" on hut {
  stage "Alles" { step "Öffnen" { set low to open  note "{unbound} bleibt" } }
}
)";

} // namespace

TEST_CASE("labels are read in the language of the file and in all that follow") {
    const auto made = model_from(hut);
    const meaning::System& system = made->model.system;
    CHECK(system.label == "Hütte");
    CHECK(system.label.language == Language::german);
    CHECK(system.label.in(Language::french).text == "Cabane");
    CHECK(system.zones[0].label.in(Language::english).text == "Room");
    CHECK(system.variables[0].values[0].label.in(Language::english).text == "shut");
    CHECK(system.languages == (just(Language::german) | just(Language::english) | just(Language::french)));
}

TEST_CASE("each text that is missing is told with its place") {
    const auto made = model_from(hut);
    std::vector<std::string> told;
    for (const text::Diagnostic& each : made->sink.sorted()) {
        CHECK(each.slug == "not-translated");
        CHECK(each.severity == text::Severity::warning);
        told.push_back(std::to_string(made->sources.position(each.span).line) + ": " + each.message);
    }
    CHECK(told == std::vector<std::string>{
                      "3: this text is not given in French", "3: this text is not given in English and French",
                      "4: this text is not given in English", "10: this text is not given in English and French",
                      "10: this text is not given in English and French",
                      "10: this text is not given in English and French"});
}

TEST_CASE("of many missing texts the number is told") {
    std::string notes;
    for (int i = 0; i < 30; ++i) {
        notes += "note \"text\" ";
    }
    const auto made = model_from("kind tap { port line position shut \"s\" de \"z\" { } "
                                 "position open \"o\" de \"a\" { line ~> below } }\n"
                                 "system hut \"Hut\" de \"Hütte\" { languages de  zone room \"R\" de \"S\" "
                                 "part low : tap \"L\" de \"A\" at room }\n"
                                 "procedure work \"W\" de \"A\" on hut { stage \"A\" de \"B\" { step \"O\" de \"P\" { "
                                 "set low to open " +
                                 notes + "} } }");
    REQUIRE(made->sink.diagnostics().size() == 20);
    REQUIRE(made->sink.diagnostics().back().notes.size() == 1);
    CHECK(made->sink.diagnostics().back().notes.front() ==
          "30 texts are not given in every language that `languages` asks for; 20 of them are told");
}

TEST_CASE("loop names stand for the label of the language around them") {
    const auto made = model_from(R"(
group taps
kind tap in taps { port line  position shut { }  position open { line ~> below } }
system hut "Hut" { zone room "Room"  part low : tap "Low tap" de "Hahn unten" at room }
procedure work "Work" on hut {
  stage "All" { for each t in taps { step "Open {t}" de "{t} öffnen" { set t to open } } }
}
)");
    const auto& item = made->model.procedures[0].stages[0].items[0];
    const Text& title = std::get<meaning::Step>(item.what).title;
    CHECK(title == "Open Low tap");
    CHECK(title.in(Language::german).text == "Hahn unten öffnen");
}
