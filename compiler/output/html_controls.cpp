// What works on screen only. It is hidden until the script has run, so that without one nothing stands there dead.
#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sheet_controls.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace curbstop::output {
namespace {

std::string words(const Tongue& tongue, Saying what) {
    return html_escaped(tongue.text(what));
}

std::string radio(std::string_view name, std::string_view value, const std::string& label, bool chosen) {
    return fmt::format("<label class=\"choice\"><input type=\"radio\" name=\"{}\" value=\"{}\"{}> "
                       "<span>{}</span></label>\n",
                       name, value, chosen ? " checked" : "", label);
}

std::string_view input_type(meaning::RecordKind kind) {
    switch (kind) {
    case meaning::RecordKind::measured:
        return "type=\"text\" dir=\"auto\"";
    case meaning::RecordKind::date:
        return "type=\"date\"";
    case meaning::RecordKind::clock:
        return "type=\"time\"";
    }
    return {};
}

// In each unit that may be chosen, as the script is no place for arithmetic of units: "Cel,,-15 [degF],,5".
std::string bounds(const Line& line) {
    if (!line.at_least && !line.at_most) {
        return {};
    }
    const auto in_unit = [](const std::optional<meaning::Quantity>& bound, meaning::Unit unit) {
        return bound ? fmt::format("{}", to_double(*bound, unit)) : std::string();
    };
    std::string out;
    for (const meaning::Unit unit : line.units) {
        fmt::format_to(std::back_inserter(out), "{}{},{},{}", out.empty() ? "" : " ", meaning::unit_info(unit).ucum,
                       in_unit(line.at_least, unit), in_unit(line.at_most, unit));
    }
    if (line.units.empty()) { // a count
        out = fmt::format(",{},{}", in_unit(line.at_least, meaning::Unit::one),
                          in_unit(line.at_most, meaning::Unit::one));
    }
    return fmt::format(" data-bounds=\"{}\" data-within=\"{}\"", html_escaped(out), html_escaped(plain(line.within)));
}

} // namespace

std::string html_skip_link(const Tongue& tongue) {
    return fmt::format("<a class=\"skip\" href=\"#stage-1\">{}</a>\n", words(tongue, Saying::screen_skip));
}

std::string html_fold(std::string_view look, const std::string& heading, const std::string& content) {
    return fmt::format("<div class=\"fold {}\">\n<div class=\"fold-head\">{} <span class=\"tally\"></span></div>\n{}"
                       "</div>\n",
                       look, heading, content);
}

std::string html_desk(const Tongue& tongue) {
    const auto text = [&](Saying what) { return words(tongue, what); };
    std::string out =
        fmt::format("<details class=\"desk\" id=\"desk\" data-needs-script hidden>\n<summary>{}</summary>\n"
                    "<div id=\"view\">\n<fieldset>\n<legend>{}</legend>\n",
                    text(Saying::screen_desk), text(Saying::screen_theme));
    out += radio("theme", "device", text(Saying::screen_theme_of_device), true);
    out += radio("theme", "bright", text(Saying::screen_theme_bright), false);
    out += radio("theme", "dark", text(Saying::screen_theme_dark), false);
    fmt::format_to(
        std::back_inserter(out),
        "</fieldset>\n<label class=\"choice\"><input type=\"checkbox\" id=\"large-targets\"> "
        "<span>{}</span></label>\n<label class=\"choice\"><input type=\"checkbox\" id=\"print-all\"> "
        "<span>{}</span></label>\n</div>\n<fieldset class=\"record-files\">\n<legend>{}</legend>\n<p>{}</p>\n",
        text(Saying::screen_large), text(Saying::screen_print_all), text(Saying::screen_record),
        text(Saying::screen_record_about));
    fmt::format_to(std::back_inserter(out),
                   "<button type=\"button\" id=\"save-record\">{}</button>\n"
                   "<label class=\"file\"><span>{}</span> <input type=\"file\" id=\"open-record\" "
                   "accept=\".json,application/json\"></label>\n",
                   text(Saying::screen_save), text(Saying::screen_open));
    fmt::format_to(std::back_inserter(out),
                   "<div id=\"offer\" hidden>\n<p></p>\n<button type=\"button\" value=\"take\">{}</button>\n"
                   "<button type=\"button\" value=\"leave\">{}</button>\n</div>\n<p id=\"report\" role=\"alert\"></p>\n"
                   "</fieldset>\n</details>\n<p id=\"complaint\" role=\"alert\" hidden></p>\n",
                   text(Saying::screen_take), text(Saying::screen_leave));
    return out;
}

