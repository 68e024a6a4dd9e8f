#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/picture_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace curbstop::output {

namespace {

std::string key_list(const std::vector<DrawingSign>& key) {
    std::string out;
    for (const DrawingSign& sign : key) {
        fmt::format_to(std::back_inserter(out), "<li>{} {}</li>\n", sign.svg, html_escaped(sign.words));
    }
    // The letters that a script has written into this drawing, with what they stand for.
    return "<ul class=\"plain sign-key\">\n" + out + "</ul>\n<ul class=\"plain letters\"></ul>\n";
}

} // namespace

std::string html_drawings(const Sheet& sheet) {
    const SheetPictures& pictures = sheet.info.pictures;
    if (pictures.drawings.empty()) {
        return {};
    }
    std::string out;
    if (!pictures.states.empty()) {
        // The letters are written by the script, which tells below each drawing those that are in it.
        fmt::format_to(std::back_inserter(out),
                       "<p id=\"drawing-caption\">{}</p>\n<ul class=\"plain drawing-key\" hidden>\n",
                       html_escaped(Tongue(sheet.language).text(Saying::drawing_at_the_start)));
        for (const SheetKey& key : pictures.key) {
            fmt::format_to(std::back_inserter(out), "<li data-sign=\"{0}\"><b>{0}</b> {1}</li>\n",
                           html_escaped(key.sign), html_words(key.words));
        }
        out += "</ul>\n";
    }
    const Tongue tongue(sheet.language);
    fmt::format_to(std::back_inserter(out), "<p class=\"slides\">{}</p>\n",
                   html_escaped(tongue.text(Saying::drawing_slides)));
    out += "<div class=\"ones\">\n";
    for (const SheetDrawing& drawing : pictures.drawings) {
        const bool overview = drawing.key.empty();
        fmt::format_to(std::back_inserter(out),
                       "<div class=\"one{}{}\">\n<h3>{}</h3>\n<div class=\"scroll\" role=\"group\" aria-label=\"{}\" "
                       "tabindex=\"0\">\n{}</div>\n{}</div>\n",
                       drawing.wide ? " wide" : "", overview ? " overview" : "", html_label(drawing.title),
                       html_escaped(drawing.title), drawing.svg, key_list(drawing.key));
    }
    out += "</div>\n";
    return html_fold("drawing", "<h2>" + html_escaped(tongue.text(Saying::the_system)) + "</h2>", out);
}

std::string html_picture_signs(const Sheet& sheet) {
    const auto& steps = sheet.info.pictures.steps;
    if (std::ranges::all_of(steps, [](const std::string& picture) { return picture.empty(); })) {
        return {};
    }
    const Tongue tongue(sheet.language);
    return html_fold("picture-signs", "<h2>" + html_escaped(tongue.text(Saying::signs_heading)) + "</h2>",
                     picture_legend(tongue));
}

std::string html_picture(const Sheet& sheet, std::uint32_t step) {
    const auto& steps = sheet.info.pictures.steps;
    return step >= 1 && step <= steps.size() ? steps[step - 1] : std::string();
}

StateScript html_state_script(const Sheet& sheet) {
    const std::string& states = sheet.info.pictures.states;
    if (states.empty()) {
        return {};
    }
    StateScript result;
    result.script = fmt::format("\n{}", state_script());
    result.html =
        fmt::format("<script type=\"application/json\" id=\"drawing-states\">{}</script>\n<script>{}</script>\n",
                    states, result.script);
    return result;
}

} // namespace curbstop::output
