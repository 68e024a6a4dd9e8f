#include "output/sheet.h"

#include "output/sheet_lines.h"
#include "output/sheet_preparation.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iterator>

using namespace curbstop::output;
using namespace curbstop::meaning;
using curbstop::output::tests::tiny_info;
using curbstop::output::tests::tiny_model;

namespace {

Statement statement(auto what) {
    return Statement{std::move(what), {}, Expressions::always()};
}

Statement set(std::size_t variable, std::uint32_t value) {
    return statement(SetStatement{{{VariableId(variable), value, {}}}});
}

// In the order in which tiny_model declares them.
constexpr std::size_t lid = 0, stop = 1, drain = 2, tap = 3, shower = 4;

std::vector<Line> lines_of(const tests::Tiny& tiny, const Statements& statements,
                           std::vector<Wording> conditions = {}) {
    const Words words(tiny.model.system);
    return LineComposer(words, "Valve pit", std::move(conditions)).lines(statements);
}

const SheetStep& step(const Sheet& sheet, std::size_t stage, std::size_t index) {
    return sheet.stages.at(stage).blocks.at(index).step;
}

/// What a step says of leaving things alone, in order.
std::vector<std::string> left_alone(const std::vector<Line>& lines) {
    std::vector<std::string> found;
    for (const Line& line : lines) {
        if (line.kind == LineKind::leave_so) {
            found.push_back(plain(line.text));
        }
        std::ranges::copy(left_alone(line.body), std::back_inserter(found));
    }
    return found;
}

} // namespace

TEST_CASE("a caution stands with the next action; without one, with the first") {
    const auto tiny = tiny_model();
    const auto lines = lines_of(tiny, {set(lid, 1), statement(SignalStatement{Signal::caution, "before the valve"}),
                                       set(stop, 0), statement(SignalStatement{Signal::notice, "of the whole"})});
    REQUIRE(lines.size() == 2);
    REQUIRE(lines[0].cautions.size() == 1);
    CHECK(lines[0].cautions[0].text == "of the whole");
    REQUIRE(lines[1].cautions.size() == 1);
    CHECK(lines[1].cautions[0].text == "before the valve");
}

TEST_CASE("a step of cautions alone still says them") {
    const auto lines =
        lines_of(tiny_model(), {statement(NoteStatement{"n"}), statement(SignalStatement{Signal::danger, "gas"})});
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].kind == LineKind::only_cautions);
    CHECK(lines[0].cautions[0].text == "gas");
}

TEST_CASE("what is done to put something so is said as its kind says it") {
    auto tiny = tiny_model();
    auto& values = tiny.model.system.variables[stop].values;
    CHECK(plain(lines_of(tiny, {set(stop, 0)}).at(0).text) == "Set Stop valve to shut.");
    values[0].to_do = "Turn {part} across the pipe";
    values[1].to_do = "along the pipe";
    const auto lines = lines_of(tiny, {set(stop, 0), set(stop, 1)});
    CHECK(plain(lines.at(0).text) == "Turn Stop valve across the pipe.");
    CHECK(std::ranges::count_if(lines[0].text, [](const Piece& piece) { return piece.label; }) == 1);
    CHECK(plain(lines.at(1).text) == "Stop valve: along the pipe.");
}

TEST_CASE("the hazard of a position is said before the move to it, once in a step") {
    const auto lines = lines_of(tiny_model(), {set(drain, 1), set(drain, 0), set(drain, 1)});
    REQUIRE(lines.size() == 3);
    REQUIRE(lines[0].cautions.size() == 1);
    CHECK(lines[0].cautions[0].signal == Signal::warning);
    CHECK(lines[1].cautions.empty());
    CHECK(lines[2].cautions.empty());
}

TEST_CASE("what a box for some has said is said again outside it") {
    const auto lines =
        lines_of(tiny_model(), {statement(InCaseStatement{"it drips", BranchId(0), {set(drain, 1)}}), set(drain, 1)});
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].body.at(0).cautions.size() == 1);
    CHECK(lines[1].cautions.size() == 1);
}