std::string html_picker(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto text = [&](Saying what) { return words(tongue, what); };
    std::string out =
        fmt::format("<div class=\"picker\" data-needs-script hidden>\n<p>{}</p>\n", text(Saying::screen_options));
    for (std::size_t i = 0; i < sheet.preparation.options.size(); ++i) {
        const OptionItem& option = sheet.preparation.options[i];
        const std::string name = fmt::format("option-{}", i);
        fmt::format_to(std::back_inserter(out), "<fieldset data-option=\"{}\">\n<legend>{}</legend>\n",
                       html_escaped(option.name), html_label(option.label));
        out += radio(name, "unknown", text(Saying::screen_not_said), true);
        out += radio(name, "has", text(Saying::screen_has), false);
        out += radio(name, "has_not", text(Saying::screen_has_not), false);
        out += "</fieldset>\n";
    }
    return out + "<p class=\"hidden-count\" data-hidden-count=\"always\"></p>\n</div>\n";
}

std::string html_clear(const Tongue& tongue) {
    return fmt::format("<section class=\"anew\" data-needs-script hidden>\n"
                       "<button type=\"button\" id=\"clear-record\">{}</button>\n"
                       "<div id=\"clear-question\" hidden>\n<p tabindex=\"-1\"></p>\n"
                       "<button type=\"button\" value=\"clear\">{}</button>\n"
                       "<button type=\"button\" value=\"keep\">{}</button>\n</div>\n</section>\n",
                       words(tongue, Saying::screen_clear), words(tongue, Saying::screen_clear_yes),
                       words(tongue, Saying::screen_clear_no));
}

std::string html_bar(const Tongue& tongue) {
    return fmt::format("<section class=\"bar\" id=\"bar\" aria-label=\"{0}\" data-needs-script hidden>\n"
                       "<div class=\"told\"><p id=\"where\"></p>\n<p id=\"said\" role=\"status\"></p></div>\n"
                       "<p id=\"count\"></p>\n<progress max=\"1\" value=\"0\" aria-labelledby=\"count\"></progress>\n"
                       "<button type=\"button\" id=\"next-open\">{1}</button>\n"
                       "<button type=\"button\" id=\"take-back\">{2}</button>\n</section>\n",
                       words(tongue, Saying::screen_progress), words(tongue, Saying::screen_next),
                       words(tongue, Saying::screen_undo));
}

std::string html_script_texts(const Tongue& tongue) {
    std::string out = "<template id=\"texts\">\n";
    for (const ScriptText& each : script_texts()) {
        fmt::format_to(std::back_inserter(out), "<p data-text=\"{}\">{}</p>\n", each.name, words(tongue, each.saying));
    }
    return out + "</template>\n";
}

std::string html_applies(const Applies& applies) {
    return applies.always() ? std::string() : fmt::format(" data-when=\"{}\"", applies.postfix());
}

std::string html_tick(std::string_view id, const std::string& written) {
    return fmt::format("<label class=\"tick\"><input type=\"checkbox\" data-id=\"{}\"><span>{}</span></label>", id,
                       written);
}

