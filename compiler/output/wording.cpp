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
}

Wording Wording::from(std::size_t begin) const {
    Wording rest(substr(begin));
    for (const Foreign& each : foreign) {
        if (each.end > begin) {
            rest.foreign.push_back({std::max(each.begin, begin) - begin, each.end - begin, each.language});
        }
    }
    return rest;
}

} // namespace curbstop::output