TEST_CASE("a condition is said once, by the box or by the line") {
    auto tiny = tiny_model();
    const auto alone = lines_of(tiny, {set(shower, 1)});
    CHECK(alone.at(0).condition == "only with Shower");
    const ExpressionId with_shower = tiny.model.system.expressions.option(OptionId(0));
    const auto boxed =
        lines_of(tiny, {statement(ConditionalStatement{with_shower, "only with shower", {set(shower, 1)}})});
    REQUIRE(boxed.at(0).kind == LineKind::conditional);
    CHECK(plain(boxed[0].text) == "Only with Shower:");
    CHECK(boxed[0].body.at(0).condition.empty());
    const auto known = lines_of(tiny, {set(shower, 1)}, {"with Shower"});
    CHECK(known.at(0).condition.empty());
    // And so it is for a machine: the box hides what is in it.
    CHECK(alone[0].applies.postfix() == "0");
    CHECK(boxed[0].applies.postfix() == "0");
    CHECK(boxed[0].body[0].applies.always());
    CHECK(known[0].applies.always());
}

TEST_CASE("what goes with a flow that is not for all is for the same") {
    auto tiny = tiny_model();
    Flow flow;
    flow.parts_exist = tiny.model.system.expressions.option(OptionId(0));
    flow.until = Observation{};
    const auto lines = lines_of(tiny, {statement(FlowStatement{flow})});
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].condition == "only with Shower");
    CHECK(lines[1].kind == LineKind::see);
    CHECK(lines[1].condition.empty());
    CHECK(lines[1].applies == lines[0].applies);
    CHECK(lines[1].applies.postfix() == "0");
}

TEST_CASE("what to bring for some is for any of those who need it") {
    auto tiny = tiny_model();
    System& system = tiny.model.system;
    system.options.resize(2);
    system.options[1].name = "sink";
    system.options[1].label = "Sink";
    const auto wear = [](const char* item) { return statement(WearStatement{{item}}); };
    const auto only = [&](std::size_t option, Statements body) {
        return statement(ConditionalStatement{system.expressions.option(OptionId(option)), "", std::move(body)});
    };
    Procedure procedure;
    Step step;
    step.statements = {only(0, {wear("gloves")}), only(1, {wear("gloves")}), only(0, {wear("gloves"), wear("mask")}),
                       only(1, {wear("boots")}), wear("boots")};
    procedure.stages.emplace_back();
    procedure.stages.back().items.push_back({step});
    const Words words(system);
    const Preparation preparation = collect_preparation(words, procedure);
    REQUIRE(preparation.wear.size() == 3);
    CHECK(preparation.wear[0].condition == "only with Shower, or only with Sink");
    CHECK(preparation.wear[0].applies.postfix() == "0 1 or");
    CHECK(preparation.wear[1].condition == "only with Shower");
    CHECK(preparation.wear[1].applies.postfix() == "0");
    CHECK(preparation.wear[2].condition.empty());
    CHECK(preparation.wear[2].applies.always());
    REQUIRE(preparation.options.size() == 2);
    CHECK(preparation.options[1].name == "sink");
}

TEST_CASE("a held control is let go, and says where it springs back to") {
    auto tiny = tiny_model();
    tiny.model.system.variables[tap].springs_back = 0;
    const auto lines =
        lines_of(tiny, {statement(HoldStatement{{VariableId(tap), 1, {}},
                                                {statement(WaitStatement{*make_quantity(Rational(5), Unit::s)})}})});
    REQUIRE(lines.size() == 2);
    CHECK(plain(lines[0].text) == "Hold Kitchen tap at open all the while:");
    CHECK(plain(lines[0].body.at(0).text) == "Wait 5 s.");
    CHECK(plain(lines[1].text) == "Let go of Kitchen tap: it springs back to shut.");
}

TEST_CASE("what is asked for and proved is told as such") {
    auto tiny = tiny_model();
    Expression sanitised;
    sanitised.kind = ExpressionKind::sanitised;
    const ExpressionId is_sanitised = tiny.model.system.expressions.add(sanitised);
    const auto lines = lines_of(tiny, {statement(ContractStatement{true, is_sanitised, "sanitised"})});
    CHECK(plain(lines.at(0).text) ==
          "Go on only if this is so: the disinfectant stands long enough in every branch of the drinking water.");
}

