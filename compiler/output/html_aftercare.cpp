// What stands after the last table: tags to cut out, the record of use, what comes next; and cards as they are
// anywhere.
#include "output/html_escape.h"
#include "output/html_parts.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

std::string paragraphs(const std::vector<Phrase>& lines) {
    std::string out;
    for (const Phrase& line : lines) {
        fmt::format_to(std::back_inserter(out), "<p>{}</p>\n", html_phrase(line));
    }
    return out;
}

std::string tag(const Tag& tag, const std::vector<std::string>& fields) {
    std::string out = fmt::format("<li class=\"tag-slip\"{}>\n<p class=\"tag-what\">{}{}</p>\n",
                                  html_applies(tag.applies), html_label(tag.what), html_condition(tag.condition));
    for (const Wording& how : tag.stands) {
        fmt::format_to(std::back_inserter(out), "<p class=\"tag-how\">{}</p>\n", html_label(how));
    }
    for (const Phrase& rule : tag.rules) {
        fmt::format_to(std::back_inserter(out), "<p class=\"tag-rule\">{}</p>\n", html_phrase(rule));
    }
    fmt::format_to(std::back_inserter(out), "<p class=\"tag-since\">{}{}{}</p>\n<p class=\"tag-fields\">",
                   tag.place.empty() ? std::string() : html_label(tag.place), tag.place.empty() ? "" : ". ",
                   html_escaped(tag.since));
    for (const std::string& field : fields) {
        fmt::format_to(std::back_inserter(out), "<span>{}</span> ", html_escaped(field));
    }
    return out + "</p>\n</li>\n";
}

} // namespace

std::string html_card(std::string_view heading, const std::string& content) {
    return content.empty() ? std::string()
                           : fmt::format("<div class=\"card\"><h3>{}</h3>\n{}</div>\n", heading, content);
}

std::string html_info(const InfoCard& card) {
    const std::string table = card.table.rows.empty() ? std::string() : html_table(card.table, {});
    return html_card(html_label(card.heading), paragraphs(card.lines) + table + paragraphs(card.after));
}

std::string html_tags(const TagSheet& sheet, const Tongue& tongue) {
    if (sheet.tags.empty()) {
        return {};
    }
    std::string out = fmt::format("<p>{} <span class=\"on-paper\">{}</span></p>\n<ul class=\"plain tag-slips\">\n",
                                  html_escaped(sheet.lead), html_escaped(tongue.text(Saying::tags_apart)));
    for (const Tag& each : sheet.tags) {
        out += tag(each, sheet.fields);
    }
    return html_fold("tags", "<h2>" + html_escaped(sheet.heading) + "</h2>", out + "</ul>\n");
}

std::string html_records(const RecordSheet& sheet) {
    if (sheet.rows.empty()) {
        return {};
    }
    std::string out = fmt::format("<section class=\"records\">\n<h3 id=\"records\">{}</h3>\n<p>{}</p>\n"
                                  "<table class=\"info\" aria-labelledby=\"records\">\n<thead><tr>",
                                  html_escaped(sheet.heading), html_escaped(sheet.lead));
    for (const Wording& column : sheet.columns) {
        fmt::format_to(std::back_inserter(out), "<th scope=\"col\">{}</th>", html_words(column));
    }
    out += "</tr></thead>\n<tbody>\n";
    for (const RecordSheet::Row& row : sheet.rows) {
        fmt::format_to(std::back_inserter(out),
                       "<tr data-of-step=\"{0}\"{1}><td>{0}</td><th scope=\"row\">{2}{3}</th><td>{4}</td>"
                       "<td class=\"field\"><input type=\"text\" autocomplete=\"off\" dir=\"auto\" aria-label=\"{5}\">"
                       "</td></tr>\n",
                       row.step, html_applies(row.applies), html_label(row.what), html_condition(row.condition),
                       html_escaped(row.unit), html_escaped(row.what));
    }
    return out + "</tbody>\n</table>\n</section>\n";
}

std::string html_next(const InfoCard& next) {
    if (next.lines.empty()) {
        return {};
    }
    return fmt::format("<section class=\"next\">\n<h3>{}</h3>\n{}</section>\n", html_label(next.heading),
                       paragraphs(next.lines));
}

} // namespace curbstop::output
