#include "output/wording.h"

#include <algorithm>

namespace curbstop::output {

Wording::Wording(std::string text, Language foreign_language)
    : std::string(std::move(text)) {
    if (!empty()) {
        foreign.push_back({0, size(), foreign_language});
    }
}

void Wording::add(const Wording& more) {
    const std::size_t before = size();
    append(more);
    for (const Foreign& each : more.foreign) {
        if (!foreign.empty() && foreign.back().end == before + each.begin && foreign.back().language == each.language) {
            foreign.back().end = before + each.end;
        } else {
            foreign.push_back({before + each.begin, before + each.end, each.language});
        }
    }
    for (const Literal& each : more.literals) {
        literals.push_back({before + each.begin, before + each.end});
    }
}

Wording Wording::from(std::size_t begin) const {
    Wording rest(substr(begin));
    for (const Foreign& each : foreign) {
        if (each.end > begin) {
            rest.foreign.push_back({std::max(each.begin, begin) - begin, each.end - begin, each.language});
        }
    }
    for (const Literal& each : literals) {
        if (each.end > begin) {
            rest.literals.push_back({std::max(each.begin, begin) - begin, each.end - begin});
        }
    }
    return rest;
}

Wording Wording::until(std::size_t end) const {
    Wording start(substr(0, end));
    for (const Foreign& each : foreign) {
        if (each.begin < end) {
            start.foreign.push_back({each.begin, std::min(each.end, end), each.language});
        }
    }
    for (const Literal& each : literals) {
        if (each.begin < end) {
            start.literals.push_back({each.begin, std::min(each.end, end)});
        }
    }
    return start;
}

Wording with_literals(std::string_view written) {
    Wording text;
    while (!written.empty()) {
        const std::size_t open = std::min(written.find('`'), written.size());
        const std::size_t close = open < written.size() ? written.find('`', open + 1) : std::string_view::npos;
        text.append(written.substr(0, open));
        if (close == std::string_view::npos) {
            text.append(written.substr(open));
            break;
        }
        if (close == open + 1) {
            text.append("``");
        } else {
            text.literals.push_back({text.size(), text.size() + close - open - 1});
            text.append(written.substr(open + 1, close - open - 1));
        }
        written.remove_prefix(close + 1);
    }
    return text;
}

} // namespace curbstop::output
