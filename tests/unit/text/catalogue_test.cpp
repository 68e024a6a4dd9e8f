#include "text/catalogue.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <string>

using namespace curbstop::text;

TEST_CASE("every entry is complete and its slug is well-formed and unique") {
    const auto all = catalogue();
    const auto chapters = {syntax_catalogue(),   modules_catalogue(),   names_catalogue(),  quantities_catalogue(),
                           system_catalogue(),   procedure_catalogue(), flows_catalogue(),  heat_catalogue(),
                           parts_catalogue(),    promises_catalogue(),  places_catalogue(), photos_catalogue(),
                           languages_catalogue()};
    std::size_t size = 0;
    for (const auto chapter : chapters) {
        CHECK_FALSE(chapter.empty());
        size += chapter.size();
    }
    REQUIRE(all.size() == size);
    for (std::size_t i = 0; i < all.size(); ++i) {
        INFO(std::string(all[i].slug));
        CHECK_FALSE(all[i].slug.empty());
        CHECK(all[i].slug.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
        CHECK_FALSE(all[i].slug.starts_with('-'));
        CHECK_FALSE(all[i].slug.ends_with('-'));
        CHECK_FALSE(all[i].title.empty());
        CHECK_FALSE(all[i].title.ends_with('.'));
        CHECK(all[i].explanation.ends_with('.'));
        CHECK(all[i].example.empty() == all[i].mended.empty());
        CHECK((i == 0 || all[i - 1].slug < all[i].slug));
    }
}

TEST_CASE("every slug that compiler/reference/proofs.md defines is in the catalogue") {
    // The rows of its table of obligations begin with "| `slug`", or with several of them.
    std::ifstream reference(std::string(CURBSTOP_SOURCE_DIR) + "/compiler/reference/proofs.md");
    std::size_t slugs = 0;
    for (std::string line; std::getline(reference, line);) {
        if (!line.starts_with("| `")) {
            continue;
        }
        std::string_view cell = std::string_view(line).substr(2);
        cell = cell.substr(0, cell.find(" |"));
        for (std::size_t at = cell.find('`'); at != std::string_view::npos; at = cell.find('`')) {
            const std::size_t end = cell.find('`', at + 1);
            const std::string slug(cell.substr(at + 1, end - at - 1));
            INFO(slug);
            CHECK(find_catalogue_entry(slug) != nullptr);
            ++slugs;
            cell.remove_prefix(end + 1);
        }
    }
    CHECK(slugs >= 17); // the table was found
    CHECK(find_catalogue_entry("no-such-slug") == nullptr);
}

TEST_CASE("what the reference calls a warning is one") {
    for (const std::string_view slug : {"two-places", "no-effect", "unused-part"}) {
        CHECK(find_catalogue_entry(slug)->severity == Severity::warning);
    }
    CHECK(find_catalogue_entry("open-path")->severity == Severity::error);
}