TEST_CASE("the sheet follows the walk and tells where to go") {
    const auto tiny = tiny_model();
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(sheet.steps == 4);
    CHECK(step(sheet, 0, 0).go_to == "Valve pit");
    CHECK(step(sheet, 0, 1).go_to.empty());
    CHECK(step(sheet, 1, 1).go_to == "Room");
    CHECK(step(sheet, 1, 1).number == 4);
    CHECK(sheet.preparation.walk == std::vector<Wording>{"Valve pit", "Room", "Valve pit"});
    CHECK(sheet.preparation.walk_length == "10 m (32.8 ft)");
    CHECK(sheet.preparation.place_changes == 2);
    CHECK(walk_words(sheet.preparation) == "2 changes of place, about 10 m (32.8 ft) of walking in all.");
    CHECK(sheet.preparation.helper_steps == std::vector<std::uint32_t>{4});
    CHECK(sheet.preparation.signals == std::vector{Signal::warning, Signal::caution, Signal::notice});
    CHECK_FALSE(step(sheet, 0, 0).safe_to_stop);
    CHECK(step(sheet, 0, 0).running == std::vector<Wording>{"Stop valve"});
}

TEST_CASE("what must stay as it is while a source is on is told where it changes, and not again") {
    const auto tiny = tiny_model();
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    REQUIRE(left_alone(step(sheet, 0, 0).lines).size() == 1);
    CHECK(left_alone(step(sheet, 0, 0).lines).at(0) ==
          "While Stop valve is on, touch these only where a step says so: Drain cock and Kitchen tap: shut.");
    CHECK(left_alone(step(sheet, 0, 1).lines).empty());       // it turns the source off
    REQUIRE(left_alone(step(sheet, 1, 0).lines).size() == 1); // another valve now
    CHECK(left_alone(step(sheet, 1, 0).lines).at(0) ==
          "While Stop valve is on, touch these only where a step says so: Stop valve: shut.");
    CHECK(left_alone(step(sheet, 1, 1).lines).empty());
}

TEST_CASE("what is moved while a source is on is not to be left alone, and what must be is said before the switch") {
    auto tiny = tiny_model();
    Stage& stage = tiny.model.procedures[0].stages[0];
    std::get<Step>(stage.items[0].what).statements = {set(lid, 1), set(stop, 1), set(tap, 1), set(tap, 0)};
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    const std::vector<Line>& lines = step(sheet, 0, 0).lines;
    REQUIRE(
        left_alone(lines) ==
        std::vector<std::string>{"While Stop valve is on, touch these only where a step says so: Drain cock: shut."});
    REQUIRE(lines.size() > 1);
    CHECK(lines[0].kind == LineKind::leave_so); // nothing switches it, so it is on from the beginning
    // Where something does, it stands before that.
    tiny.model.system.sources[0].on = tiny.model.system.expressions.stands(VariableId(stop), 2);
    const Sheet switched = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    const std::vector<Line>& after = step(switched, 0, 0).lines;
    REQUIRE(after.size() > 2);
    CHECK(after[1].kind == LineKind::leave_so);
    CHECK(after[2].puts->variable == VariableId(stop));
    // Behind what stays shut nobody puts a hand.
    std::get<Step>(stage.items[0].what).statements = {set(stop, 1), set(tap, 1), set(tap, 0)};
    tiny.report.steps[0].standing[lid] = 1;
    const Sheet shut = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(left_alone(step(shut, 0, 0).lines).empty());
}

TEST_CASE("one goes there before the first look, and whoever helps is named first") {
    auto tiny = tiny_model();
    auto& last = std::get<Step>(tiny.model.procedures[0].stages[1].items[1].what);
    VerifyStatement look{tiny.model.system.expressions.stands(VariableId(tap), 1), "tap is shut", {VariableId(tap)}};
    last.statements = {statement(look), statement(HelperStatement{"calls out"})};
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(step(sheet, 1, 1).go_to == "Room");
    CHECK(step(sheet, 1, 1).zones == std::vector<Wording>{"Room"});
    CHECK(step(sheet, 1, 1).lines.front().kind == LineKind::helper);
    // Where nobody says what the second person does, one is named all the same.
    last.statements = {statement(look)};
    const Sheet without = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(plain(step(without, 1, 1).lines.front().text) == "Two people are needed.");
}

