#include "meaning/step_names.h"

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;
using meaning::Language;
using meaning::Text;

namespace {

std::unique_ptr<ModelFromText> with_steps(const std::string& steps, const std::string& fragments = {}) {
    return model_from(R"(
group taps
kind tap in taps { port line  position shut { }  position open { line ~> below } }
system hut "Hut" { zone room "Room"  part low : tap "Low tap" at room  part high : tap "High tap" at room }
)" + fragments + "procedure work \"Work\" on hut {\n  stage \"All\" {\n" +
                      steps + "  }\n}\n");
}

const meaning::Step& step(const ModelFromText& made, std::size_t index) {
    return std::get<meaning::Step>(made.model.procedures[0].stages[0].items[index].what);
}
const Text& note(const ModelFromText& made, std::size_t index) {
    return std::get<meaning::NoteStatement>(step(made, index).statements.back().what).text;
}

} // namespace

TEST_CASE("a text names a step before it or behind it, in each language") {
    const auto made = with_steps(R"(
    step "First" { set low to open  note "Go on with step {step last}." de "Weiter mit Schritt {step last}." }
    step middle "Second" { set low to shut }
    step last "Back to {step middle}" { set low to open  note "{step} {step Last} {middle}" }
)");
    CHECK(made->sink.diagnostics().empty());
    CHECK(note(*made, 0) == "Go on with step 3.");
    CHECK(note(*made, 0).in(Language::german).text == "Weiter mit Schritt 3.");
    CHECK(step(*made, 2).title == "Back to 2");
    CHECK(note(*made, 2) == "{step} {step Last} {middle}"); // names no step: words like others
}

TEST_CASE("a run of steps gives its name to its first step") {
    const auto made = with_steps(R"(
    step "First" { set low to open }
    do shut_it() as again
    do shut_it()
    step "Look" { note "Then again from step {step again}" }
)",
                                 "fragment shut_it() steps {\n  step \"Shut\" { set low to shut }\n"
                                 "  step \"Open\" { set low to open }\n}\n");
    CHECK(made->sink.diagnostics().empty());
    CHECK(note(*made, 5) == "Then again from step 2");
}

TEST_CASE("a step that is not there, or several times, is refused where it is named") {
    // Where it is underlined, tests/catalogue looks.
    CHECK_THROWS_WITH(with_steps("    step mix \"Mix\" { note \"As in {step mixx}\" }\n"),
                      "no step of procedure `work` has the name `mixx`");
    CHECK_THROWS_WITH(with_steps("    for each t in taps { step each_tap \"Open {t}\" { set t to open } }\n"
                                 "    step \"Look\" { note \"As in {step each_tap}\" }\n"),
                      Catch::Contains("`each_tap` is the name of 2 steps"));
    // A piece of a step has no first step.
    CHECK_THROWS_WITH(
        with_steps("    step \"Shut\" { do shut_it() as first }\n", "fragment shut_it() { set low to shut }\n"),
        "only a run of steps has a first step to name");
}
