#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/limits.h"
#include "output/words.h"

#include <fmt/format.h>

#include <iterator>
#include <span>

namespace curbstop::output {
namespace {

std::string list_of(std::span<const std::string_view> clauses) {
    std::string out;
    for (const std::string_view clause : clauses) {
        fmt::format_to(std::back_inserter(out), "<li>{}</li>\n", html_escaped(clause));
    }
    return out;
}

std::string ticked_list(std::string_view id, const std::vector<BringItem>& items) {
    std::string out;
    for (std::size_t i = 0; i < items.size(); ++i) {
        fmt::format_to(std::back_inserter(out), "<li{}>{}</li>\n", html_applies(items[i].applies),
                       html_tick(fmt::format("{}-{}", id, i + 1),
                                 html_phrase(items[i].text) + html_condition(items[i].condition)));
    }
    return out.empty() ? out : "<ul class=\"plain\">\n" + out + "</ul>\n";
}

std::string info_cards(const std::vector<InfoCard>& cards) {
    std::string out;
    for (const InfoCard& each : cards) {
        out += html_info(each);
    }
    return out;
}

std::string walk(const Preparation& preparation) {
    if (preparation.walk.empty()) {
        return {};
    }
    // Arrows only where the list is the walk itself.
    const bool in_full = preparation.walk.size() == preparation.place_changes + 1;
    std::string out = fmt::format("<ol class=\"walk{}\">\n", in_full ? " path" : "");
    for (const std::string& place : preparation.walk) {
        fmt::format_to(std::back_inserter(out), "<li>{}</li>\n", html_label(place));
    }
    out += "</ol>\n";
    if (const std::string words = walk_words(preparation); !words.empty()) {
        fmt::format_to(std::back_inserter(out), "<p>{}</p>\n", html_escaped(words));
    }
    return out;
}

std::string helper(const Preparation& preparation) {
    if (preparation.helper_steps.empty()) {
        return {};
    }
    std::vector<Phrase> steps;
    for (const std::uint32_t step : preparation.helper_steps) {
        steps.push_back(phrase(std::to_string(step)));
    }
    return fmt::format("<p>A second person is needed in step{} {}.</p>\n", steps.size() > 1 ? "s" : "",
                       html_phrase(joined(steps, "and")));
}

std::string signals(const Preparation& preparation) {
    std::string out;
    for (const meaning::Signal signal : preparation.signals) {
        fmt::format_to(std::back_inserter(out), "<li><strong>{}</strong> {}</li>\n", signal_word(signal),
                       html_escaped(signal_meaning(signal)));
    }
    return out.empty() ? out : "<ul class=\"plain\">\n" + out + "</ul>\n";
}

} // namespace

std::string html_head(const Sheet& sheet) {
    std::string results;
    for (const Phrase& result : sheet.results) {
        fmt::format_to(std::back_inserter(results), "<li>at the end: {}</li>\n", html_phrase(result));
    }
    if (sheet.stands_as_listed) {
        results += "<li>at the end: everything stands as the last table says</li>\n";
    }
    std::string open;
    for (const Phrase& each : sheet.not_proved) {
        fmt::format_to(std::back_inserter(open), "<li><strong>{}</strong></li>\n", html_phrase(each));
    }
    std::string out = fmt::format("<header>\n<p class=\"system\">{}</p>\n<h1>{}</h1>\n", html_label(sheet.system),
                                  html_label(sheet.procedure));
    if (!sheet.about.empty()) {
        fmt::format_to(std::back_inserter(out), "<p class=\"about\" dir=\"auto\">{}</p>\n", html_escaped(sheet.about));
    }
    fmt::format_to(std::back_inserter(out), "<p class=\"defer\">{}</p>\n{}", html_escaped(replaces_nothing()),
                   html_desk());
    fmt::format_to(
        std::back_inserter(out),
        "<div class=\"verdict\">\n<section>\n<h2>Proved</h2>\n<p>{}</p>\n<ul>\n{}{}</ul>\n</section>\n"
        "<section>\n<h2>Not proved</h2>\n<p>Nobody but you looks after this:</p>\n<ul>\n{}{}</ul>\n</section>\n</div>\n"
        "</header>\n",
        html_escaped(checked_words(sheet)), list_of(always_proved()), results, open, list_of(never_proved()));
    return out;
}

std::string html_preparation(const Sheet& sheet) {
    const Preparation& preparation = sheet.preparation;
    std::string options;
    for (const OptionItem& option : preparation.options) {
        fmt::format_to(std::back_inserter(options),
                       "<li><label class=\"tick\"><input type=\"checkbox\" data-option-tick><span>{} "
                       "<span class=\"state-word\"></span></span></label></li>\n",
                       html_label(option.label));
    }
    if (!options.empty()) {
        options = "<div class=\"without-script\">\n"
                  "<p>Tick what yours has. What is marked “only with” or “only without” goes by it.</p>\n"
                  "<ul class=\"plain\">\n" +
                  options + "</ul>\n</div>\n" + html_picker(sheet);
    }
    std::string cards = html_card("Yours may have", options) +
                        html_card("Wear", ticked_list("wear", preparation.wear)) +
                        html_card("Bring", ticked_list("bring", preparation.bring)) + info_cards(sheet.quantities) +
                        html_card("Covers that will be opened", ticked_list("covers", preparation.covers)) +
                        html_card("The way", walk(preparation)) + html_card("Helper", helper(preparation));
    cards += info_cards(preparation.cards);
    cards += html_card("Signal words on this sheet", signals(preparation));
    std::string stages;
    for (std::size_t i = 0; i < sheet.stages.size(); ++i) {
        fmt::format_to(std::back_inserter(stages),
                       "<li><a href=\"#stage-{}\">{}</a> <span class=\"tally\"></span></li>\n", i + 1,
                       html_label(sheet.stages[i].label));
    }
    return fmt::format("<section class=\"preparation\">\n<h2>Before you start</h2>\n<div class=\"cards\">\n{}</div>\n{}"
                       "</section>\n<nav aria-label=\"Stages\">\n<ol>\n{}</ol>\n</nav>\n"
                       "<p class=\"hidden-count\" data-hidden-count=\"if-any\" hidden></p>\n",
                       cards, html_before(sheet), stages);
}

} // namespace curbstop::output
