#include "output/sheet_pocket.h"

#include "output/html.h"
#include "output/sheet.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

Sheet sheet_of(const Tiny& tiny) {
    return compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
}

std::string brief(const Sheet& sheet, std::size_t stage, std::size_t step) {
    return plain(sheet.stages.at(stage).blocks.at(step).step.brief);
}

} // namespace

TEST_CASE("a step in few words says what is moved, where to, and until when") {
    const Sheet sheet = sheet_of(tiny_model());
    CHECK(brief(sheet, 0, 0) == "Wear gloves; Lid of the valve pit → open");
    CHECK(brief(sheet, 0, 1) == "Stop valve → shut");
    CHECK(brief(sheet, 1, 0) ==
          "Place Pan under Drain cock; Drain cock → open; drain the pipes through Drain cock until it stops");
    CHECK(brief(sheet, 1, 1) ==
          "Kitchen tap → open; only with Shower [Shower tap → open]; see that Kitchen tap is open and Stop valve is "
          "shut; in case of water keeps coming [Stop valve → shut]; wait 10 min; write down Water caught");
}

TEST_CASE("where nothing is moved, the notes say what is to be done, and else they are left out") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    meaning::Step step;
    step.title = "Look around";
    CHECK(brief_words(words, step, {}, nullptr).empty());
    step.statements.push_back({meaning::WearStatement{{"face shield"}}});
    step.statements.push_back({meaning::NoteStatement{"Pour a bucket of water down."}});
    CHECK(plain(brief_words(words, step, {}, nullptr)) == "Wear face shield. Pour a bucket of water down.");
    step.statements.push_back({meaning::SetStatement{{{tiny.model.system.parts[0].variable, 1, {}}}}});
    CHECK(plain(brief_words(words, step, {}, nullptr)) == "Wear face shield; Stop valve → open");
}

TEST_CASE("the title of every step stands on the pocket form, and what is to come beside what runs") {
    Tiny tiny = tiny_model();
    const std::string html = html_pocket(sheet_of(tiny));
    for (const meaning::Stage& stage : tiny.procedure().stages) {
        for (const meaning::StageItem& item : stage.items) {
            CHECK(html.find(std::get<meaning::Step>(item.what).title.in(Language::english).text) != std::string::npos);
        }
    }
    meaning::Flow flow;
    flow.at_least = *meaning::make_quantity(meaning::Rational(2), meaning::Unit::L);
    flow.at_most = *meaning::make_quantity(meaning::Rational(3), meaning::Unit::L);
    flow.origin_labels = {"Jug"};
    flow.outlet_labels = {"Tap"};
    flow.until = meaning::Observation{meaning::ObservationKind::clear};
    meaning::Step step;
    step.statements.push_back({meaning::FlowStatement{flow}});
    quantities::Quantities quantities;
    quantities::FlowAmount amount{.flow = &std::get<meaning::FlowStatement>(step.statements[0].what).flow};
    amount.rate = *meaning::make_quantity(meaning::Rational(12), meaning::Unit::L_per_min);
    amount.least_minutes = 2.0 / 12;
    amount.most = 0.003;
    amount.most_minutes = 3.0 / 12;
    quantities.flows = {amount};
    CHECK(plain(brief_words(Words(tiny.model.system), step, {}, &quantities)) ==
          "Run Jug to Tap until it runs clear, at least 2 L, at most 3 L (10 to 15 seconds)");
}

TEST_CASE("things that are put the same way share their verb") {
    const Tiny tiny = tiny_model();
    const auto& parts = tiny.model.system.parts;
    meaning::Step step;
    step.statements.push_back({meaning::SetStatement{{{parts[0].variable, 1, {}}, {parts[1].variable, 1, {}}}}});
    step.statements.push_back({meaning::SetStatement{{{parts[2].variable, 0, {}}}}});
    CHECK(plain(brief_words(Words(tiny.model.system), step, {}, nullptr)) ==
          "Stop valve and Drain cock → open; Kitchen tap → shut");
}

TEST_CASE("the pocket form has every caution once, the gravest first, with its steps") {
    const Sheet sheet = sheet_of(tiny_model());
    REQUIRE(sheet.pocket.cautions.size() == 3);
    CHECK(sheet.pocket.cautions[0].first.signal == meaning::Signal::warning);
    CHECK(sheet.pocket.cautions[0].second == std::vector<std::uint32_t>{3});
    CHECK(sheet.pocket.cautions[1].first.text == "The cock is cold.");
    CHECK(sheet.pocket.cautions[2].first.signal == meaning::Signal::notice);
    CHECK(sheet.pocket.full_sheet.find(std::string(12, 'a')) != std::string::npos);
    CHECK_FALSE(sheet.pocket.left_out.empty());
}

TEST_CASE("the pocket form lets nothing in and hides nothing that it leaves out") {
    for (const std::string& label : hostile_labels()) {
        const Tiny tiny = tiny_model(label);
        const Sheet sheet = sheet_of(tiny);
        const std::string html = html_pocket(sheet);
        CHECK(html.find("<script") == std::string::npos);
        CHECK(html.find("<img") == std::string::npos);
        CHECK(html.find("url(") == std::string::npos);
        for (const std::string& each : sheet.pocket.left_out) {
            CHECK(html.find(each) != std::string::npos);
        }
    }
}
