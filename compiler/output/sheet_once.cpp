#include "output/sheet_once.h"

#include <algorithm>

namespace curbstop::output {

namespace {

/// What only some readers come to: the others have not read what it says.
bool is_for_some(const Line& line) {
    return line.kind == LineKind::conditional || line.kind == LineKind::in_case || !line.condition.empty();
}

} // namespace

std::string say_places_once(std::vector<Line>& lines, std::string named) {
    for (Line& line : lines) {
        const std::string before = named;
        if (!line.place.empty() && line.place == named) {
            line.place.clear();
        } else if (!line.place.empty()) {
            named = line.place;
        }
        named = say_places_once(line.body, std::move(named));
        if (is_for_some(line)) {
            named = before;
        }
    }
    return named;
}

void say_meanings_once(std::vector<Line>& lines, std::vector<Phrase>& said) {
    for (Line& line : lines) {
        const std::size_t before = said.size();
        if (line.kind == LineKind::see && line.text.size() > 1 && line.text.front().label) {
            if (std::find(said.begin(), said.end(), line.text) == said.end()) {
                said.push_back(line.text);
            } else {
                line.text.resize(1);
            }
        }
        say_meanings_once(line.body, said);
        if (is_for_some(line)) {
            said.resize(before);
        }
    }
}

void say_cautions_once(std::vector<Line>& lines, std::uint32_t step, std::vector<std::string> read_if,
                       std::vector<SaidCaution>& said) {
    for (Line& line : lines) {
        const std::size_t before = said.size();
        const std::size_t outer = read_if.size();
        if (!line.applies.always()) {
            read_if.push_back(line.applies.postfix());
        }
        const auto was_read = [&](const SaidCaution& each) {
            return each.step != step && std::ranges::all_of(each.read_if, [&](const std::string& condition) {
                       return std::ranges::find(read_if, condition) != read_if.end();
                   });
        };
        const auto is_same_action = [&](const SaidCaution& each) {
            return each.puts && line.puts
                       ? each.puts->variable == line.puts->variable && each.puts->value == line.puts->value
                       : !each.puts && !line.puts && each.action == line.text;
        };
        for (Caution& caution : line.cautions) {
            const bool grave = caution.signal == meaning::Signal::danger || caution.signal == meaning::Signal::warning;
            const auto known = std::ranges::find_if(said, [&](const SaidCaution& each) {
                return each.caution == caution && was_read(each) && (!grave || is_same_action(each));
            });
            if (known != said.end()) {
                caution.as_in = known->step;
            } else {
                said.push_back({caution, line.puts, line.text, step, read_if});
            }
        }
        say_cautions_once(line.body, step, read_if, said);
        if (line.kind == LineKind::in_case) {
            said.resize(before);
        }
        read_if.resize(outer);
    }
}

void helpers_first(std::vector<Line>& lines) {
    std::stable_partition(lines.begin(), lines.end(), [](const Line& line) { return line.kind == LineKind::helper; });
    for (Line& line : lines) {
        helpers_first(line.body);
    }
}

bool has_helper(const std::vector<Line>& lines) {
    return std::ranges::any_of(lines,
                               [](const Line& line) { return line.kind == LineKind::helper || has_helper(line.body); });
}

std::string shortened(const std::string& name) {
    constexpr std::size_t most = 48; // characters
    std::size_t count = 0;
    for (std::size_t i = 0; i < name.size(); ++i) {
        const bool starts = (static_cast<unsigned char>(name[i]) & 0xC0U) != 0x80U; // of a character in UTF-8
        if (starts && count++ == most) {
            return name.substr(0, i) + "…";
        }
    }
    return name;
}

} // namespace curbstop::output
