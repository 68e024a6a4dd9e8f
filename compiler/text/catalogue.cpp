#include "text/catalogue.h"

#include <algorithm>
#include <array>

namespace curbstop::text {

std::vector<CatalogueEntry> catalogue() {
    std::vector<CatalogueEntry> all;
    for (const auto part : {syntax_catalogue(), names_catalogue(), proofs_catalogue()}) {
        all.insert(all.end(), part.begin(), part.end());
    }
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.slug < b.slug; });
    return all;
}

const CatalogueEntry* find_catalogue_entry(std::string_view slug) {
    for (const auto part : {syntax_catalogue(), names_catalogue(), proofs_catalogue()}) {
        const auto found = std::find_if(part.begin(), part.end(), [slug](const auto& e) { return e.slug == slug; });
        if (found != part.end()) {
            return &*found;
        }
    }
    return nullptr;
}

} // namespace curbstop::text
