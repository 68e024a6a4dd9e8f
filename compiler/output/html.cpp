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

/// For the record, as attributes.
std::string what_it_is_of(const Sheet& sheet) {
    return fmt::format(" data-system=\"{}\" data-system-label=\"{}\" data-procedure=\"{}\" data-procedure-label=\"{}\" "
                       "data-content-version=\"{}\" data-program=\"{}\"",
                       html_escaped(sheet.system_name), html_escaped(sheet.system), html_escaped(sheet.procedure_name),
                       html_escaped(sheet.procedure), html_escaped(sheet.info.content_version),
                       html_escaped(sheet.info.tool_version));
}

} // namespace

std::string html_sheet(const Sheet& sheet) {
    const std::string view_script = fmt::format("\n{}", sheet_view_script());
    const std::string script = fmt::format("\n{}", sheet_script());
    const std::string style = fmt::format("\n{}\n{}{}", sheet_style(), sheet_print_style(), page_style(sheet));
    std::string drawing;
    if (!sheet.info.drawing.empty()) {
        drawing =
            fmt::format("<section class=\"drawing\">\n<h2 id=\"system\">The system</h2>\n"
                        "<div class=\"scroll\" role=\"group\" aria-labelledby=\"system\" tabindex=\"0\">\n{}</div>\n"
                        "</section>\n",
                        sheet.info.drawing);
    }
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{}'; "
        "script-src 'sha256-{}' 'sha256-{}'; base-uri 'none'; form-action 'none'; "
        "require-trusted-types-for 'script'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n"
        "<meta name=\"generator\" content=\"Curbstop {}\">\n<title>{} – {}</title>\n<style>{}</style>\n"
        "<script>{}</script>\n</head>\n<body>\n{}{}<main{}>\n{}{}{}{}{}</main>\n{}{}{}"
        "<script type=\"module\">{}</script>\n</body>\n</html>\n",
        to_base64(sha256(style)), to_base64(sha256(view_script)), to_base64(sha256(script)),
        html_escaped(sheet.info.tool_version), html_escaped(sheet.procedure), html_escaped(sheet.system), style,
        view_script, html_skip_link(), html_head(sheet), what_it_is_of(sheet), html_preparation(sheet), drawing,
        html_stages(sheet), html_after(sheet), html_volumes(sheet), html_foot(sheet), html_bar(), html_script_texts(),
        script);
}

std::string html_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                       const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_sheet(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