TEST_CASE("a safety message is not said in full again in its stage, unless it can kill at another action") {
    auto tiny = tiny_model();
    const auto say = [](Signal signal, const char* words) { return statement(SignalStatement{signal, words}); };
    auto& items = tiny.model.procedures[0].stages[0].items;
    std::get<Step>(items[0].what).statements = {say(Signal::notice, "whips"), say(Signal::warning, "gas"), set(lid, 1)};
    std::get<Step>(items[1].what).statements = {say(Signal::notice, "whips"), say(Signal::warning, "gas"), set(tap, 0),
                                                say(Signal::warning, "gas again"), set(lid, 1)};
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    const auto find = [&](const char* words, std::size_t index) {
        for (const Line& line : step(sheet, 0, index).lines) {
            for (const Caution& caution : line.cautions) {
                if (caution.text == words) {
                    return caution;
                }
            }
        }
        FAIL("nobody says " << words);
        return Caution();
    };
    CHECK(find("whips", 0).as_in == 0);
    CHECK(find("whips", 1).as_in == 1);
    // So short a one is said again; of a longer one the first sentence.
    CHECK(plain(caution_words(find("whips", 1), Tongue(Language::english))) == "whips");
    const Caution longer{Signal::notice, "It whips about. Hold it with both hands, and open slowly.", 1};
    CHECK(plain(caution_words(longer, Tongue(Language::english))) == "It whips about. The rest as in step 1.");
    CHECK(find("gas", 1).as_in == 0); // about another action
    CHECK(find("gas again", 1).as_in == 0);
    // The same action again.
    std::get<Step>(items[1].what).statements = {say(Signal::warning, "gas"), set(lid, 1)};
    const Sheet same = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(step(same, 0, 1).lines.at(0).cautions.at(0).as_in == 1);
}

TEST_CASE("what a step says that some have not got is said again after it") {
    auto tiny = tiny_model();
    const ExpressionId with_shower = tiny.model.system.expressions.option(OptionId(0));
    auto& second = std::get<Step>(tiny.model.procedures[0].stages[0].items[1].what);
    second.statements = {statement(ConditionalStatement{with_shower, "only with shower", {set(stop, 0)}})};
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK_FALSE(step(sheet, 0, 1).break_off.empty());
    CHECK(step(sheet, 1, 0).break_off == step(sheet, 0, 1).break_off);
    CHECK(step(sheet, 1, 1).break_off.empty());
}

TEST_CASE("all of a group are told by its name, and some of it by theirs") {
    auto tiny = tiny_model();
    Group group{Named{"valves", Text("Valves")}};
    const System& system = tiny.model.system;
    group.parts = {system.variables[drain].part, system.variables[tap].part};
    tiny.model.system.groups = {group};
    const Sheet all = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(left_alone(step(all, 0, 0).lines).at(0) ==
          "While Stop valve is on, touch these only where a step says so: Valves: shut.");
    tiny.model.system.groups[0].parts.push_back(system.variables[stop].part);
    const Sheet some = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(left_alone(step(some, 0, 0).lines).at(0) ==
          "While Stop valve is on, touch these only where a step says so: Drain cock and Kitchen tap: shut.");
}

TEST_CASE("whether one may break off is told where it changes, with what is not yet so") {
    auto tiny = tiny_model();
    tiny.report.steps[2].may_freeze = true;
    tiny.report.steps[3].may_freeze = true;
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(plain(step(sheet, 0, 0).break_off) ==
          "Left on until step 2: Stop valve. Until then somebody must stay within reach of it.");
    CHECK(plain(step(sheet, 0, 1).break_off) == "You may break off here: nothing runs or is under pressure.");
    CHECK(plain(step(sheet, 1, 0).break_off) ==
          "You may break off here: nothing runs or is under pressure. Not yet frost-safe.");
    CHECK(step(sheet, 1, 1).break_off.empty());
    tiny.report.steps[3].spoilt = true;
    tiny.report.steps[3].charged = {NodeId(1)};
    const Sheet spoilt = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(plain(step(spoilt, 1, 1).break_off) ==
          "You may break off here: nothing runs. Still under pressure may be: Stop valve. Not yet frost-safe. Whatever "
          "the taps may give is not fit to drink: tag them.");
}

