#include "meaning/names.h"

#include "text/nearest.h"

namespace curbstop::meaning {

std::string_view sort_name(Sort sort) {
    switch (sort) {
    case Sort::part:
        return "a part";
    case Sort::cover:
        return "a cover";
    case Sort::end:
        return "an end";
    case Sort::dial:
        return "a dial";
    case Sort::port:
        return "a port";
    case Sort::tee:
        return "a tee";
    case Sort::chamber:
        return "a chamber";
    case Sort::vessel:
        return "a vessel";
    case Sort::place:
        return "a place";
    case Sort::zone:
        return "a zone";
    case Sort::option:
        return "an option";
    case Sort::group:
        return "a group";
    case Sort::way:
        return "a way of a part";
    case Sort::fluid:
        return "a fluid";
    case Sort::text:
        return "a text";
    }
    return "";
}

const Thing* Names::add(Thing thing) {
    std::string name = thing.name;
    const auto [place, is_new] = things_.try_emplace(std::move(name), std::move(thing));
    if (!is_new) {
        return &place->second;
    }
    order_.push_back(&place->first);
    return nullptr;
}

const Thing* Names::find(std::string_view name) const {
    const auto found = things_.find(name);
    return found == things_.end() ? nullptr : &found->second;
}

std::vector<std::string> Names::below(std::string_view prefix) const {
    std::vector<std::string> names;
    for (const std::string* name : order_) {
        std::string_view rest = *name;
        if (!prefix.empty()) {
            if (rest.size() <= prefix.size() + 1 || !rest.starts_with(prefix) || rest[prefix.size()] != '.') {
                continue;
            }
            rest.remove_prefix(prefix.size() + 1);
        }
        if (rest.find('.') == std::string_view::npos) {
            names.emplace_back(rest);
        }
    }
    return names;
}

std::optional<std::string> Names::nearest(std::string_view prefix, std::string_view written) const {
    const std::vector<std::string> candidates = below(prefix);
    const auto found = text::nearest(written, candidates);
    return found ? std::optional<std::string>(*found) : std::nullopt;
}

} // namespace curbstop::meaning
