// What works on screen only. It is hidden until the script has run, so that without one nothing stands there dead.
#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sheet_controls.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

std::string radio(std::string_view name, std::string_view value, std::string_view label, bool chosen) {
    return fmt::format("<label class=\"choice\"><input type=\"radio\" name=\"{}\" value=\"{}\"{}> "
                       "<span>{}</span></label>\n",
                       name, value, chosen ? " checked" : "", html_escaped(label));
}

} // namespace

std::string html_skip_link() {
    return fmt::format("<a class=\"skip\" href=\"#stage-1\">{}</a>\n", html_escaped(ControlWords().skip));
}

std::string html_desk() {
    const ControlWords words;
    std::string out =
        fmt::format("<details class=\"desk\" id=\"desk\" data-needs-script hidden>\n<summary>{}</summary>\n"
                    "<div id=\"view\">\n<fieldset>\n<legend>{}</legend>\n",
                    html_escaped(words.desk), html_escaped(words.theme));
    out += radio("theme", "device", words.theme_of_device, true);
    out += radio("theme", "bright", words.theme_bright, false);
    out += radio("theme", "dark", words.theme_dark, false);
    fmt::format_to(
        std::back_inserter(out),
        "</fieldset>\n<label class=\"choice\"><input type=\"checkbox\" id=\"large-targets\"> "
        "<span>{}</span></label>\n<label class=\"choice\"><input type=\"checkbox\" id=\"print-all\"> "
        "<span>{}</span></label>\n</div>\n<fieldset class=\"record-files\">\n<legend>{}</legend>\n<p>{}</p>\n",
        html_escaped(words.large), html_escaped(words.print_all), html_escaped(words.record),
        html_escaped(words.record_about));
    fmt::format_to(std::back_inserter(out),
                   "<button type=\"button\" id=\"save-record\">{}</button>\n"
                   "<label class=\"file\"><span>{}</span> <input type=\"file\" id=\"open-record\" "
                   "accept=\".json,application/json\"></label>\n"
                   "<button type=\"button\" id=\"clear-record\">{}</button>\n",
                   html_escaped(words.save), html_escaped(words.open), html_escaped(words.clear));
    fmt::format_to(std::back_inserter(out),
                   "<div id=\"offer\" hidden>\n<p></p>\n<button type=\"button\" value=\"take\">{}</button>\n"
                   "<button type=\"button\" value=\"leave\">{}</button>\n</div>\n<p id=\"report\" role=\"alert\"></p>\n"
                   "</fieldset>\n</details>\n<p id=\"complaint\" role=\"alert\" hidden></p>\n",
                   html_escaped(words.take), html_escaped(words.leave));
    return out;
}

std::string html_picker(const Sheet& sheet) {
    const ControlWords words;
    std::string out =
        fmt::format("<div class=\"picker\" data-needs-script hidden>\n<p>{}</p>\n", html_escaped(words.options));
    for (std::size_t i = 0; i < sheet.preparation.options.size(); ++i) {
        const OptionItem& option = sheet.preparation.options[i];
        const std::string name = fmt::format("option-{}", i);
        fmt::format_to(std::back_inserter(out), "<fieldset data-option=\"{}\">\n<legend>{}</legend>\n",
                       html_escaped(option.name), html_label(option.label));
        out += radio(name, "unknown", words.not_said, true);
        out += radio(name, "has", words.has, false);
        out += radio(name, "has_not", words.has_not, false);
        out += "</fieldset>\n";
    }
    return out + "<p class=\"hidden-count\" data-hidden-count=\"always\"></p>\n</div>\n";
}

std::string html_bar() {
    const ControlWords words;
    return fmt::format("<section class=\"bar\" id=\"bar\" aria-label=\"{0}\" data-needs-script hidden>\n"
                       "<p id=\"count\"></p>\n<progress max=\"1\" value=\"0\" aria-labelledby=\"count\"></progress>\n"
                       "<p id=\"said\" role=\"status\"></p>\n"
                       "<button type=\"button\" id=\"next-open\">{1}</button>\n"
                       "<button type=\"button\" id=\"take-back\">{2}</button>\n</section>\n",
                       html_escaped(words.progress), html_escaped(words.next), html_escaped(words.undo));
}

std::string html_script_texts() {
    std::string out = "<template id=\"texts\">\n";
    for (const ScriptText& each : script_texts()) {
        fmt::format_to(std::back_inserter(out), "<p data-text=\"{}\">{}</p>\n", each.name, html_escaped(each.text));
    }
    return out + "</template>\n";
}

std::string html_applies(const Applies& applies) {
    return applies.always() ? std::string() : fmt::format(" data-when=\"{}\"", applies.postfix());
}

std::string html_tick(std::string_view id, const std::string& words) {
    return fmt::format("<label class=\"tick\"><input type=\"checkbox\" data-id=\"{}\"><span>{}</span></label>", id,
                       words);
}

std::string html_field(std::string_view id, const std::string& words, const std::string& name, const Line& line) {
    const bool choose = line.units.size() > 1;
    const std::string unit =
        line.units.size() == 1 ? fmt::format(" data-unit=\"{}\"", meaning::unit_info(line.units.front()).ucum) : "";
    std::string out =
        fmt::format("<div class=\"field\"><label><span>{}</span> <input type=\"text\" autocomplete=\"off\" "
                    "dir=\"auto\" data-id=\"{}\"{}>",
                    words, id, unit);
    if (!line.unit.empty()) {
        fmt::format_to(std::back_inserter(out), " <span class=\"unit{}\">{}</span>", choose ? " chosen-on-screen" : "",
                       html_escaped(line.unit));
    }
    out += "</label>";
    if (choose) {
        fmt::format_to(std::back_inserter(out), " <select aria-label=\"{}: {}\" data-needs-script hidden>",
                       html_escaped(ControlWords().unit), html_escaped(name));
        for (const meaning::Unit each : line.units) {
            const meaning::UnitInfo& info = meaning::unit_info(each);
            fmt::format_to(std::back_inserter(out), "<option value=\"{}\">{}</option>", html_escaped(info.ucum),
                           html_escaped(info.symbol));
        }
        out += "</select>";
    }
    return out + "</div>\n";
}

} // namespace curbstop::output
