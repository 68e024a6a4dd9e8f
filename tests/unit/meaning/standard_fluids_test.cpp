// What the standard library says of fluids and of what keeps them back, through the whole way from text to model,
// against the regulations that it names.
#include "meaning/build.h"
#include "text/embedded_modules.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>

using namespace curbstop;

namespace {

struct Made {
    text::SourceSet sources;
    text::DiagnosticSink sink;
    std::optional<meaning::Model> model;
};

std::unique_ptr<Made> made_from(const std::string& system) {
    auto made = std::make_unique<Made>();
    const text::SourceId root = made->sources.add("test.curb", "use water\n" + system);
    std::map<std::string, text::SourceId, std::less<>> read; // each module once, however many use it
    const auto find = [&](std::string_view name, text::SourceId, text::Span) {
        const auto text = text::find_embedded_module(name);
        if (text && !read.contains(name)) {
            read.emplace(name, made->sources.add(std::string(name), std::string(*text)));
        }
        return text ? meaning::FoundModule{read.find(name)->second} : meaning::FoundModule{};
    };
    made->model = meaning::build(made->sources, root, find, made->sink);
    REQUIRE(made->model.has_value());
    return made;
}

} // namespace

// Water Supply (Water Fittings) Regulations 1999 (UK), Schedule 1, and EN 1717, which names the same five categories.
TEST_CASE("fluids have the category of the regulation's own examples") {
    const auto made = made_from("system s \"S\" { zone z \"Z\" }\n");
    std::map<std::string, int> categories;
    for (const meaning::Fluid& fluid : made->model->system.fluids) {
        categories[fluid.name] = fluid.category;
    }
    const std::map<std::string, int> expected{
        {"drinking_water", 1}, // wholesome water as supplied
        {"hot_water", 2},      // "water in a hot water system": spoiled in temperature only
        {"sanitiser", 3},      // sodium hypochlorite is named
        {"antifreeze", 3},     // "similar chemical additives": a reading, propylene glycol is not named
        {"grey_water", 5},     // from memory of the guidance to it
        {"black_water", 5},    // human waste is named
        {"air", 1},            // ours: no liquid, and nothing in it that spoils water
    };
    CHECK(categories == expected);
}

// How strong, how long: CDC Vessel Sanitation Program, item 5.3.4.1.4, at least 50 ppm for 4 h; International Plumbing
// Code 610.1, 200 ppm for 3 h. A third pair is not offered.
TEST_CASE("the disinfectant is as strong, and stands as long, as is published") {
    const auto made = made_from("system s \"S\" { zone z \"Z\" }\n");
    const auto& fluids = made->model->system.fluids;
    const auto found = std::ranges::find(fluids, "sanitiser", &meaning::Fluid::name);
    REQUIRE(found != fluids.end());
    REQUIRE(found->disinfects.size() == 2);
    CHECK(meaning::to_double(found->disinfects[0].concentration, meaning::Unit::ppm) == Approx(50));
    CHECK(meaning::to_double(found->disinfects[0].time, meaning::Unit::h) == Approx(4));
    CHECK(meaning::to_double(found->disinfects[1].concentration, meaning::Unit::ppm) == Approx(200));
    CHECK(meaning::to_double(found->disinfects[1].time, meaning::Unit::h) == Approx(3));
    for (const meaning::Fluid& fluid : fluids) {
        CHECK((fluid.disinfects.empty() || fluid.name == "sanitiser"));
    }
}

// EN 1717 as Water Regs UK tells it: a check valve, EA or EB, protects to 2 (glossary type_ea), a double one, EC or ED,
// to 3 (glossary type_ed), a reduced-pressure-zone valve, BA, to 4 (questions and answers on backflow).
TEST_CASE("devices protect to the category of their type") {
    const auto made = made_from(R"(system s "S" {
  zone z "Z"
  part single : check_valve "Single" at z
  part twice : double_check_valve "Twice" at z
  part zoned : reduced_pressure_zone_valve "Zoned" at z
})");
    std::map<std::string, int> protects;
    const meaning::System& system = made->model->system;
    for (const meaning::Way& way : system.ways) {
        if (way.part.valid()) {
            protects[system.parts[way.part.value].name] = way.protects;
        }
    }
    CHECK(protects == std::map<std::string, int>{{"single", 2}, {"twice", 3}, {"zoned", 4}});
}
