#include "output/html_escape.h"
#include "output/html_parts.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

// One body of rows per place, so that the place is a heading of its rows and stays with the first of them. The heading
// is outside the table, which runs in columns where there is room.
std::string standing_table(const std::vector<StandingGroup>& groups, std::string_view id, std::string_view heading) {
    std::string out = fmt::format(
        "<h3 id=\"{0}\">{1}</h3>\n<div class=\"standing\" data-heading=\"{0}\">\n<table aria-labelledby=\"{0}\">\n"
        "<thead><tr><th scope=\"col\">Part</th><th scope=\"col\">Stands</th>"
        "<th scope=\"col\">Seen</th></tr></thead>\n",
        id, heading);
    unsigned ticks = 0;
    for (const StandingGroup& group : groups) {
        const std::string place = group.place.empty() ? "Anywhere" : html_label(group.place);
        fmt::format_to(std::back_inserter(out),
                       "<tbody>\n<tr class=\"where\"><th scope=\"rowgroup\" colspan=\"3\">{}</th></tr>\n", place);
        for (const StandingRow& row : group.rows) {
            fmt::format_to(std::back_inserter(out),
                           "<tr{}><th scope=\"row\">{}{}</th><td>{}</td><td class=\"seen\">"
                           "<input type=\"checkbox\" data-id=\"{}-{}\" aria-label=\"{}: {}\"></td></tr>\n",
                           html_applies(row.applies), html_label(row.what), html_condition(row.condition),
                           html_label(row.how), id, ++ticks, html_escaped(row.what), html_escaped(row.how));
        }
        out += "</tbody>\n";
    }
    return out + "</table>\n</div>\n";
}

} // namespace

std::string html_table(const InfoTable& table, std::string_view labelled_by) {
    std::string out = labelled_by.empty() ? "<table class=\"info\">\n"
                                          : fmt::format("<table class=\"info\" aria-labelledby=\"{}\">\n", labelled_by);
    out += "<thead><tr>";
    for (const std::string& column : table.columns) {
        fmt::format_to(std::back_inserter(out), "<th scope=\"col\">{}</th>", html_escaped(column));
    }
    out += "</tr></thead>\n<tbody>\n";
    for (const std::vector<std::string>& row : table.rows) {
        out += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string cell = row[i].empty() ? std::string() : html_label(row[i]);
            out += i == 0 ? "<th scope=\"row\">" + cell + "</th>" : "<td>" + cell + "</td>";
        }
        out += "</tr>\n";
    }
    return out + "</tbody>\n</table>\n";
}

std::string html_volumes(const Sheet& sheet) {
    if (sheet.volumes.rows.empty()) {
        return {};
    }
    return fmt::format(
        "<section class=\"volumes\">\n<h2 id=\"volumes\">What everything holds</h2>\n"
        "<p>Pipes by their bore and length, the rest as the maker or the author says. Bends and fittings "
        "are not counted.</p>\n<div class=\"scroll\" role=\"group\" aria-labelledby=\"volumes\" "
        "tabindex=\"0\">\n{}</div>\n</section>\n",
        html_table(sheet.volumes, "volumes"));
}

std::string html_before(const Sheet& sheet) {
    std::string out;
    if (!sheet.as_left_by.empty()) {
        fmt::format_to(std::back_inserter(out),
                       "<p class=\"start\">Everything stands as <b>{}</b> left it. If anyone has moved anything since, "
                       "put it back first.</p>\n",
                       html_label(sheet.as_left_by));
    }
    if (!sheet.before.empty()) {
        out += standing_table(sheet.before, "before", "It all holds only if these stand so before the first step");
        out += "<p class=\"start\">Whatever is not listed may stand in any way.</p>\n";
    }
    if (!sheet.requirements.empty()) {
        out += "<p class=\"start\">And this must be so:</p>\n<ul>\n";
        for (const Phrase& requirement : sheet.requirements) {
            fmt::format_to(std::back_inserter(out), "<li>{}</li>\n", html_phrase(requirement));
        }
        out += "</ul>\n";
    }
    return out;
}

std::string html_after(const Sheet& sheet) {
    std::string out = "<section class=\"after\">\n<h2>When you are done</h2>\n";
    if (!sheet.after.empty()) {
        out += standing_table(sheet.after, "after", "How everything stands after the last step");
    }
    out += "<div class=\"fields\">\n" + html_field("done-on", "Done on", {}, {}) + html_field("done-by", "By", {}, {}) +
           html_field("remember", "Seen and to be remembered", {}, {}) + "</div>\n";
    out += html_records(sheet.records) + html_next(sheet.next) + html_tags(sheet.tags);
    return out + "</section>\n";
}

std::string html_foot(const Sheet& sheet) {
    return fmt::format("<footer>\n<p>Procedure <code>{}</code>, content version <code>{}</code>: SHA-256 of the texts "
                       "that this sheet was made from. Two sheets with the same one say the same.</p>\n"
                       "<p>Made by Curbstop {}.</p>\n</footer>\n",
                       html_escaped(sheet.procedure_name), html_escaped(sheet.info.content_version),
                       html_escaped(sheet.info.tool_version));
}

} // namespace curbstop::output
