// What a procedure needs, from text to sums, each worked by hand: 1 m of pipe of 10 mm bore holds 78.540 mL.
#include "quantities/quantities.h"

#include <catch2/catch.hpp>

#include "proofs/prove.h"
#include "support_model.h"

using namespace curbstop;

namespace {

constexpr double metre = 78.5398e-6; // m3: pi/4 x 10 mm x 10 mm x 1 m

const std::string parts = R"(
fluid water "Water" { category 1 }
fluid glycol "Glycol" { category 3  shows "pink"  at 20 % freezes -7 degC  at 40 % freezes -21 degC }
pipe tube "Tube" { bore 10 mm }
kind main { port house  given rate : flow = 6 L/min
  position shut { }  position open { supplies water at house up to 4 bar giving rate } }
kind mute { port house
  position shut { }  position open { supplies water at house up to 4 bar } }
kind wand { port line  end tip fits quick may dip  always { tip <-> line } }
kind pump { port suction, delivery  body 0.2 L
  position off { }  position on { lifts suction -> delivery up to 2 bar giving 3 L/min with own switch } }
kind bare_pump { port suction, delivery
  position off { }  position on { lifts suction -> delivery up to 2 bar giving 3 L/min with own switch } }
kind tap { port line  position shut { }  position open { line ~> below } }
kind store { port line  body 1 L  always { stores line } }
)";

struct Job {
    std::unique_ptr<ModelFromText> made;
    text::DiagnosticSink sink;
    std::vector<proofs::ProcedureReport> reports;
    quantities::Quantities quantities;

    explicit Job(const std::string& plumbing, const std::string& steps) {
        made = model_from(parts + "system hut \"Hut\" {\n  zone room \"Room\"\n  option guest \"Guest\"\n" + plumbing +
                          "}\nprocedure work \"Work\" on hut {\n" + steps + "}\n");
        proofs::Settings settings;
        settings.detail = true;
        reports = proofs::prove(made->model, sink, settings);
        quantities = quantities::work_out(made->model.system, made->model.procedures.front(), reports.front());
    }
    const quantities::FlowAmount& flow(std::size_t index) const { return quantities.flows.at(index); }
    const quantities::Supply& supply() const { return quantities.supplies.at(0); }
    bool finds(std::string_view slug) const {
        for (const text::Diagnostic& each : sink.diagnostics()) {
            if (each.slug == slug) {
                return true;
            }
        }
        return false;
    }
};

const std::string dry = R"(
  vessel jug "Jug" 5 L accepts glycol filled with glycol at 40 %
  place drain "Drain" at room accepts glycol, water
  part wand : wand "Wand" at room
  part pump : pump "Pump" at room
  part sink : tap "Sink" at room over drain
  part bath : tap "Bath" at room over drain only with guest
  tee branch
  run wand.line - pump.suction : tube 1 m
  run pump.delivery - branch : tube 2 m
  run branch - sink.line : tube 1 m
  run branch - bath.line : tube 3 m
)";

std::string draw(const std::string& tap, const std::string& more = "") {
    return "set " + tap + " to open\n flow jug to " + tap + " until shows glycol \"Pink\" " + more + "\n set " + tap +
           " to shut\n";
}
std::string protect(const std::string& inner, const std::string& first = "") {
    return "  requires wand.tip is in jug and pump is off and sink is shut and bath is shut\n  stage \"Stage\" {\n" +
           first + "    step \"On\" { set pump to on }\n" + inner + "    step \"Off\" { set pump to off }\n  }\n";
}
std::string step(const std::string& body) {
    return "    step \"Draw\" {\n" + body + "    }\n";
}

} // namespace

TEST_CASE("every pocket has its volume") {
    const Job job(dry, protect(step(draw("sink"))));
    const auto& pockets = job.quantities.pockets;
    REQUIRE(pockets.size() == 6);
    CHECK(*pockets[0].volume == Approx(metre));
    CHECK(*pockets[3].volume == Approx(3 * metre));
    CHECK(pockets[4].kind == quantities::PocketKind::vessel);
    CHECK(*pockets[5].volume == Approx(0.2e-3)); // the pump's body
}

TEST_CASE("a dry line is filled once, and the next tap takes its own pipe") {
    const Job job(dry, protect(step(draw("sink")) + step(draw("sink", "at least 0.3 L")) + step(draw("bath"))));
    CHECK_FALSE(job.sink.has_errors());
    REQUIRE(job.quantities.flows.size() == 3);
    const double first = 4 * metre + 0.2e-3; // 514.2 mL
    CHECK(job.flow(0).needs == Approx(first));
    CHECK(job.flow(0).again == 0);
    CHECK(*job.flow(0).least_minutes == Approx(first / 3e-3));
    CHECK_FALSE(job.flow(0).most);
    CHECK(job.flow(1).needs == Approx(0.3e-3)); // nothing is left to be filled
    CHECK(job.flow(2).needs == Approx(3 * metre));
    CHECK(job.supply().needs == Approx(first + 0.3e-3 + 3 * metre));
    CHECK_FALSE(job.supply().listed);
    REQUIRE(job.supply().options.size() == 1);
    CHECK(job.supply().options[0].without == Approx(first + 0.3e-3));
    CHECK(job.supply().blown_first == Approx(first + 3 * metre));
    CHECK(job.supply().not_blown == Approx(2 * (first + 3 * metre)));
    CHECK(job.supply().dilution->thinned == Approx(0.36));
    CHECK(*job.supply().dilution->thinned_freezes == Approx(-18.2)); // by hand: 7 + 14 x 16 / 20
}