std::string html_wait(std::string_view id, const std::string& name, const Tongue& tongue) {
    const std::string began =
        plain(tongue.say<Saying::tagged>(in<"tag">(tongue.text(Saying::screen_wait_began)), in<"text">(name)));
    return fmt::format("<p class=\"wait-hint\" data-needs-script hidden>{1}</p>\n"
                       "<div class=\"wait-box\" data-needs-script hidden>\n<p class=\"ready-at\"></p>\n"
                       "<div class=\"field clocked\"><label><span>{2}</span> <input type=\"time\" class=\"wait-began\" "
                       "data-id=\"{0}-began\" aria-label=\"{3}\"></label></div>\n"
                       "<label class=\"tick\"><input type=\"checkbox\" class=\"waited\" data-id=\"{0}-waited\">"
                       "<span>{4}</span></label>\n</div>\n",
                       id, words(tongue, Saying::screen_wait_hint), words(tongue, Saying::screen_wait_began),
                       html_escaped(began), words(tongue, Saying::screen_waited));
}

std::string html_rounds(std::string_view id, std::uint64_t most, const Tongue& tongue) {
    return fmt::format("<div class=\"round field\" data-rounds=\"{1}\" data-needs-script hidden>\n"
                       "<p class=\"round-told\" tabindex=\"-1\"></p>\n"
                       "<input type=\"text\" hidden readonly data-id=\"{0}-round\" aria-label=\"{2}\">\n"
                       "<button type=\"button\">{3}</button>\n</div>\n",
                       id, most, words(tongue, Saying::rounds_done), words(tongue, Saying::screen_once_more));
}

std::string html_field(std::string_view id, const std::string& written, const std::string& name, const Line& line,
                       const Tongue& tongue) {
    const bool choose = line.units.size() > 1;
    // Below zero needs a minus sign, which the number pads of some telephones do not have.
    const bool below_zero = std::ranges::any_of(line.units, [](meaning::Unit unit) {
        return meaning::unit_info(unit).dimension == meaning::Dimension::temperature;
    });
    const bool measured = line.kind == LineKind::record && line.record == meaning::RecordKind::measured;
    const std::string_view keys = !measured ? "" : below_zero ? " data-number" : " data-number inputmode=\"decimal\"";
    const std::string unit =
        line.units.size() == 1 ? fmt::format(" data-unit=\"{}\"", meaning::unit_info(line.units.front()).ucum) : "";
    std::string out = fmt::format("<div class=\"field\"><label><span>{}</span> <input {} autocomplete=\"off\" "
                                  "data-id=\"{}\"{}{}{}>",
                                  written, input_type(line.record), id, unit, keys, bounds(line));
    if (!line.unit.empty()) {
        fmt::format_to(std::back_inserter(out), " <span class=\"unit{}\">{}</span>",
                       choose                                         ? " chosen-on-screen"
                       : line.record != meaning::RecordKind::measured ? " on-paper"
                                                                      : "",
                       html_escaped(line.unit));
    }
    out += "</label>";
    if (choose) {
        fmt::format_to(std::back_inserter(out), " <select aria-label=\"{}\" data-needs-script hidden>",
                       html_escaped(plain(
                           tongue.say<Saying::tagged>(in<"tag">(tongue.text(Saying::screen_unit)), in<"text">(name)))));
        for (const meaning::Unit each : line.units) {
            const meaning::UnitInfo& info = meaning::unit_info(each);
            fmt::format_to(std::back_inserter(out), "<option value=\"{}\">{}</option>", html_escaped(info.ucum),
                           html_escaped(info.symbol));
        }
        out += "</select>";
    }
    if (measured) { // what could not be measured must not stay open for ever
        fmt::format_to(std::back_inserter(out),
                       " <label class=\"choice\" data-needs-script hidden><input type=\"checkbox\" data-not-measured> "
                       "<span>{}</span></label>",
                       html_escaped(tongue.text(Saying::screen_not_measured)));
    }
    return out + "</div>\n";
}

} // namespace curbstop::output
