#include "instants/program.h"

#include <catch2/catch.hpp>

#include "meaning/quantity_text.h"
#include "meaning/rounds.h"
#include "support_model.h"

using namespace curbstop;
using namespace curbstop::instants;

namespace {

constexpr const char* head = R"(
kind stop { port a, b  position shut { }  position open { a <-> b } }
kind push { port a, b  position out { }  position pressed { a <-> b }  springs back to out }
system net "Net" {
  option extra "Extra"
  zone yard "Yard"
  part one : stop "One" at yard
  part two : stop "Two" at yard only with extra
  part button : push "Button" at yard
}
procedure work "Work" on net {
  requires one is shut and two is shut and button is out
  stage "Stage" {
)";

struct Moves {
    std::size_t count = 0;
    Set last_when = everything;
};

Moves moves_of(const std::string& steps) {
    const auto made = model_from(head + steps + "\n  }\n}\n");
    Knowledge knowledge(made->model.system, 100'000);
    REQUIRE(knowledge.settle());
    const Program program = program_from(made->model.system, made->model.procedures.front(), knowledge);
    Moves moves;
    for (const Operation& operation : program.operations) {
        if (std::holds_alternative<Move>(operation.what)) {
            ++moves.count;
            moves.last_when = operation.when;
        }
    }
    return moves;
}

} // namespace

TEST_CASE("each thing that is set is a move of its own") {
    CHECK(moves_of(R"(step "S" { set one, two to open })").count == 2);
}

TEST_CASE("held things are moved twice") {
    CHECK(moves_of(R"(step "S" { hold button at pressed { set one to open } })").count == 3);
}

TEST_CASE("a repeat is run twice, and once more for each case inside, but never more often than it says") {
    CHECK(moves_of(R"(step "S" { repeat at most 9 times { set one to open  set one to shut } })").count == 4);
    CHECK(moves_of(R"(step "S" { repeat at most 1 times { set one to open  set one to shut } })").count == 2);
    CHECK(moves_of(R"(step "S" { repeat at most 9 times { set one to open  in case "It drips" { set one to shut } } })")
              .count == 6);
    CHECK(moves_of(R"(repeat at most 2 times { step "S" { in case "It drips" { set one to open } } })").count == 2);
}

TEST_CASE("a procedure is as long as what is written out of it") {
    const auto length = [](const std::string& steps) {
        return meaning::statements_to_follow(model_from(head + steps + "\n  }\n}\n")->model.procedures.front());
    };
    // A step, a repeat, and its two statements twice.
    CHECK(length(R"(step "S" { repeat at most 9 times { set one to open  set one to shut } })") == 6);
    // With a case: three rounds of a case, what is in it and a statement.
    CHECK(
        length(R"(step "S" { repeat at most 9 times { set one to open  in case "It drips" { set one to shut } } })") ==
        11);
    CHECK(length(R"(repeat at most 2 times { repeat at most 3 times { step "S" { set one to open } } })") == 11);
}

TEST_CASE("what a variant lacks is moved only where it is there") {
    const Moves moves = moves_of(R"(step "S" { set two to open })");
    CHECK(moves.count == 1);
    CHECK(moves.last_when != everything);
}

TEST_CASE("waits stand in the line where they are done, and the rounds of a loop end") {
    const auto made = model_from(std::string(head) + R"(
      step "S" { repeat at most 9 times { wait 5 min  set one to open }  repeat at most 1 times { wait 1 h } } } })");
    Knowledge knowledge(made->model.system, 100'000);
    REQUIRE(knowledge.settle());
    std::string line;
    for (const Operation& operation :
         program_from(made->model.system, made->model.procedures.front(), knowledge).operations) {
        if (const auto* wait = std::get_if<Wait>(&operation.what)) {
            line += meaning::format_quantity(wait->time, meaning::Unit::min) + ", ";
        } else if (const auto* round = std::get_if<RoundEnd>(&operation.what)) {
            line += round->first ? "first, " : round->last ? "last, " : "round, ";
        }
    }
    CHECK(line == "5 min, first, 5 min, last, 60 min, ");
}
