#include "output/picture.h"

#include "output/picture_symbols.h"
#include "output/pictures.h"
#include "output/sheet_picture.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

namespace {

const Tongue english(Language::english);

std::vector<Picture> pictures_of(const Tiny& tiny) {
    return compose_pictures(Words(tiny.model.system), tiny.report,
                            required_standing(tiny.model.system, tiny.procedure()));
}

} // namespace

TEST_CASE("a picture shows what the step moves, from how it stood to how it stands") {
    const Tiny tiny = tiny_model();
    const std::vector<Picture> pictures = pictures_of(tiny);
    REQUIRE(pictures.size() == tiny.report.steps.size());
    bool some = false;
    for (const Picture& picture : pictures) {
        for (const PictureCard& card : picture.cards) {
            CHECK(card.moved == !card.moves.empty());
            some = some || card.moved;
        }
    }
    CHECK(some);
}

TEST_CASE("a move is told from how it stood over what it was put into to how it stands") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    const VariableId valve(0);
    const std::string card = words.variable(valve);
    const std::string shut = words.value(valve, 0);
    const std::string open = words.value(valve, 1);
    CHECK(move_words(words, {valve, 1, {1}, 2}, card) == shut + " → " + open);
    CHECK(move_words(words, {valve, 1, {1, 0}, 1}, card) == shut + " → " + open + " → " + shut);
    CHECK(move_words(words, {valve, 2, {}, 1}, card) == open + " → " + shut);
    // In a variant without what it is put to it may stand as before: what the step does is told.
    CHECK(move_words(words, {valve, 1, {1}, 3}, card) == shut + " → " + open);
    CHECK(move_words(words, {valve, 1, {1}, 2}, "Hose") == card + ": " + shut + " → " + open);
}

TEST_CASE("a step that moves nothing has no picture") {
    Tiny tiny = tiny_model();
    const Step empty{"Look about", {}, {}};
    proofs::StepReport report = tiny.report.steps[0];
    report.step = &empty;
    const Words words(tiny.model.system);
    CHECK(compose_picture(words, drawing_graph(words, nullptr), report, {}).empty());
}

TEST_CASE("all that a picture shows is in its text alternative") {
    const Tiny tiny = tiny_model();
    for (const Picture& picture : pictures_of(tiny)) {
        if (picture.empty()) {
            continue;
        }
        const std::string words = picture_words(picture, english);
        for (const PictureCard& card : picture.cards) {
            for (const std::string& move : card.moves) {
                CHECK(words.find(card.label + ": " + move) != std::string::npos);
            }
        }
        for (const KeyEntry& entry : picture.key) {
            CHECK(words.find(entry.words) != std::string::npos);
        }
        const bool pressure = std::ranges::any_of(picture.cards, &PictureCard::pressure) ||
                              std::ranges::any_of(picture.pipes, &PicturePipe::pressure);
        CHECK(pressure == (words.find("may be under pressure") != std::string::npos));
    }
}

TEST_CASE("pipes under pressure and what pipes hold are shown as the report has them") {
    Tiny tiny = tiny_model();
    proofs::StepReport& step = tiny.report.steps[0];
    step.pockets.clear();
    proofs::PocketReport pocket;
    pocket.run = 0;
    pocket.fluids = {{FluidId(0), 1}};
    pocket.gas = 0.9;
    step.pockets.push_back(pocket);
    step.charged = {tiny.model.system.runs[0].from, tiny.model.system.runs[0].to};
    const StepState state = step_state(tiny.model.system, step);
    CHECK(state.runs[0].fluids == std::vector{FluidId(0)});
    CHECK(state.runs[0].most_percent == 10);
    CHECK(state.runs[1].fluids.empty());
    CHECK(state.pressure[tiny.model.system.runs[0].from.value]);
    const Words words(tiny.model.system);
    CHECK(filling_words(words, state.runs[0]) == words.fluid(FluidId(0)) + ", at most 10 % full");
    CHECK(filling_words(words, state.runs[1]) == "Air");
}

TEST_CASE("every picture has a text alternative, and no label becomes markup") {
    for (const std::string& label : hostile_labels()) {
        const Tiny tiny = tiny_model(label);
        const StepPictures drawn = draw_pictures(Words(tiny.model.system), tiny.report, {});
        REQUIRE(drawn.error.empty());
        REQUIRE(drawn.steps.size() == tiny.report.steps.size());
        for (const std::string& svg : drawn.steps) {
            if (!svg.empty()) {
                CHECK(svg.find("role=\"img\" aria-label=\"After step") != std::string::npos);
                CHECK(svg.find("<script") == std::string::npos);
                CHECK(svg.find("<img") == std::string::npos);
            }
        }
    }
}

TEST_CASE("signs that pictures share are drawn once") {
    const std::string symbols = picture_symbols();
    for (const char* id :
         {"id=\"pressure\"", "id=\"out\"", "id=\"in\"", "id=\"half\"", "id=\"h0\"", "id=\"h8\"", "id=\"y1\""}) {
        const std::size_t first = symbols.find(id);
        REQUIRE(first != std::string::npos);
        CHECK(symbols.find(id, first + 1) == std::string::npos);
    }
}

TEST_CASE("where a tee leads is told by few names") {
    CHECK(beyond_words({}, english).empty());
    CHECK(beyond_words({"Tap"}, english) == "to Tap");
    CHECK(beyond_words({"A", "B", "C"}, english) == "to A, B and C");
    CHECK(beyond_words({"A", "B", "C", "D"}, english) == "to A, B and 2 more");
}

TEST_CASE("pictures speak the language of the sheet, with its signs, plurals and lists") {
    const Tiny tiny = tiny_model();
    const Tongue german(Language::german);
    const Tongue french(Language::french);
    const Words words(tiny.model.system, german);
    const std::string fluid = words.fluid(FluidId(0));
    CHECK(filling_words(words, {{FluidId(0)}, false, 10}) == fluid + ", höchstens zu 10\u00A0% gefüllt");
    CHECK(filling_words(words, {{FluidId(0)}, true, 100}) == "Spuren: " + fluid);
    CHECK(filling_words(words, {}) == "Luft");
    CHECK(beyond_words({"A", "B", "C", "D"}, german) == "Richtung A, B und 2 weitere");
    CHECK(onward_words("Z", "A", french) == "vers Z\u00A0: A");
    CHECK(onward_words("Z", "Z", french) == "vers Z");
    CHECK(out_words({{}, "A", "B", false}, french) == "du liquide peut sortir vers B");
    for (const Picture& picture : compose_pictures(words, tiny.report, {})) {
        const std::string said = picture_words(picture, german);
        CHECK(said.starts_with("Nach Schritt "));
        CHECK(said.find("may be") == std::string::npos);
    }
    for (const Language language : all_languages) {
        CHECK(picture_signs(Tongue(language)).size() == picture_signs(english).size());
    }
}

TEST_CASE("what may be in one place is told in clauses that their own commas do not run together") {
    Picture picture;
    picture.step = 3;
    picture.key = {{std::nullopt, {}, "Water, at most 10 % full"}};
    PictureCard tap;
    tap.label = "Tap";
    tap.holds = {0};
    tap.pressure = true;
    picture.cards = {tap};
    CHECK(picture_words(picture, english) == "After step 3. In Tap: Water, at most 10 % full; may be under pressure.");
}
