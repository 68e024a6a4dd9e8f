#include "output/sheet_aftercare.h"

#include "output/sheet.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

Sheet sheet_of(const Tiny& tiny) {
    return compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
}

const Tag* tag_of(const Sheet& sheet, std::string_view what) {
    const auto found =
        std::ranges::find_if(sheet.tags.tags, [&](const Tag& each) { return std::string_view(each.what) == what; });
    return found == sheet.tags.tags.end() ? nullptr : &*found;
}

/// Lets a later procedure follow the first.
void add_season(Tiny& tiny) {
    meaning::Procedure second;
    second.name = "open_up";
    second.label = "Open the hut in spring";
    tiny.model.procedures.push_back(second);
    tiny.report.procedure = &tiny.model.procedures.front();
    meaning::Season season;
    season.label = "A year";
    season.first = meaning::ProcedureId(0);
    season.second = meaning::ProcedureId(1);
    tiny.model.seasons.push_back(season);
    // The vector has moved its procedures, and the steps in them with it: the report points at the same steps.
    std::size_t number = 0;
    for (const meaning::Stage& stage : tiny.procedure().stages) {
        for (const meaning::StageItem& item : stage.items) {
            tiny.report.steps[number++].step = &std::get<meaning::Step>(item.what);
        }
    }
}

meaning::VariableId variable(const Tiny& tiny, std::string_view name) {
    const auto& all = tiny.model.system.variables;
    return meaning::VariableId(static_cast<std::size_t>(
        std::ranges::find(all, name, [](const meaning::Variable& each) { return each.name; }) - all.begin()));
}

} // namespace

TEST_CASE("a tag for each part that is left otherwise than it was found, with the step that did it") {
    const Sheet sheet = sheet_of(tiny_model());
    REQUIRE(sheet.tags.tags.size() == 3); // the shower's way is left open at the start, the lid shows itself
    const Tag* stop = tag_of(sheet, "Stop valve");
    REQUIRE(stop != nullptr);
    CHECK(stop->stands == std::vector<Wording>{"shut"});
    CHECK(stop->since == "Since step 2.");
    CHECK(stop->place == "Valve pit, behind Lid of the valve pit");
    CHECK(plain(stop->rules.front()) == "Leave it so.");
}

TEST_CASE("what stands as in use has no tag") {
    Tiny tiny = tiny_model();
    meaning::System& system = tiny.model.system;
    system.lineups.front().entries.front().values = 1; // the stop valve shut in use as well
    system.use = meaning::LineupId(0);
    const Sheet sheet = sheet_of(tiny);
    CHECK(tag_of(sheet, "Stop valve") == nullptr);
    CHECK(tag_of(sheet, "Drain cock") != nullptr);
}

TEST_CASE("a tag says what a guard forbids as everything stands") {
    Tiny tiny = tiny_model();
    meaning::System& system = tiny.model.system;
    meaning::Guard guard;
    guard.variable = variable(tiny, "stop_valve");
    guard.value = 1;
    guard.needs = system.expressions.stands(variable(tiny, "pit_drain"), 1);
    guard.why = "It would run into the pit.";
    system.guards.push_back(guard);
    const Sheet sheet = sheet_of(tiny);
    CHECK(plain(tag_of(sheet, "Stop valve")->rules.front()) == "Not to open: It would run into the pit.");
    // The drain is open at the end: asked for that, the guard forbids nothing.
    system.guards.front().needs = system.expressions.stands(variable(tiny, "pit_drain"), 2);
    CHECK(plain(tag_of(sheet_of(tiny), "Stop valve")->rules.front()) == "Leave it so.");
}

TEST_CASE("a tag forbids to switch on what may be heated empty") {
    Tiny tiny = tiny_model();
    meaning::System& system = tiny.model.system;
    const meaning::VariableId stop = variable(tiny, "stop_valve");
    meaning::Source heat;
    heat.kind = meaning::SourceKind::heat;
    heat.part = meaning::PartId(2); // the tap: any part that is not its own switch
    heat.heats = meaning::ChamberId(0);
    heat.on = system.expressions.stands(stop, 2);
    system.sources.push_back(heat);
    CHECK(plain(tag_of(sheet_of(tiny), "Stop valve")->rules.front()) ==
          "Do not set it to open: there may be no water in Kitchen tap.");
    tiny.report.steps.back().surely_holds = {meaning::ChamberId(0)};
    CHECK(plain(tag_of(sheet_of(tiny), "Stop valve")->rules.front()) == "Do not set it to open.");
}

TEST_CASE("what would heat it empty has a tag, although it is off in use as well") {
    Tiny tiny = tiny_model();
    meaning::System& system = tiny.model.system;
    const meaning::VariableId stop = variable(tiny, "stop_valve");
    system.lineups.front().entries.front().values = 1;
    system.use = meaning::LineupId(0);
    meaning::Source heat;
    heat.kind = meaning::SourceKind::heat;
    heat.part = meaning::PartId(2);
    heat.heats = meaning::ChamberId(0);
    heat.on = system.expressions.stands(stop, 2);
    system.sources.push_back(heat);
    REQUIRE(tag_of(sheet_of(tiny), "Stop valve") != nullptr);
    CHECK(plain(tag_of(sheet_of(tiny), "Stop valve")->rules.front()) ==
          "Do not set it to open: there may be no water in Kitchen tap.");
    tiny.report.steps.back().surely_holds = {meaning::ChamberId(0)};
    CHECK(tag_of(sheet_of(tiny), "Stop valve") == nullptr);
}

TEST_CASE("the taps have a tag where the sheet tells to tag them, be it on the way only") {
    Tiny tiny = tiny_model();
    CHECK(tag_of(sheet_of(tiny), "Every tap, shower and toilet") == nullptr);
    tiny.report.steps.front().spoilt = true;
    const Sheet sheet = sheet_of(tiny);
    const Tag* taps = tag_of(sheet, "Every tap, shower and toilet");
    REQUIRE(taps != nullptr);
    CHECK(plain(taps->rules.front()) == "Do not drink it, wash or cook with it.");
}

TEST_CASE("what is written down is told with its step and unit") {
    const Sheet sheet = sheet_of(tiny_model());
    REQUIRE(sheet.records.rows.size() == 1);
    CHECK(sheet.records.rows.front().step == 4);
    CHECK(sheet.records.rows.front().what == "Water caught");
    CHECK(sheet.records.rows.front().unit == "L or US gal");
}

TEST_CASE("the next season is told where one is declared, and what may move until then") {
    CHECK(sheet_of(tiny_model()).next.lines.empty());
    Tiny tiny = tiny_model();
    add_season(tiny);
    Sheet sheet = sheet_of(tiny);
    REQUIRE(sheet.next.lines.size() == 2);
    CHECK(plain(sheet.next.lines.front()) ==
          "What comes next is Open the hut in spring (A year). It begins with everything as it stands now.");
    CHECK(plain(tag_of(sheet, "Stop valve")->rules.front()) == "Leave it so until Open the hut in spring.");
    tiny.model.system.may_move_while_stored = {meaning::PartId(2)};
    sheet = sheet_of(tiny);
    REQUIRE(sheet.next.lines.size() == 3);
    CHECK(plain(sheet.next.lines[1]).ends_with(": Kitchen tap."));
    CHECK(plain(tag_of(sheet, "Kitchen tap")->rules.front()) ==
          "Better left so. If someone moves it all the same, nothing that is proved is lost.");
}