TEST_CASE("water that stands in the line is run off once more") {
    std::string wet = dry + "  part main : main \"Main\" at room\n  run main.house - branch : tube 1 m\n";
    wet.replace(wet.find(": pump"), 6, ": bare_pump");
    std::string steps = protect(step(draw("sink", "at most 2 L")));
    steps.replace(steps.find("sink is shut"), 12, "main is shut and sink is shut");
    const Job job(wet, steps);
    // The 2 m and 1 m behind the pump are of the main's circuit: 3 m once more.
    CHECK(job.flow(0).fill == Approx(4 * metre));
    CHECK(job.flow(0).again == Approx(3 * metre));
    CHECK(job.flow(0).needs == Approx(7 * metre));
    CHECK(*job.flow(0).most_minutes == Approx(2.0 / 3));
}

TEST_CASE("how long it takes goes by what the step asks for, and by no more than it allows") {
    const std::string steps = step(draw("sink", "at least 0.3 L at most 0.6 L")) + step(draw("bath", "at most 0.1 L"));
    const Job job(dry, protect(steps));
    CHECK(job.flow(0).needs == Approx(4 * metre + 0.2e-3)); // 514.2 mL, were all empty
    CHECK(*job.flow(0).written_least == Approx(0.3e-3));
    CHECK(*job.flow(0).least_minutes == Approx(0.1)); // 3 L/min
    CHECK(*job.flow(0).most_minutes == Approx(0.2));
    CHECK(job.flow(1).needs > *job.flow(1).most);
    CHECK(*job.flow(1).least_minutes == *job.flow(1).most_minutes);
}

TEST_CASE("a pressure tank is filled once while the pump is on") {
    const std::string stored = dry + "  part tank : store \"Tank\" at room\n  run branch - tank.line : tube 1 m\n";
    const auto drawn_twice = [&](const std::string& first) {
        return Job(stored, protect(step(draw("sink", first)) + step(draw("sink", "at least 0.1 L"))));
    };
    const Job job = drawn_twice("at least 1.2 L");
    CHECK(job.flow(0).needs == Approx(4 * metre + 0.2e-3 + 0.9e-3));
    CHECK(job.flow(1).needs == Approx(0.1e-3));
    // What has run to the tank shows at once, and with no more drawn than that air may be left behind it.
    CHECK(drawn_twice("").flow(1).needs == Approx(4 * metre + 0.2e-3));
}

TEST_CASE("rounds and what is brought") {
    const std::string rounds = "    repeat at most 5 times {\n" + step(draw("sink", "at least 0.8 L")) + "    }\n";
    const Job enough(dry, protect(rounds, "    step \"Bring\" { bring 4 L glycol }\n"));
    CHECK_FALSE(enough.finds("short-supply"));
    CHECK(enough.supply().needs == Approx(4e-3));
    CHECK(*enough.supply().listed == Approx(4e-3));
    const Job little(dry, protect(rounds, "    step \"Bring\" { bring 3.9 L glycol }\n"));
    CHECK(little.finds("short-supply"));
    const std::string more = "    repeat at most 7 times {\n" + step(draw("sink", "at least 0.8 L")) + "    }\n";
    CHECK(Job(dry, protect(more)).finds("short-supply")); // 5.6 L out of five
}

TEST_CASE("a source with a rate tells minutes, one without tells none") {
    for (const bool told : {true, false}) {
        const Job job("  part main : " + std::string(told ? "main" : "mute") +
                          " \"Main\" at room\n"
                          "  place drain \"Drain\" at room accepts water\n"
                          "  part sink : tap \"Sink\" at room over drain\n  run main.house - sink.line : tube 1 m\n",
                      "  requires main is shut and sink is shut\n  stage \"Stage\" { step \"Run\" { set sink to open\n"
                      "  set main to open\n  flow main to sink until clear \"Clear\" at least 3 L\n"
                      "  set main to shut\n } }\n");
        CHECK(job.flow(0).least_minutes.has_value() == told);
        CHECK((!told || *job.flow(0).least_minutes == Approx(0.5))); // 3 L at 6 L/min
        CHECK(job.quantities.supplies.empty());
    }
}

TEST_CASE("a rate that the operator holds it to goes before what the source could give") {
    const Job job(dry, R"(
  stage "All" { step "Draw" {
    dip wand.tip in jug
    set pump to on  set sink to open
    flow jug to sink until shows glycol "pink" at least 1 L at most 2 L at 2 L/min
    set sink to shut  set pump to off
  } }
)");
    REQUIRE(job.flow(0).rate);
    CHECK(to_double(*job.flow(0).rate, meaning::Unit::L_per_min) == Approx(2)); // the pump would give 3 L/min
    CHECK(*job.flow(0).least_minutes == Approx(0.5));
    CHECK(*job.flow(0).most_minutes == Approx(1));
}
