#include "output/sheet_pocket.h"

#include "output/html.h"
#include "output/sheet.h"
#include "output/sheet_brief.h"
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
    return plain(sheet.stages.at(stage).blocks.at(step).step.brief.words);
}

Block step_block(std::uint32_t number, const std::string& title, const std::string& words = {}) {
    Block block;
    block.step.number = number;
    block.step.title = title;
    if (!words.empty()) {
        block.step.brief.words = phrase(words);
    }
    return block;
}

Block around(BlockKind kind, const std::string& brief, std::vector<Block> blocks) {
    Block block{kind};
    block.brief = phrase(brief);
    block.blocks = std::move(blocks);
    return block;
}

/// "1 2 [Each: 2 L: 3 [Only with Loft tap: 4 5]]"
std::string shape(const std::vector<PocketEntry>& entries) {
    std::string out;
    for (const PocketEntry& entry : entries) {
        out += out.empty() ? "" : " ";
        if (entry.number == 0) {
            out += "[" + std::string(plain(entry.heading)) + ": " + shape(entry.entries) + "]";
            continue;
        }
        out += std::to_string(entry.number);
        if (!entry.condition.empty()) {
            out += "(" + std::string(plain(entry.condition)) + ")";
        }
        if (!entry.words.empty()) {
            out += "=" + std::string(plain(entry.words));
        }
    }
    return out;
}

std::string shape(std::vector<Block> blocks) {
    Sheet sheet;
    sheet.stages.push_back({"Stage", {}, std::move(blocks), {}});
    return shape(compose_pocket(sheet).stages.at(0).entries);
}

} // namespace

TEST_CASE("a step in few words says what its title cannot carry, and leaves how things are put to the full sheet") {
    const Sheet sheet = sheet_of(tiny_model());
    CHECK(brief(sheet, 0, 0).empty()); // wear gloves, open the lid
    CHECK(brief(sheet, 0, 1).empty());
    CHECK(brief(sheet, 1, 0) == "until it stops");
    CHECK(brief(sheet, 1, 1) == "in case: water keeps coming; wait 10\u00a0min");
    REQUIRE(sheet.stages.at(1).blocks.at(1).step.brief.blanks.size() == 1);
    CHECK(plain(sheet.stages.at(1).blocks.at(1).step.brief.blanks[0]) == "Water caught: ________ L");
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
    const Words words(tiny.model.system);
    CHECK(plain(brief_words(words, step, {}, &quantities, false).words) ==
          "2–3\u00a0L, 10–15\u00a0s, until it runs clear");

    // What is clear from the first drop says nothing of what disinfects: there the author's words do.
    auto& seen = *std::get<meaning::FlowStatement>(step.statements[0].what).flow.until;
    seen.words = meaning::Text("No smell");
    CHECK(plain(brief_words(words, step, {}, nullptr, true).words) == "2–3\u00a0L, until: No smell");
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "2–3\u00a0L, until it runs clear");

    auto& asked = std::get<meaning::FlowStatement>(step.statements[0].what).flow;
    asked.at_least = *meaning::make_quantity(meaning::Rational::ratio(1, 2).value(), meaning::Unit::L);
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "500\u00a0mL–3\u00a0L, until it runs clear");
    // What is read on a gauge is how much comes.
    asked.at_least.reset();
    asked.until = meaning::Observation{
        meaning::ObservationKind::reads_at_least, {}, meaning::make_quantity(meaning::Rational(2), meaning::Unit::L)};
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "2–3\u00a0L");
    asked.until.reset();
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "max. 3\u00a0L");
    // The same twice is said once.
    step.statements.push_back(step.statements[0]);
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "each: max. 3\u00a0L");
}

TEST_CASE("what was opened for what ran is said to be shut again") {
    const Tiny tiny = tiny_model();
    const Words words(tiny.model.system);
    constexpr std::size_t tap = 3;
    const auto set = [&](std::uint32_t value) {
        meaning::SetStatement statement;
        statement.settings = {{meaning::VariableId(tap), value}};
        return meaning::Statement{statement};
    };
    meaning::Flow flow;
    flow.until = meaning::Observation{meaning::ObservationKind::clear};
    meaning::Step step;
    step.statements = {set(1), meaning::Statement{meaning::FlowStatement{flow}}, set(0)};
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "until it runs clear; then shut");
    // What is put before anything runs, the title says.
    step.statements = {set(1), set(0), meaning::Statement{meaning::FlowStatement{flow}}};
    CHECK(plain(brief_words(words, step, {}, nullptr, false).words) == "until it runs clear");
}

TEST_CASE("how many people steps in a row take is said at the first, with the last") {
    Sheet sheet;
    std::vector<Block> blocks;
    for (const std::uint32_t people : {1U, 2U, 2U, 2U, 3U, 2U}) {
        blocks.push_back(step_block(static_cast<std::uint32_t>(blocks.size()) + 1, "t"));
        blocks.back().step.people = people;
    }
    sheet.stages.push_back({"Stage", {}, std::move(blocks), {}});
    const std::vector<PocketEntry> entries = compose_pocket(sheet).stages.at(0).entries;
    REQUIRE(entries.size() == 6);
    CHECK(entries[0].people == 0);
    CHECK(entries[1].people == 2);
    CHECK(entries[1].people_until == 4);
    CHECK(entries[2].people == 0);
    CHECK(entries[4].people == 3);
    CHECK(entries[4].people_until == 0);
    CHECK(entries[5].people == 2);
}

TEST_CASE("steps that share their figures or their condition stand in a bracket that says it once") {
    const auto with = [](std::uint32_t number, const std::string& words) {
        return around(BlockKind::conditional, "Only with Loft tap", {step_block(number, "t", words)});
    };
    CHECK(shape({step_block(1, "a", "2 L"), step_block(2, "b", "2 L")}) == "1=2 L 2=2 L");
    CHECK(shape({step_block(1, "a", "2 L"), step_block(2, "b", "2 L"), step_block(3, "c", "2 L"),
                 step_block(4, "d", "3 L")}) == "[Each: 2 L: 1 2 3] 4=3 L");
    CHECK(shape({with(1, ""), step_block(2, "b"), with(3, ""), with(4, "")}) ==
          "1(Only with Loft tap) 2 [Only with Loft tap: 3 4]");
    CHECK(shape({step_block(1, "a", "2 L"), with(2, "2 L"), with(3, "2 L"), with(4, "")}) ==
          "[Each: 2 L: 1 [Only with Loft tap: 2 3]] 4(Only with Loft tap)");
    // Two cases that read the same may be two.
    const auto in_case = [](std::uint32_t number) {
        return around(BlockKind::in_case, "in case: it drips", {step_block(number, "t")});
    };
    CHECK(shape({in_case(1), in_case(2)}) == "1(In case: it drips) 2(In case: it drips)");
    CHECK(shape({around(BlockKind::repeat, "at most 3 times", {step_block(1, "a")})}) == "[At most 3 times: 1]");
}

TEST_CASE("what was said at length is named by its step, and what is filled in is not") {
    const std::string words = "with Macerator: max. 60 L, until air comes; without Macerator: max. 60 L";
    CHECK(shape({step_block(1, "a", words), step_block(2, "b", "2 L"), step_block(3, "c", words)}) ==
          "1=" + words + " 2=2 L 3=as step 1");
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
