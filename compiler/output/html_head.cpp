#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/limits.h"
#include "output/words.h"

#include <fmt/format.h>

#include <iterator>
#include <vector>

namespace curbstop::output {
namespace {

std::string list_of(const std::vector<std::string>& clauses) {
    std::string out;
    for (const std::string& clause : clauses) {
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

std::string walk(const Preparation& preparation, const Tongue& tongue) {
    if (preparation.walk.empty()) {
        return {};
    }
    // Arrows only where the list is the walk itself.
    const bool in_full = preparation.walk.size() == preparation.place_changes + 1;
    std::string out = fmt::format("<ol class=\"walk{}\">\n", in_full ? " path" : "");
    for (const Wording& place : preparation.walk) {
        fmt::format_to(std::back_inserter(out), "<li>{}</li>\n", html_label(place));
    }
    out += "</ol>\n";
    if (const std::string words = walk_words(preparation, tongue); !words.empty()) {
        fmt::format_to(std::back_inserter(out), "<p>{}</p>\n", html_escaped(words));
    }
    return out;
}

std::string helper(const Sheet& sheet) {
    return sheet.preparation.helper_steps.empty() ? std::string()
                                                  : fmt::format("<p>{}</p>\n", html_escaped(helper_words(sheet)));
}

std::string signals(const Preparation& preparation, const Tongue& tongue) {
    std::string out;
    for (const meaning::Signal signal : preparation.signals) {
        fmt::format_to(std::back_inserter(out), "<li><strong>{}</strong> {}</li>\n", signal_word(signal, tongue),
                       html_escaped(signal_meaning(signal, tongue)));
    }
    return out.empty() ? out : "<ul class=\"plain\">\n" + out + "</ul>\n";
}

} // namespace

std::string html_head(const Sheet& sheet) {
    std::string out = fmt::format("<header>\n<p class=\"system\">{}</p>\n<h1>{}</h1>\n", html_label(sheet.system),
                                  html_label(sheet.procedure));
    if (!sheet.about.empty()) {
        fmt::format_to(std::back_inserter(out), "<p class=\"about\" dir=\"auto\">{}</p>\n", html_words(sheet.about));
    }
    return out + "</header>\n";
}

std::string html_opening(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto text = [&](Saying what) { return html_escaped(tongue.text(what)); };
    std::string options;
    for (const OptionItem& option : sheet.preparation.options) {
        fmt::format_to(std::back_inserter(options),
                       "<li><label class=\"tick\"><input type=\"checkbox\" data-option-tick><span>{} "
                       "<span class=\"state-word\"></span></span></label></li>\n",
                       html_label(option.label));
    }
    if (!options.empty()) {
        options = fmt::format("<section class=\"yours\">\n<h2>{}</h2>\n<div class=\"without-script\">\n<p>{}</p>\n"
                              "<ul class=\"plain\">\n{}</ul>\n</div>\n{}</section>\n",
                              text(Saying::yours_may_have), text(Saying::tick_yours), options, html_picker(sheet));
    }
    std::string parts = fmt::format("<li><a href=\"#preparation\">{}</a> <span class=\"tally\"></span></li>\n",
                                    text(Saying::screen_have_ready));
    for (std::size_t i = 0; i < sheet.stages.size(); ++i) {
        fmt::format_to(std::back_inserter(parts),
                       "<li><a href=\"#stage-{}\">{}</a> <span class=\"tally\"></span></li>\n", i + 1,
                       html_label(sheet.stages[i].label));
    }
    return fmt::format("{}<nav aria-label=\"{}\">\n<p class=\"begin\"><a href=\"#stage-1\">{}</a></p>\n"
                       "<label class=\"choice\" data-needs-script hidden><input type=\"checkbox\" id=\"large-soon\"> "
                       "<span>{}</span></label>\n<ol>\n{}</ol>\n"
                       "</nav>\n<p class=\"hidden-count\" data-hidden-count=\"if-any\" hidden></p>\n"
                       "<p class=\"defer\">{}</p>\n<p class=\"without-script keeps-no-ticks\">{}</p>\n{}",
                       options, text(Saying::stages), text(Saying::screen_start), text(Saying::screen_large), parts,
                       text(Saying::replaces_nothing), text(Saying::screen_keeps_no_ticks), html_desk(tongue));
}

std::string html_verdict(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto text = [&](Saying what) { return html_escaped(tongue.text(what)); };
    std::string results;
    for (const Phrase& result : sheet.results) {
        fmt::format_to(std::back_inserter(results), "<li>{}</li>\n",
                       html_phrase(tongue.say<Saying::at_the_end>(in<"what">(result))));
    }
    if (sheet.stands_as_listed) {
        results += "<li>" + text(Saying::stands_as_listed) + "</li>\n";
    }
    std::string open;
    for (const Phrase& each : sheet.not_proved) {
        fmt::format_to(std::back_inserter(open), "<li><strong>{}</strong></li>\n", html_phrase(each));
    }
    return html_fold("proofs", "<h2>" + text(Saying::screen_what_is_proved) + "</h2>",
                     fmt::format("<div class=\"verdict\">\n<section>\n<h3>{}</h3>\n<p>{}</p>\n<ul>\n{}{}</ul>\n"
                                 "</section>\n<section>\n<h3>{}</h3>\n<p>{}</p>\n<ul>\n{}{}</ul>\n</section>\n</div>\n",
                                 text(Saying::proved), html_escaped(checked_words(sheet)),
                                 list_of(always_proved(tongue)), results, text(Saying::not_proved),
                                 text(Saying::nobody_but_you), open, list_of(never_proved(tongue))));
}

std::string html_preparation(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto text = [&](Saying what) { return html_escaped(tongue.text(what)); };
    const Preparation& preparation = sheet.preparation;
    std::string cards = html_card(text(Saying::heading_wear), ticked_list("wear", preparation.wear)) +
                        html_card(text(Saying::heading_bring), ticked_list("bring", preparation.bring)) +
                        info_cards(sheet.quantities) +
                        html_card(text(Saying::heading_covers), ticked_list("covers", preparation.covers)) +
                        html_card(text(Saying::heading_way), walk(preparation, tongue)) +
                        html_card(text(Saying::heading_helper), helper(sheet));
    cards += info_cards(preparation.cards);
    cards += html_card(text(Saying::heading_signals), signals(preparation, tongue));
    if (!cards.empty()) {
        cards = html_fold("ready", "<h3>" + text(Saying::screen_have_ready) + "</h3>",
                          "<div class=\"cards\">\n" + cards + "</div>\n");
    }
    return fmt::format("<section class=\"preparation\">\n<h2 id=\"preparation\">{}</h2>\n{}{}</section>\n",
                       text(Saying::before_you_start), cards, html_before(sheet));
}

} // namespace curbstop::output
