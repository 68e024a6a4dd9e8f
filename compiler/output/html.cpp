#include "output/html.h"

#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sha256.h"

#include <fmt/format.h>

namespace curbstop::output {
namespace {

/// Running head and foot of printed pages (CSS Paged Media level 3, margin boxes). Browsers without them print none.
std::string page_style(const Sheet& sheet) {
    return fmt::format("@page {{\n  @top-left {{ content: {}; }}\n  @top-right {{ content: {}; }}\n"
                       "  @bottom-right {{ content: \"Page \" counter(page) \" of \" counter(pages); }}\n}}\n"
                       "@page :first {{\n  @top-left {{ content: none; }}\n}}\n",
                       css_string(sheet.system + " – " + sheet.procedure),
                       css_string("Version " + sheet.info.content_version.substr(0, 12)));
}

} // namespace

std::string html_sheet(const Sheet& sheet) {
    const std::string style = fmt::format("\n{}{}{}", sheet_style(), pictures_style(), page_style(sheet));
    const StateScript state = html_state_script(sheet);
    // Photographs are part of the file.
    const bool has_photos = sheet.all_photos != nullptr && !sheet.all_photos->empty();
    const std::string sources = fmt::format(
        "{}{}", has_photos ? "img-src data:; " : "",
        state.script.empty() ? "" : fmt::format("script-src 'sha256-{}'; ", to_base64(sha256(state.script))));
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{}'; "
        "{}base-uri 'none'; form-action 'none'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n"
        "<meta name=\"generator\" content=\"Curbstop {}\">\n<title>{} – {}</title>\n<style>{}</style>\n</head>\n"
        "<body>\n{}<main>\n{}{}{}{}{}</main>\n{}{}</body>\n</html>\n",
        to_base64(sha256(style)), sources, html_escaped(sheet.info.tool_version), html_escaped(sheet.procedure),
        html_escaped(sheet.system), style, html_head(sheet), html_preparation(sheet) + html_picture_signs(sheet),
        html_drawings(sheet) + html_part_photos(sheet), html_stages(sheet), html_after(sheet), html_volumes(sheet),
        html_foot(sheet), state.html);
}

std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                       const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_sheet(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