TEST_CASE("what is on as it is in use is no reason not to leave, until something stands otherwise") {
    auto tiny = tiny_model();
    tiny.model.system.lineups.at(0).for_use = true; // the stop valve open, the rest shut
    tiny.report.steps[0].standing[stop] = 2;
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(plain(step(sheet, 0, 0).break_off) == "You may break off here: it stands as in use.");
    tiny.report.steps[0].standing[drain] = 3;
    const Sheet other = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(plain(step(other, 0, 0).break_off) ==
          "Left on until step 2: Stop valve. Until then somebody must stay within reach of it.");
}

TEST_CASE("what only a hand or an eye can know is a check to make, not something proved") {
    auto tiny = tiny_model();
    Expression cool, pressure;
    cool.kind = ExpressionKind::cool;
    cool.chamber = ChamberId(0);
    pressure.kind = ExpressionKind::no_pressure;
    pressure.node = NodeId(1);
    auto& expressions = tiny.model.system.expressions;
    const ExpressionId all =
        expressions.all_of({expressions.stands(VariableId(stop), 1), expressions.add(cool), expressions.add(pressure)});
    const Words words(tiny.model.system);
    const auto lines = LineComposer(words, {}, {}, nullptr, {nullptr, nullptr, 12}).contract_lines(all, true);
    REQUIRE(lines.size() == 3);
    CHECK(lines[0].kind == LineKind::proved);
    CHECK(plain(lines[0].text) == "Go on only if this is so: Stop valve is shut.");
    CHECK(lines[1].kind == LineKind::check);
    CHECK(plain(lines[1].text) == "Feel it first: Pan has cooled down (step 12).");
    CHECK(lines[2].kind == LineKind::check);
    CHECK(plain(lines[2].text).starts_with("Make sure first: no pressure at Stop valve"));
}

TEST_CASE("loose gear that is coupled is to be brought, what the place has is not") {
    auto tiny = tiny_model();
    System& system = tiny.model.system;
    const auto end_of = [&](const char* part, int ends) {
        system.parts.emplace_back();
        system.parts.back().name = part;
        system.parts.back().label = Text(part);
        const PartId id(system.parts.size() - 1);
        for (int i = 0; i < ends; ++i) {
            Node node;
            node.kind = NodeKind::end;
            node.part = id;
            system.nodes.push_back(node);
            system.parts.back().nodes.emplace_back(system.nodes.size() - 1);
        }
        Variable variable;
        variable.kind = VariableKind::end;
        variable.part = id;
        system.variables.push_back(variable);
        return VariableId(system.variables.size() - 1);
    };
    const VariableId hose = end_of("Hose", 2), hydrant = end_of("Hydrant", 1);
    auto& step = std::get<Step>(tiny.model.procedures[0].stages[0].items[0].what);
    step.statements.push_back(statement(CoupleStatement{hose, hydrant, 0, 0}));
    const Words words(system);
    std::vector<std::string> brought;
    for (const BringItem& item : collect_preparation(words, tiny.procedure(), nullptr).bring) {
        brought.push_back(plain(item.text));
    }
    CHECK(std::ranges::count(brought, "Hose") == 1);
    CHECK(std::ranges::count(brought, "Hydrant") == 0);
}

TEST_CASE("a long walk is told by its places and how often one changes") {
    auto tiny = tiny_model();
    Statements& there_and_back = std::get<Step>(tiny.model.procedures[0].stages[0].items[1].what).statements;
    for (int i = 0; i < 5; ++i) {
        for (const std::size_t variable : {stop, tap, stop}) {
            there_and_back.push_back(set(variable, 0));
        }
    }
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(sheet.preparation.walk == std::vector<Wording>{"Valve pit", "Room"});
    CHECK(sheet.preparation.place_changes == 12);
    CHECK(step(sheet, 0, 1).zones.size() == 2);
}

