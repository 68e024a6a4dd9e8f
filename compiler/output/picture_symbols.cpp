#include "output/picture_symbols.h"

#include "output/drawing_symbols.h"
#include "output/html_escape.h"
#include "output/sheet_picture.h"

#include <fmt/format.h>

#include <array>
#include <iterator>
#include <string_view>

namespace curbstop::output {
namespace {

// Hatchings in a tile of 6 by 6. There are more fluids than eyes can tell hatchings apart: letters do it then.
constexpr std::array<std::string_view, hatching_count> hatchings{"M0 3h6",
                                                                 "M0 6L6 0M-1 1l2-2M5 7l2-2",
                                                                 "M0 0l6 6M-1 5l2 2M5-1l2 2",
                                                                 "M1.5 1.5h1v1h-1zM4.5 4.5h1v1h-1z",
                                                                 "M3 0v6",
                                                                 "M3 0v6M0 3h6",
                                                                 "M0 0l6 6M6 0L0 6",
                                                                 "M0 2l1.5-1.5 3 3L6 2M0 5l1.5-1.5 3 3L6 5"};

constexpr std::array all_symbols{
    Symbol::plain, Symbol::valve,   Symbol::three_way, Symbol::check_valve, Symbol::reducer, Symbol::relief,
    Symbol::tap,   Symbol::opening, Symbol::pump,      Symbol::supply,      Symbol::tank,    Symbol::heated_tank,
    Symbol::store, Symbol::end,     Symbol::place,     Symbol::control,     Symbol::cover,   Symbol::vessel};

} // namespace

std::string symbol_id(Symbol symbol) {
    return fmt::format("y{}", static_cast<int>(symbol));
}

std::string picture_symbols() {
    std::string out =
        "<svg class=\"pic symbols\" aria-hidden=\"true\" width=\"0\" height=\"0\">\n<defs>\n"
        "<linearGradient id=\"half\"><stop offset=\".5\" stop-color=\"currentColor\"/><stop offset=\".5\" "
        "stop-opacity=\"0\"/></linearGradient>\n";
    const auto put = std::back_inserter(out);
    for (const Symbol symbol : all_symbols) {
        fmt::format_to(put, "<symbol id=\"{}\" viewBox=\"0 0 {} {}\">{}</symbol>\n", symbol_id(symbol), symbol_width,
                       symbol_height, symbol_svg(symbol));
    }
    for (std::size_t i = 0; i <= hatchings.size(); ++i) {
        if (i > 0) {
            fmt::format_to(put,
                           "<pattern id=\"p{}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><path "
                           "stroke-width=\".7\" "
                           "d=\"{}\"/></pattern>\n",
                           i, hatchings[i - 1]);
        }
        fmt::format_to(
            put,
            "<g id=\"h{}\"><rect class=\"pic-ground\" width=\"26\" height=\"11\"/>{}<rect class=\"pic-ground\" "
            "stroke=\"none\" x=\"8.5\" y=\"1\" width=\"9\" height=\"9\"/></g>\n",
            i, i == 0 ? "" : fmt::format("<rect width=\"26\" height=\"11\" fill=\"url(#p{})\"/>", i));
    }
    out += "<g id=\"pressure\"><circle class=\"pic-ground\" cx=\"6\" cy=\"6\" r=\"5.5\"/><text text-anchor=\"middle\" "
           "font-weight=\"700\" fill=\"currentColor\" stroke=\"none\" x=\"6\" y=\"9.5\">P</text></g>\n"
           "<path id=\"out\" fill=\"currentColor\" d=\"M4 0h2v5h3l-4 6-4-6h3z\"/>\n"
           "<path id=\"in\" d=\"M4 0h2v5h3l-4 6-4-6h3z\"/>\n</defs>\n</svg>\n";
    return out;
}

std::string picture_legend(const Tongue& tongue) {
    std::string out = "<ul class=\"plain signs\">\n";
    for (const PictureSign& sign : picture_signs(tongue)) {
        std::string shown;
        switch (sign.kind) {
        case PictureSign::Kind::pressure:
            shown = "<path class=\"p\" d=\"M0 10h20\"/><use href=\"#pressure\" x=\"22\" y=\"4\"/>";
            break;
        case PictureSign::Kind::shut_valve:
            shown = fmt::format("<use href=\"#{}\" class=\"s\" x=\"5\" width=\"26\" height=\"20\"/>",
                                symbol_id(Symbol::valve));
            break;
        case PictureSign::Kind::open_valve:
            shown = fmt::format("<use href=\"#{}\" x=\"5\" width=\"26\" height=\"20\"/>", symbol_id(Symbol::valve));
            break;
        case PictureSign::Kind::bar:
            shown = "<path d=\"M0 10h34\"/><path class=\"m\" d=\"M30 4v12\"/>";
            break;
        case PictureSign::Kind::falls:
            shown = "<use href=\"#out\" x=\"13\" y=\"4\"/>";
            break;
        case PictureSign::Kind::moved:
            shown = "<rect class=\"c m\" x=\"4\" y=\"2\" width=\"28\" height=\"16\" rx=\"2\"/>";
            break;
        case PictureSign::Kind::optional:
            shown = "<path class=\"o\" d=\"M0 10h36\"/>";
            break;
        }
        fmt::format_to(std::back_inserter(out),
                       "<li><svg class=\"pic\" aria-hidden=\"true\" width=\"36\" height=\"20\">{}</svg> {}</li>\n",
                       shown, html_escaped(sign.words));
    }
    return out + "</ul>\n";
}

} // namespace curbstop::output
