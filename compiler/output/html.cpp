#include "output/html.h"

#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sha256.h"

#include <fmt/format.h>

#include <iterator>

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
std::string page_style(const Sheet& sheet, std::string_view foot) {
    const Tongue tongue(sheet.language);
    return fmt::format(
        ":root {{ --goes-on: {}; }}\n"
        "@page {{\n  @top-left {{ content: {}; }}\n  @top-right {{ content: {}; }}\n"
        "  @bottom-left {{ content: {}; }}\n  @bottom-right {{ content: {}; }}\n}}\n",
        css_string(tongue.text(Saying::goes_on)), css_string(sheet.running_head),
        css_string(plain(tongue.say<Saying::short_version>(in<"version">(sheet.info.content_version.substr(0, 12))))),
        css_string(foot), page_number(tongue));
}

/// For the record, as attributes.
std::string what_it_is_of(const Sheet& sheet) {
    return fmt::format(" data-system=\"{}\" data-system-label=\"{}\" data-procedure=\"{}\" data-procedure-label=\"{}\" "
                       "data-content-version=\"{}\" data-program=\"{}\" data-follows=\"{}\"",
                       html_escaped(sheet.system_name), html_escaped(sheet.system), html_escaped(sheet.procedure_name),
                       html_escaped(sheet.procedure), html_escaped(sheet.info.content_version),
                       html_escaped(sheet.info.tool_version), html_escaped(sheet.as_left_by_name));
}

} // namespace

std::string html_document(const Sheet& sheet, std::string_view title, std::string_view foot, std::string_view styles,
                          std::string_view body, const HtmlLetIn& let_in) {
    const std::string style = fmt::format("\n{}{}", styles, page_style(sheet, foot));
    std::string policy = let_in.photos ? "img-src data:; " : "";
    std::string early;
    std::string late;
    if (!let_in.module.empty()) {
        const std::string first = fmt::format("\n{}", let_in.early);
        const std::string second = fmt::format("\n{}", let_in.module);
        fmt::format_to(std::back_inserter(policy), "script-src 'sha256-{}' 'sha256-{}'", to_base64(sha256(first)),
                       to_base64(sha256(second)));
        if (!let_in.in_body.empty()) {
            fmt::format_to(std::back_inserter(policy), " 'sha256-{}'", to_base64(sha256(let_in.in_body)));
        }
        policy += "; ";
        early = fmt::format("<script>{}</script>\n", first);
        late = fmt::format("<script type=\"module\">{}</script>\n", second);
    }
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{}'; "
        "{}base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n"
        "<meta name=\"generator\" content=\"Curbstop {}\">\n<title>{}</title>\n<style>{}</style>\n{}</head>\n"
        "<body>\n{}{}</body>\n</html>\n",
        meaning::code(sheet.language), to_base64(sha256(style)), policy, html_escaped(sheet.info.tool_version),
        html_escaped(title), style, early, body, late);
}

std::string html_sheet(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const StateScript state = html_state_script(sheet);
    const bool has_photos = sheet.all_photos != nullptr && !sheet.all_photos->empty();
    const std::string before = html_opening(sheet) + html_verdict(sheet) + html_preparation(sheet) +
                               html_picture_signs(sheet) + html_drawings(sheet) + html_part_photos(sheet);
    const std::string body =
        fmt::format("{}{}<main{}>\n{}{}{}{}{}</main>\n{}{}{}{}", html_skip_link(tongue), html_head(sheet),
                    what_it_is_of(sheet), before, html_stages(sheet), html_after(sheet), html_staying(sheet),
                    html_tags(sheet.tags, tongue) + html_clear(tongue), html_foot(sheet), html_bar(tongue),
                    html_script_texts(tongue), state.html);
    return html_document(sheet, sheet.procedure + " – " + sheet.system, sheet.running_foot,
                         fmt::format("{}\n{}{}", sheet_style(), pictures_style(), sheet_print_style()), body,
                         {sheet_view_script(), sheet_script(), state.script, has_photos});
}

std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                       const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_sheet(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
