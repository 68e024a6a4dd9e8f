#include "output/html_escape.h"
#include "output/html_parts.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>

namespace curbstop::output {
namespace {

// One table per place, and one for what is behind each cover there, whose head says so: paper repeats it where the
// table goes on in another column or page. What the columns are stands over the first. The heading is outside, as the
// whole runs in columns where there is room.
std::string standing_table(const Sheet& sheet, const std::vector<StandingGroup>& groups, std::string_view id) {
    const Tongue tongue(sheet.language);
    std::string out = fmt::format("<div class=\"standing\" data-heading=\"{}\">\n", id);
    std::string columns =
        fmt::format("<tr class=\"columns\"><th scope=\"col\">{}</th><th scope=\"col\">{}</th>"
                    "<th scope=\"col\">{}</th></tr>\n",
                    html_escaped(tongue.text(Saying::column_part)), html_escaped(tongue.text(Saying::column_stands)),
                    html_escaped(tongue.text(Saying::column_seen)));
    unsigned ticks = 0;
    unsigned places = 0;
    const auto begin_table = [&](const std::string& head, std::string_view of, std::string_view kind) {
        fmt::format_to(std::back_inserter(out),
                       "<table aria-labelledby=\"{0} {5}{0}-place-{1}\">\n<colgroup><col class=\"what\"><col "
                       "class=\"how\"><col class=\"seen\"></colgroup>\n<thead>\n{2}<tr class=\"where{4}\"><th "
                       "scope=\"colgroup\" colspan=\"3\" id=\"{0}-place-{1}\">{3}</th></tr>\n</thead>\n<tbody>\n",
                       id, ++places, std::exchange(columns, {}), head, kind, of);
    };
    for (const StandingGroup& group : groups) {
        Wording behind = group.rows.empty() ? Wording() : group.rows.front().behind;
        begin_table((group.place.empty() ? html_escaped(tongue.text(Saying::anywhere)) : html_label(group.place)) +
                        (behind.empty() ? std::string() : " " + html_label(behind)),
                    "", "");
        const std::string place = fmt::format("{}-place-{} ", id, places);
        for (const StandingRow& row : group.rows) {
            if (row.behind != behind) { // said once for all that comes behind it
                behind = row.behind;
                out += "</tbody>\n</table>\n";
                begin_table(html_label(behind), place, " cover");
            }
            fmt::format_to(std::back_inserter(out),
                           "<tr{}><th scope=\"row\">{}{}</th><td>{}</td><td class=\"seen\">"
                           "<input type=\"checkbox\" data-id=\"{}-{}\" aria-label=\"{}\"></td></tr>\n",
                           html_applies(row.applies), html_label(row.what), html_condition(row.condition),
                           html_label(row.how), id, ++ticks,
                           html_escaped(plain(tongue.say<Saying::tagged>(in<"tag">(row.what), in<"text">(row.how)))));
        }
        out += "</tbody>\n</table>\n";
    }
    return out + "</div>\n";
}

} // namespace

std::string html_table(const InfoTable& table, std::string_view labelled_by) {
    std::string out = labelled_by.empty() ? "<table class=\"info\">\n"
                                          : fmt::format("<table class=\"info\" aria-labelledby=\"{}\">\n", labelled_by);
    out += "<thead><tr>";
    for (const Wording& column : table.columns) {
        fmt::format_to(std::back_inserter(out), "<th scope=\"col\">{}</th>", html_words(column));
    }
    out += "</tr></thead>\n<tbody>\n";
    for (const std::vector<Wording>& row : table.rows) {
        out += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string cell = row[i].empty() ? std::string() : html_label(row[i]);
            out += i == 0 ? "<th scope=\"row\">" + cell + "</th>" : "<td>" + cell + "</td>";
        }
        out += "</tr>\n";
    }
    return out + "</tbody>\n</table>\n";
}

std::string html_staying(const Sheet& sheet) {
    if (sheet.staying.rows.empty()) {
        return {};
    }
    const Tongue tongue(sheet.language);
    return html_fold(
        "volumes", fmt::format("<h2 id=\"volumes\">{}</h2>", html_escaped(tongue.text(Saying::what_stays_where))),
        fmt::format("<p>{}</p>\n<div class=\"scroll\" role=\"group\" aria-labelledby=\"volumes\" "
                    "tabindex=\"0\">\n{}</div>\n",
                    html_escaped(tongue.text(Saying::staying_explained)), html_table(sheet.staying, "volumes")));
}

std::string html_before(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    std::string out;
    if (!sheet.as_left_by.empty()) {
        fmt::format_to(std::back_inserter(out), "<p class=\"start\">{}</p>\n", html_phrase(as_left_words(sheet)));
    }
    if (!sheet.left.empty()) {
        out += html_fold("left-table", fmt::format("<h3 id=\"left\">{}</h3>", html_phrase(left_heading(sheet))),
                         standing_table(sheet, sheet.left, "left"));
    }
    if (!sheet.before.empty()) {
        out += html_fold("start-table",
                         fmt::format("<h3 id=\"before\">{}</h3>", html_escaped(tongue.text(Saying::holds_only_if))),
                         standing_table(sheet, sheet.before, "before"));
        out += fmt::format("<p class=\"start\">{}</p>\n", html_escaped(tongue.text(Saying::rest_any_way)));
    }
    if (!sheet.requirements.empty()) {
        out += fmt::format("<p class=\"start\">{}</p>\n<ul>\n", html_escaped(tongue.text(Saying::and_this_must_be)));
        for (const Phrase& requirement : sheet.requirements) {
            fmt::format_to(std::back_inserter(out), "<li>{}</li>\n", html_phrase(requirement));
        }
        out += "</ul>\n";
    }
    return out;
}

std::string html_after(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    std::string out =
        fmt::format("<section class=\"after\">\n<h2>{}</h2>\n", html_escaped(tongue.text(Saying::when_done)));
    if (!sheet.after.empty()) {
        out += fmt::format("<h3 id=\"after\">{}</h3>\n", html_escaped(tongue.text(Saying::stands_after)));
        out += standing_table(sheet, sheet.after, "after");
    }
    const auto field = [&](std::string_view id, Saying what) {
        return html_field(id, html_escaped(tongue.text(what)), {}, {}, tongue);
    };
    out += "<div class=\"fields\">\n" + field("done-on", Saying::done_on) + field("done-by", Saying::done_by) +
           field("remember", Saying::seen_to_remember) + "</div>\n";
    out += html_records(sheet.records) + html_next(sheet.next);
    return out + "</section>\n";
}

std::string html_foot(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const Phrase made_by = tongue.say<Saying::made_by>(in<"tool">("Curbstop " + sheet.info.tool_version));
    return fmt::format("<footer>\n<p>{} {}</p>\n<p>{}</p>\n</footer>\n", html_phrase(version_words(sheet)),
                       html_escaped(tongue.text(Saying::same_version)), html_phrase(made_by));
}

} // namespace curbstop::output
