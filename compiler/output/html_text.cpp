#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/words.h"

#include <fmt/format.h>

namespace curbstop::output {
namespace {

// The safety alert symbol: a triangle with a mark of exclamation. ANSI Z535 keeps it for what can injure.
constexpr std::string_view alert_symbol =
    R"(<svg class="alert" viewBox="0 0 24 22" width="24" height="22" aria-hidden="true" focusable="false">)"
    R"(<path d="M12 1 23 21H1Z" fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round"/>)"
    R"(<path d="M12 8v6M12 16.5v2" stroke="currentColor" stroke-width="2.4"/></svg>)";

std::string_view signal_class(meaning::Signal signal) {
    switch (signal) {
    case meaning::Signal::danger:
        return "danger";
    case meaning::Signal::warning:
        return "warning";
    case meaning::Signal::caution:
        return "caution";
    case meaning::Signal::notice:
        return "notice";
    }
    return {};
}

} // namespace

std::string html_words(const Wording& text) {
    const std::string_view all = text;
    std::string out;
    const auto stretch = [&](std::size_t begin, std::size_t end) {
        for (const Wording::Literal& each : text.literals) {
            if (each.begin >= begin && each.end <= end) {
                out += html_escaped(all.substr(begin, each.begin - begin));
                out += fmt::format("<code>{}</code>", html_escaped(all.substr(each.begin, each.end - each.begin)));
                begin = each.end;
            }
        }
        out += html_escaped(all.substr(begin, end - begin));
    };
    std::size_t at = 0;
    for (const Wording::Foreign& each : text.foreign) {
        stretch(at, each.begin);
        out += fmt::format("<span lang=\"{}\">", meaning::code(each.language));
        stretch(each.begin, each.end);
        out += "</span>";
        at = each.end;
    }
    stretch(at, all.size());
    return out;
}

std::string html_label(const Wording& text) {
    if (text.foreign.size() == 1 && text.foreign.front().begin == 0 && text.foreign.front().end == text.size()) {
        Wording whole = text;
        whole.foreign.clear();
        return fmt::format("<bdi lang=\"{}\">{}</bdi>", meaning::code(text.foreign.front().language),
                           html_words(whole));
    }
    return fmt::format("<bdi>{}</bdi>", html_words(text));
}

std::string html_phrase(const Phrase& phrase) {
    std::string out;
    for (const Piece& piece : phrase) {
        out += piece.label      ? fmt::format("<b>{}</b>", html_label(piece.text))
               : piece.name     ? html_label(piece.text)
               : piece.code     ? fmt::format("<code>{}</code>", html_escaped(piece.text))
               : piece.step > 0 ? fmt::format("<a href=\"#step-{}\">{}</a>", piece.step, html_words(piece.text))
                                : html_words(piece.text);
    }
    return out;
}

std::string html_caution(const Caution& caution, const Tongue& tongue) {
    const bool injury = caution.signal != meaning::Signal::notice;
    return fmt::format(
        "<div class=\"signal {}\" role=\"note\"><p class=\"word\">{}{}</p><p dir=\"auto\">{}</p></div>\n",
        signal_class(caution.signal), injury ? alert_symbol : "", signal_word(caution.signal, tongue),
        html_phrase(caution_words(caution, tongue)));
}

std::string html_condition(const Wording& condition) {
    return condition.empty() ? std::string()
                             : fmt::format(" <span class=\"condition\">{}</span>", html_label(condition));
}

} // namespace curbstop::output
