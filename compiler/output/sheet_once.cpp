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
