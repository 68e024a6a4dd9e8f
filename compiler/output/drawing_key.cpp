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

// How valves stand: all that they may come to, as a script draws them anew.
void stands_key(const DrawingGraph& graph, const Tongue& tongue, std::vector<DrawingSign>& key) {
    const auto any = [&graph](auto has) {
        return std::ranges::any_of(graph.cards, [&has](const Card& card) { return card.stands && has(card); });
    };
    if (!any([](const Card&) { return true; })) {
        return;
    }
    key.push_back({sign(R"(<circle cx="18" cy="14" r="9"/><path stroke-width="3" d="M0 14h36"/>)"),
                   tongue.text(Saying::key_stands_open)});
    key.push_back({sign(R"(<circle cx="18" cy="14" r="9" fill="currentColor"/><path stroke-width="3" d="M0 14h36"/>)"),
                   tongue.text(Saying::key_stands_shut)});
    if (any([](const Card& card) { return card.numbered; })) {
        key.push_back(
            {sign(R"(<circle cx="18" cy="14" r="9"/><path stroke-width="3" d="M0 14h18v14M36 14h-9M27 8v12"/>)"),
             tongue.text(Saying::key_side_shut)});
    }
    key.push_back({sign(R"(<circle cx="18" cy="14" r="9"/><path stroke-width="3" d="M0 14h9M27 14h9"/>)"
                        R"(<path d="M15.5 12q0-3 2.5-3t2.5 2.5-2.5 2.5v2M18 18v1.5"/>)"),
                   tongue.text(Saying::key_stands_in_doubt)});
    if (any([](const Card& card) { return card.valve->lets_out; })) {
        key.push_back({sign(R"(<circle cx="18" cy="11" r="9"/><path stroke-width="3" d="M0 11h9Q18 11 18 20v4"/>)"
                            R"(<path d="M14 22l4 5 4-5"/>)"),
                       tongue.text(Saying::key_tap)});
    }
    if (any([](const Card& card) { return card.numbered; })) {
        key.push_back(
            {sign(R"(<path stroke-width="3" d="M0 20h36"/><path d="M6 9l3-3v10M26 8q4-4 5 0c0 3-5 5-5 8h6"/>)"),
             tongue.text(Saying::key_numbers)});
    }
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
        const bool drawn = std::ranges::any_of(
            graph.cards, [symbol](const Card& card) { return card.symbol == symbol && !card.stands; });
        if (words && drawn) {
            key.push_back(
                {sign(symbol == Symbol::tee
                          ? R"(<path d="M4 14h28M18 14v12"/><circle cx="18" cy="14" r="4" fill="currentColor"/>)"
                          : symbol_svg(symbol)),
                 tongue.text(*words)});
        }
    }
    stands_key(graph, tongue, key);
    if (std::ranges::any_of(graph.cards, [](const Card& card) { return !card.mark.empty(); })) {
        key.push_back(
            {sign(R"(<path d="M0 14h7"/><circle cx="18" cy="14" r="11"/><path d="M14 19l4-11 4 11M15.5 16h5"/>)"),
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
