#include "output/drawing_key.h"

#include "output/drawing_symbols.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace curbstop::output {
namespace {

/// Nothing for what its own words explain.
std::optional<Saying> meaning_of(Symbol symbol) {
    switch (symbol) {
    case Symbol::valve:
        return Saying::key_valve;
    case Symbol::three_way:
        return Saying::key_three_way;
    case Symbol::check_valve:
        return Saying::key_check_valve;
    case Symbol::reducer:
        return Saying::key_reducer;
    case Symbol::relief:
        return Saying::key_relief;
    case Symbol::tap:
        return Saying::key_tap;
    case Symbol::opening:
        return Saying::key_opening;
    case Symbol::pump:
        return Saying::key_pump;
    case Symbol::supply:
        return Saying::key_supply;
    case Symbol::tank:
        return Saying::key_tank;
    case Symbol::heated_tank:
        return Saying::key_heated_tank;
    case Symbol::store:
        return Saying::key_store;
    case Symbol::end:
        return Saying::key_end;
    case Symbol::place:
        return Saying::key_place;
    case Symbol::tee:
        return Saying::key_tee;
    case Symbol::plain:
        return Saying::key_plain;
    case Symbol::control:
    case Symbol::cover:
    case Symbol::vessel:
    case Symbol::onward:
    case Symbol::zone:
    case Symbol::remark:
        return std::nullopt;
    }
    return std::nullopt;
}

std::string sign(std::string_view content) {
    return fmt::format(
        "<svg class=\"key-sign\" aria-hidden=\"true\" width=\"{0:.0f}\" height=\"{1:.0f}\" viewBox=\"0 0 "
        "{0:.0f} {1:.0f}\">{2}</svg>",
        symbol_width, symbol_height, content);
}

} // namespace

std::vector<DrawingSign> drawing_key(const DrawingGraph& graph, const Tongue& tongue) {
    std::vector<DrawingSign> key;
    constexpr std::array<Symbol, 16> in_order{Symbol::supply,  Symbol::tank,   Symbol::heated_tank, Symbol::store,
                                              Symbol::pump,    Symbol::valve,  Symbol::three_way,   Symbol::check_valve,
                                              Symbol::reducer, Symbol::relief, Symbol::tap,         Symbol::opening,
                                              Symbol::end,     Symbol::place,  Symbol::tee,         Symbol::plain};
    for (const Symbol symbol : in_order) {
        const auto words = meaning_of(symbol);
        if (words && std::ranges::find(graph.cards, symbol, &Card::symbol) != graph.cards.end()) {
            key.push_back(
                {sign(symbol == Symbol::tee
                          ? R"(<path d="M4 14h28M18 14v12"/><circle cx="18" cy="14" r="4" fill="currentColor"/>)"
                          : symbol_svg(symbol)),
                 tongue.text(*words)});
        }
    }
    if (std::ranges::any_of(graph.cards, [](const Card& card) { return !card.mark.empty(); })) {
        key.push_back({sign(R"(<path d="M0 14h7"/><circle cx="18" cy="14" r="11"/><path d="M15 11l3-3v12"/>)"),
                       tongue.text(Saying::key_onward)});
    }
    if (std::ranges::any_of(graph.lines, [](const Line2d& line) { return line.stroke == Stroke::fall; })) {
        key.push_back({sign(R"(<path stroke-dasharray="2 4" d="M2 14h30"/><path d="M26 10l8 4-8 4"/>)"),
                       tongue.text(Saying::drawing_key_falls)});
    }
    const auto optional = [](const auto& each) { return each.optional; };
    if (std::ranges::any_of(graph.cards, optional) || std::ranges::any_of(graph.lines, optional)) {
        key.push_back(
            {sign(R"(<path stroke-dasharray="8 4" d="M2 14h32"/>)"), tongue.text(Saying::drawing_key_optional)});
    }
    return key;
}

} // namespace curbstop::output
