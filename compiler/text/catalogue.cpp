#include "text/catalogue.h"

#include <algorithm>
#include <array>

namespace curbstop::text {
namespace {

std::array<std::span<const CatalogueEntry>, 13> chapters() {
    return {syntax_catalogue(),   modules_catalogue(),   names_catalogue(),  quantities_catalogue(),
            system_catalogue(),   procedure_catalogue(), flows_catalogue(),  heat_catalogue(),
            parts_catalogue(),    promises_catalogue(),  places_catalogue(), photos_catalogue(),
            languages_catalogue()};
}

} // namespace

std::vector<CatalogueEntry> catalogue() {
    std::vector<CatalogueEntry> all;
    for (const auto chapter : chapters()) {
        all.insert(all.end(), chapter.begin(), chapter.end());
    }
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.slug < b.slug; });
    return all;
}

const CatalogueEntry* find_catalogue_entry(std::string_view slug) {
    for (const auto chapter : chapters()) {
        const auto found =
            std::find_if(chapter.begin(), chapter.end(), [slug](const auto& e) { return e.slug == slug; });
        if (found != chapter.end()) {
            return &*found;
        }
    }
    return nullptr;
}

} // namespace curbstop::text
