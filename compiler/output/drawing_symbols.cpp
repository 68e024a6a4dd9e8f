#include "output/drawing_symbols.h"

namespace curbstop::output {

// Simple forms of our own after the ideas of ISO 14617 (parts 8 and 9: two triangles point to point for a valve, a
// triangle in a circle for a pump) and ISA-5.1; those standards were not at hand and are not claimed to be met.
std::string_view symbol_svg(Symbol symbol) {
    switch (symbol) {
    case Symbol::plain:
        return R"(<rect x="8" y="7" width="20" height="14"/>)";
    case Symbol::valve:
        return R"(<path d="M6 7v14l24-14v14z"/>)";
    case Symbol::three_way:
        return R"(<path d="M6 4v14l24-14v14z"/><path d="M18 11l-7 14h14z"/>)";
    case Symbol::check_valve:
        return R"(<path d="M8 6v16l18-8z"/><path d="M27 6v16"/>)";
    case Symbol::reducer:
        return R"(<path d="M6 11v14l24-14v14z"/><path d="M18 18V7M10 7a8 6 0 0 1 16 0z"/>)";
    case Symbol::relief:
        return R"(<path d="M18 18L7 12v12zM18 18l-6 9h12z"/><path d="M18 18v-4l-4-2 8-3-8-3 4-2"/>)";
    case Symbol::tap:
        return R"(<path d="M4 5v12l20-12v12z"/><path d="M24 11h6v10M27 18l3 4 3-4"/>)";
    case Symbol::opening:
        return R"(<rect x="8" y="4" width="20" height="20"/><path d="M8 24L28 4"/>)";
    case Symbol::pump:
        return R"(<circle cx="18" cy="14" r="11"/><path d="M10 6.5L29 14 10 21.5"/>)";
    case Symbol::supply:
        return R"(<path d="M4 7h20l8 7-8 7H4z"/>)";
    case Symbol::tank:
        return R"(<rect x="8" y="2" width="20" height="24" rx="4"/><path d="M8 11q5-3 10 0t10 0"/>)";
    case Symbol::heated_tank:
        return R"(<rect x="8" y="2" width="20" height="24" rx="4"/><path d="M8 9q5-3 10 0t10 0"/>)"
               R"(<path d="M11 20l3-4 3 4 3-4 3 4 2-3"/>)";
    case Symbol::store:
        return R"(<rect x="8" y="2" width="20" height="24" rx="10"/><path d="M8 14h20"/>)";
    case Symbol::end:
        return R"(<path d="M8 14h12M20 6v16M26 6h-6M26 22h-6"/>)";
    case Symbol::place:
        return R"(<path d="M6 6h24L21 18v6h-6v-6z"/>)";
    case Symbol::tee:
    case Symbol::remark:
    case Symbol::zone: // its name says what it is
        return {};
    case Symbol::onward:
        return R"(<path d="M10 14h16M20 9l6 5-6 5"/>)";
    case Symbol::control:
        return R"(<path d="M4 18h8M24 18h8"/><path d="M12 18L25 9" stroke-linecap="round"/><circle cx="12" cy="18" r="2"/>)";
    case Symbol::cover:
        return R"(<path d="M6 22h24"/><path d="M6 20L27 6l2 3L9 22"/>)";
    case Symbol::vessel:
        return R"(<path d="M9 5l3 19h12l3-19M8 5h20"/><path d="M10 12q4-3 8 0t8 0"/>)";
    }
    return {};
}

} // namespace curbstop::output
