#include "output/sheet_picture.h"

#include "output/picture.h"
#include "output/tongue.h"

#include <fmt/format.h>

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_beyond = 2; // names beside a tee

std::string card_words(const PictureCard& card) {
    const std::string beyond = card.symbol == Symbol::tee ? beyond_words(card.beyond) : std::string();
    return beyond.empty() ? card.label : card.label + " (" + beyond + ")";
}

std::string pipe_words(const Picture& picture, const PicturePipe& pipe) {
    const std::string& from = picture.cards[pipe.from].label;
    const std::string to = card_words(picture.cards[pipe.to]);
    const std::string ends = (pipe.from < pipe.to ? from : card_words(picture.cards[pipe.from])) +
                             (pipe.kind == PipeKind::falls ? " over " : " – ") + to;
    std::vector<std::string> said;
    if (pipe.kind == PipeKind::coupled) {
        said.emplace_back("coupled");
    }
    if (pipe.holds) {
        said.push_back(picture.key[*pipe.holds].words);
    }
    if (pipe.pressure) {
        said.emplace_back("may be under pressure");
    }
    if (pipe.shut_from) {
        said.push_back("shut at " + from);
    }
    if (pipe.shut_to) {
        said.push_back("shut at " + picture.cards[pipe.to].label);
    }
    if (pipe.optional) {
        said.emplace_back("not in every variant");
    }
    return ends + (said.empty() ? "." : fmt::format(": {}.", fmt::join(said, ", ")));
}

} // namespace

std::string move_words(const Words& words, const Moved& moved, const std::string& card) {
    std::vector<std::string> stands{words.values(moved.variable, moved.before)};
    for (const std::uint32_t value : moved.through) {
        stands.push_back(words.value(moved.variable, value));
    }
    // Where a variant lacks what it is put to, it may stand otherwise afterwards: what the step does is told.
    const bool told = !moved.through.empty() && (moved.after >> moved.through.back() & 1) != 0;
    const std::string after = words.values(moved.variable, moved.after);
    if (!told && stands.back() != after) {
        stands.push_back(after);
    }
    std::string what = words.variable(moved.variable);
    if (what.starts_with(card + ", ") || what.starts_with(card + ": ")) {
        what.erase(0, card.size() + 2);
    }
    if (what.starts_with(card + " (") && what.ends_with(')')) {
        what = what.substr(card.size() + 2, what.size() - card.size() - 3);
    }
    const std::string of = what == card ? std::string() : what + ": ";
    return fmt::format("{}{}", of, fmt::join(stands, " → "));
}

std::string names_words(const std::vector<std::string>& found) {
    const std::size_t named = found.size() <= most_beyond + 1 ? found.size() : most_beyond;
    std::vector<Phrase> names;
    for (std::size_t i = 0; i < named; ++i) {
        names.push_back(phrase(found[i]));
    }
    if (named < found.size()) {
        names.push_back(phrase(fmt::format("{} more", found.size() - named)));
    }
    return plain(Tongue(Language::english).all_of(names));
}

std::string beyond_words(const std::vector<std::string>& beyond) {
    return beyond.empty() ? std::string() : "to " + names_words(beyond);
}

std::string onward_words(const std::string& zone, const std::string& what) {
    return "to " + zone + (what.empty() || what == zone ? "" : ": " + what);
}

std::string come_from_words(const std::string& zone, const std::string& what) {
    return "from " + zone + ": " + what;
}
std::string over_words(const std::string& place) {
    return "over " + place;
}

std::string elsewhere_words() {
    return "Without a place";
}
std::string one_of_words(const std::string& name, std::size_t number, std::size_t count) {
    return fmt::format("{}, {} of {}", name, number, count);
}
std::string parts_words(std::size_t count) {
    return count == 1 ? "1 part" : fmt::format("{} parts", count);
}
std::string pipes_words(std::size_t count) {
    return count == 1 ? "1 pipe" : fmt::format("{} pipes", count);
}
std::string overview_words() {
    return "Overview of the places";
}
std::string at_the_start_words() {
    return "How it stands at the start, as far as that is laid down.";
}
std::string after_step_words() {
    return "As after step {}. P: may be under pressure. Letters: what it may hold.";
}

std::string out_words(const PictureOut& out) {
    if (out.fills) {
        return "may run in";
    }
    return out.into.empty() ? "may run out" : "may run out into " + out.into;
}

std::string picture_words(const Picture& picture) {
    std::string text = fmt::format("After step {}.", picture.step);
    for (const PictureCard& card : picture.cards) {
        if (card.moved) {
            text += fmt::format(" {}: {}.", card.label, fmt::join(card.moves, "; "));
        }
    }
    for (const PictureCard& card : picture.cards) {
        if (card.holds.empty() && !card.pressure) {
            continue;
        }
        std::vector<std::string> said;
        for (const std::size_t key : card.holds) {
            said.push_back(picture.key[key].words);
        }
        if (card.pressure) {
            said.emplace_back("may be under pressure");
        }
        text += fmt::format(" In {}: {}.", card.label, fmt::join(said, ", "));
    }
    for (const PicturePipe& pipe : picture.pipes) {
        text += " " + pipe_words(picture, pipe);
    }
    for (const PictureOut& out : picture.outs) {
        text += fmt::format(" At {} it {}.", out.at, out_words(out));
    }
    return text;
}

std::vector<PictureSign> picture_signs() {
    using Kind = PictureSign::Kind;
    return {{Kind::moved, "Heavy frame: moved by the step, from how it may have stood to how it stands then."},
            {Kind::open_valve, "Valve, open."},
            {Kind::shut_valve, "Valve, shut."},
            {Kind::pressure, "Heavy line and P: may be under pressure after the step."},
            {Kind::bar, "Bar across a pipe: goes no further there."},
            {Kind::falls, "Arrow: liquid may run out there during the step."},
            {Kind::optional, "Dashed: not in every variant."}};
}

} // namespace curbstop::output
