#include "output/whereabouts.h"

#include <algorithm>
#include <string_view>

namespace curbstop::output {

using meaning::ZoneId;

namespace {

/// With more sorts of readers than this, what is known of them is forgotten: then "go to" is said once too often.
constexpr std::size_t most_sorts = 16;

std::string opposite(const std::string& condition) {
    constexpr std::string_view no = " not";
    return condition.ends_with(no) ? condition.substr(0, condition.size() - no.size()) : condition + std::string(no);
}

} // namespace

bool Whereabouts::surely(ZoneId place) const {
    return std::ranges::all_of(readers_, [&](const Reader& reader) { return reader.place == place; });
}

void Whereabouts::are(const std::vector<ZoneId>& places) {
    readers_.clear();
    for (const ZoneId place : places) {
        readers_.push_back({place, {}});
    }
}

std::vector<Whereabouts::Reader> Whereabouts::knowing(const std::vector<Reader>& readers,
                                                      const std::string& condition) {
    std::vector<Reader> found;
    for (Reader reader : readers) {
        if (std::ranges::find(reader.holds, opposite(condition)) != reader.holds.end()) {
            continue;
        }
        if (std::ranges::find(reader.holds, condition) == reader.holds.end()) {
            reader.holds.push_back(condition);
        }
        found.push_back(std::move(reader));
    }
    return found;
}

Whereabouts Whereabouts::of_those(const Applies& condition) const {
    Whereabouts those;
    those.readers_ = knowing(readers_, condition.postfix());
    if (those.readers_.empty()) {
        those.readers_ = readers_;
    }
    return those;
}

void Whereabouts::join_others(const Whereabouts& before, const Applies& condition) {
    readers_ = knowing(readers_, condition.postfix());
    for (Reader& other : knowing(before.readers_, opposite(condition.postfix()))) {
        if (std::ranges::find(readers_, other) == readers_.end()) {
            readers_.push_back(std::move(other));
        }
    }
    if (readers_.size() > most_sorts) {
        std::vector<ZoneId> places;
        for (const Reader& reader : readers_) {
            if (std::ranges::find(places, reader.place) == places.end()) {
                places.push_back(reader.place);
            }
        }
        are(places);
    }
}

} // namespace curbstop::output
