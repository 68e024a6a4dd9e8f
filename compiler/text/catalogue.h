// The one table of diagnostics: what each slug means, with an example and its mending. It feeds
// compiler/reference/diagnostics.md and the test that each is tried (tests/catalogue).
// Must not know: how any of them is found.
#pragma once

#include "text/diagnostic.h"

#include <span>
#include <string_view>
#include <vector>

namespace curbstop::text {

struct CatalogueEntry {
    std::string_view slug; ///< lower case, words joined by `-`; never changes once published
    Severity severity = Severity::error;
    std::string_view title;        ///< one line: what is wrong, in the trade's words
    std::string_view explanation;  ///< a few paragraphs, Markdown
    std::string_view example = {}; ///< a whole file that triggers it; empty where one file cannot (tests/catalogue)
    std::string_view mended = {};  ///< the same file, put right: it is refused for nothing
};

/// Entries by idea, each in the file of its name: catalogue_syntax.cpp, catalogue_names.cpp and so on.
[[nodiscard]] std::span<const CatalogueEntry> syntax_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> modules_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> names_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> quantities_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> system_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> procedure_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> flows_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> heat_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> parts_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> promises_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> places_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> photos_catalogue();
[[nodiscard]] std::span<const CatalogueEntry> languages_catalogue();

/// All entries, sorted by slug.
[[nodiscard]] std::vector<CatalogueEntry> catalogue();

/// The entry of a slug, or null.
[[nodiscard]] const CatalogueEntry* find_catalogue_entry(std::string_view slug);

} // namespace curbstop::text
