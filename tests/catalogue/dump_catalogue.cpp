// Writes the catalogue of diagnostics as JSON to standard output, for the scripts beside this file.
#include "text/catalogue.h"
#include "text/diagnostic.h"
#include "text/json_writer.h"

#include <cstdio>
#include <string>

int main() {
    using namespace curbstop::text;
    JsonWriter json;
    json.begin_array();
    for (const CatalogueEntry& entry : catalogue()) {
        json.begin_object();
        json.member("slug", entry.slug);
        json.member("severity", severity_name(entry.severity));
        json.member("title", entry.title);
        json.member("explanation", entry.explanation);
        json.member("example", entry.example);
        json.member("mended", entry.mended);
        json.end_object();
    }
    json.end_array();
    const std::string all = json.take();
    return std::fwrite(all.data(), 1, all.size(), stdout) == all.size() && std::fflush(stdout) == 0 ? 0 : 1;
}
