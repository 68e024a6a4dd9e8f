#include "output/picture.h"

#include "output/picture_svg.h"
#include "output/pictures.h"
#include "output/sheet_picture.h"
#include "output/sheet_standing.h"
#include "output/step_state.h"
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

TEST_CASE("a picture shows each valve that the step turns, from how it stood to how it stands") {
    Tiny tiny = tiny_model();
    System& system = tiny.model.system;
    for (Way& way : system.ways) {
        if (way.part) { // open in the second position of its part
            way.condition = system.expressions.stands(system[way.part].variable, 2);
        }
    }
    const std::vector<Picture> pictures = pictures_of(tiny);
    REQUIRE(pictures.size() == tiny.report.steps.size());
    bool some = false;
    for (const Picture& picture : pictures) {
        for (const PicturePart& part : picture.parts) {
            some = true;
            CHECK(part.frames.size() >= 2);
            CHECK(!part.ports.empty());
            CHECK(std::ranges::any_of(part.frames,
                                      [&](const PictureFrame& frame) { return frame.ways != part.frames[0].ways; }));
        }
    }
    CHECK(some);
}

TEST_CASE("a step that turns nothing has no picture") {
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
        const std::string words = picture_words(picture, english);
        for (const PicturePart& part : picture.parts) {
            CHECK(words.find(part.label + ": ") != std::string::npos);
            for (const PictureFrame& frame : part.frames) {
                CHECK(words.find(frame.stands) != std::string::npos);
            }
            for (const std::string& port : part.ports) {
                CHECK((!part.numbered() || words.find(port) != std::string::npos));
            }
        }
    }
}

TEST_CASE("what is let out lands in the vessel that was placed there, and else where it falls") {
    Tiny tiny = tiny_model();
    System& system = tiny.model.system;
    PartId drain;
    for (Way& way : system.ways) {
        if (way.part) { // open in the second position of its part
            way.condition = system.expressions.stands(system[way.part].variable, 1);
        }
        if (way.kind == WayKind::fall && system[way.part].label.in(Language::english).text == "Drain cock") {
            drain = way.part;
        }
    }
    REQUIRE(drain);
    const Words words(system);
    const auto out_to = [&](const Step& step, const std::vector<ValueSet>& before) {
        proofs::StepReport report;
        report.step = &step;
        report.standing = before;
        const Picture picture = compose_picture(words, drawing_graph(words, nullptr), report, before);
        return picture.empty() ? std::string("no picture") : picture.parts.at(0).out_to;
    };
    std::vector<ValueSet> standing(system.variables.size(), 1);
    const Statement open{SetStatement{{{system[drain].variable, 1, {}}}}};
    CHECK(out_to(Step{"Open", {open}, {}}, standing) == "the ground");
    // Placed in the same step, and in one before it.
    VariableId pan;
    std::uint32_t under = 0;
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        for (std::uint32_t value = 0; value < system.variables[i].values.size(); ++value) {
            const NodeId node = system.variables[i].values[value].partner;
            if (system.variables[i].kind == VariableKind::vessel && node && system[node].part == drain) {
                pan = VariableId(static_cast<std::uint32_t>(i));
                under = value;
            }
        }
    }
    REQUIRE(pan);
    const Statement place{PlaceStatement{pan, under, {}, system[pan].values[under].partner}};
    CHECK(out_to(Step{"Open", {place, open}, {}}, standing) == words.variable(pan));
    standing[pan.value] = ValueSet{1} << under;
    CHECK(out_to(Step{"Open", {open}, {}}, standing) == words.variable(pan));
    standing[pan.value] |= 1; // or away
    CHECK(out_to(Step{"Open", {open}, {}}, standing) == words.variable(pan) + " or the ground");
}

TEST_CASE("which ways are open is told way by way") {
    Picture picture;
    picture.parts = {{"Bypass",
                      {"Pump", "Heater", "Tap and 2 more"},
                      false,
                      {{"to left", {{0, 1, false, true}}}, {"to right", {{0, 2, false, false}}}, {"shut", {}}}}};
    CHECK(picture_words(picture, english) ==
          "Bypass: to left (open from 1 to 2) → to right (may be open from 1 to 3) → shut (nothing passes). 1: Pump. "
          "2: Heater. 3: Tap and 2 more.");
    picture.parts = {{"Drain", {"Pipe"}, true, {{"shut", {}}, {"open", {{0, std::nullopt, false, true}}}}}};
    CHECK(picture_words(picture, english) == "Drain: shut (nothing passes) → open.");
    const std::string svg = picture_svg(picture, english);
    CHECK(svg.find("class=\"s\"") != std::string::npos); // the solid disc of what is shut
    CHECK(svg.find("class=\"c\"") != std::string::npos); // the ring of what is open
}

TEST_CASE("a check valve at work is told and drawn apart from one that is held open") {
    Picture picture;
    picture.parts = {{"Check",
                      {"Screen", "Reducer"},
                      false,
                      {{"closed", {{0, 1, true, true}}}, {"pressed", {{0, 1, false, true}}}}}};
    CHECK(picture_words(picture, english) ==
          "Check: closed (open from 1 to 2 only, not back) → pressed (open from 1 to "
          "2). 1: Screen. 2: Reducer.");
    const std::string svg = picture_svg(picture, english);
    CHECK(svg.find(">only 1 → 2<") != std::string::npos);
    // One ring only: two arcs in the one path of rings. The other frame is a closed triangle.
    const std::size_t from = svg.find("<path class=\"c\"");
    REQUIRE(from != std::string::npos);
    const std::string outlines = svg.substr(from, svg.find("/>", from) - from);
    CHECK(std::ranges::count(outlines.substr(outlines.find(" d=")), 'a') == 2);
    CHECK(std::ranges::count(outlines, 'z') == 1);
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
        const std::vector<std::string> drawn = draw_pictures(Words(tiny.model.system), tiny.report, {});
        REQUIRE(drawn.size() == tiny.report.steps.size());
        for (const std::string& svg : drawn) {
            if (!svg.empty()) {
                CHECK(svg.find("role=\"img\" aria-label=\"") != std::string::npos);
                CHECK(svg.find("<script") == std::string::npos);
                CHECK(svg.find("<img") == std::string::npos);
            }
        }
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
    CHECK(onward_words("", "A", french) == "vers A");
    Picture drain;
    drain.parts = {{"Ablass", {"Rohr"}, true, {{"zu", {}}, {"auf", {{0, std::nullopt, false, true}}}}}};
    CHECK(picture_words(drain, german) == "Ablass: zu (nichts geht durch) → auf (offen).");
    for (const Language language : all_languages) {
        CHECK(picture_signs(Tongue(language)).size() == picture_signs(english).size());
    }
}