TEST_CASE("places are said where the heading of the step does not say them") {
    const auto tiny = tiny_model();
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(step(sheet, 0, 0).lines.at(1).place.empty());
    CHECK(step(sheet, 0, 1).lines.at(0).place == "behind Lid of the valve pit");
    CHECK(step(sheet, 1, 1).lines.at(0).kind == LineKind::helper);
    CHECK(step(sheet, 1, 1).lines.at(1).place == "Room");
}

TEST_CASE("before and after are sorted by place") {
    const auto tiny = tiny_model();
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    REQUIRE(sheet.before.size() == 2);
    CHECK(sheet.before[0].place == "Valve pit");
    REQUIRE(sheet.before[0].rows.size() == 3); // the lid may lie anyhow, and hides what is asked for
    CHECK(sheet.before[0].rows[0].what == "Lid of the valve pit");
    CHECK(sheet.before[0].rows[0].how == "open it to look");
    CHECK(sheet.before[0].rows[0].behind.empty());
    CHECK(sheet.before[0].rows[1].what == "Stop valve");
    CHECK(sheet.before[0].rows[1].how == "open");
    CHECK(sheet.before[0].rows[1].behind == "behind Lid of the valve pit");
    REQUIRE(sheet.after.size() == 3);
    CHECK(sheet.after[1].rows.at(1).condition == "only with Shower");
    CHECK(sheet.after[2].place.empty());
    CHECK(sheet.after[2].rows.at(0).how == "under Drain cock");
}

TEST_CASE("what is proved of the end is kept apart from what is not") {
    const auto tiny = tiny_model();
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    CHECK(sheet.stands_as_listed);
    REQUIRE(sheet.results.size() == 1);
    CHECK(plain(sheet.results[0]) ==
          "nothing bursts from frost at -20 °C (-4 °F), if every reading and every look was as its step asks");
    REQUIRE(sheet.not_proved.size() == 1); // what only the report knows of
}

TEST_CASE("what is brought is summed over steps and over the turns of a repeat") {
    auto tiny = tiny_model();
    const auto litres = [](std::int64_t n) { return *make_quantity(Rational(n), Unit::L); };
    const ExpressionId with_shower = tiny.model.system.expressions.option(OptionId(0));
    Procedure procedure;
    Stage stage;
    Step both;
    both.statements = {
        statement(BringStatement{"", FluidId(1), litres(2)}),
        statement(RepeatStatement{{}, 3, {statement(BringStatement{"", FluidId(1), litres(1)})}}),
        statement(ConditionalStatement{with_shower, "", {statement(BringStatement{"", FluidId(1), litres(1)})}}),
        statement(WearStatement{{"gloves", "glasses"}}), statement(WearStatement{{"gloves"}})};
    stage.items.push_back({both, {}});
    procedure.stages.push_back(stage);
    const Words words(tiny.model.system);
    const Preparation preparation = collect_preparation(words, procedure);
    REQUIRE(preparation.bring.size() == 2);
    CHECK(plain(preparation.bring[0].text) == "5 L (1.5 US gal) of Antifreeze");
    CHECK(preparation.bring[1].condition == "only with Shower");
    CHECK(preparation.wear.size() == 2);
}

TEST_CASE("a walk without a declared way has no length") {
    auto tiny = tiny_model();
    tiny.model.system.walks.clear();
    CHECK(walk_length(Words(tiny.model.system), {ZoneId(0), ZoneId(1)}).empty());
    CHECK(walk_length(Words(tiny.model.system), {}).empty());
}

TEST_CASE("requirements that are no standing are listed apart") {
    auto tiny = tiny_model();
    Expressions& e = tiny.model.system.expressions;
    Expression calm;
    calm.kind = ExpressionKind::no_pressure;
    calm.node = NodeId(4);
    Procedure procedure;
    procedure.requires_.push_back({e.both(e.stands(VariableId(stop), 1), e.add(calm)), "", {}});
    const Words words(tiny.model.system);
    const auto others = other_requirements(words, procedure);
    REQUIRE(others.size() == 1);
    CHECK(plain(others[0]) == "no pressure at riser");
    CHECK(required_standing(tiny.model.system, procedure).at(stop) == 1);
}
