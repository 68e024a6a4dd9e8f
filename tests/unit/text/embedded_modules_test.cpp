#include "text/embedded_modules.h"

#include "temporary_folder.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <vector>

using namespace curbstop::text;

TEST_CASE("the embedded modules are the files of stdlib, byte for byte") {
    std::vector<std::filesystem::path> files;
    const std::filesystem::path folder = std::filesystem::path(CURBSTOP_SOURCE_DIR) / "stdlib";
    if (std::filesystem::exists(folder)) {
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            if (entry.path().extension() == ".curb") {
                files.push_back(entry.path());
            }
        }
    }
    std::sort(files.begin(), files.end());
    REQUIRE(embedded_stdlib().size() == files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
        CHECK(embedded_stdlib()[i].name == files[i].stem().string());
        CHECK((embedded_stdlib()[i].text == TemporaryFolder::read(files[i].string())));
        CHECK(find_embedded_module(files[i].stem().string()) == embedded_stdlib()[i].text);
    }
    CHECK_FALSE(find_embedded_module("no_such_module"));
}
