#include "output/html.h"

#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sha256.h"

#include <fmt/format.h>

namespace curbstop::output {
namespace {

/// "Page 2 of 7" as CSS counts it.
std::string page_number(const Tongue& tongue) {
    std::string content;
    for (const Piece& piece :
         tongue.say<Saying::page_of_pages>(in<"page">(code("counter(page)")), in<"pages">(code("counter(pages)")))) {
        content += (content.empty() ? "" : " ") + (piece.code ? std::string(piece.text) : css_string(piece.text));
    }
    return content;
}

/// Running head and foot of printed pages (CSS Paged Media level 3, margin boxes). Browsers without them print none.
std::string page_style(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    return fmt::format(
        "@page {{\n  @top-left {{ content: {}; }}\n  @top-right {{ content: {}; }}\n"
        "  @bottom-right {{ content: {}; }}\n}}\n"
        "@page :first {{\n  @top-left {{ content: none; }}\n}}\n",
        css_string(sheet.system + " – " + sheet.procedure),
        css_string(plain(tongue.say<Saying::short_version>(in<"version">(sheet.info.content_version.substr(0, 12))))),
        page_number(tongue));
}

} // namespace

std::string html_sheet(const Sheet& sheet) {
    const std::string style = fmt::format("\n{}{}", sheet_style(), page_style(sheet));
    std::string drawing;
    if (!sheet.info.drawing.empty()) {
        drawing = fmt::format("<section class=\"drawing\">\n<h2>{}</h2>\n<div class=\"scroll\">\n{}</div>\n"
                              "</section>\n",
                              html_escaped(Tongue(sheet.language).text(Saying::the_system)), sheet.info.drawing);
    }
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{}'; "
        "base-uri 'none'; form-action 'none'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n"
        "<meta name=\"generator\" content=\"Curbstop {}\">\n<title>{} – {}</title>\n<style>{}</style>\n</head>\n"
        "<body>\n{}<main>\n{}{}{}{}{}</main>\n{}</body>\n</html>\n",
        meaning::code(sheet.language), to_base64(sha256(style)), html_escaped(sheet.info.tool_version),
        html_escaped(sheet.procedure), html_escaped(sheet.system), style, html_head(sheet), html_preparation(sheet),
        drawing, html_stages(sheet), html_after(sheet), html_volumes(sheet), html_foot(sheet));
}

std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                       const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_sheet(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
