// Writes every kind of document for a tiny model, once with its own labels and once with each label that has broken
// programs before, for the judges of this folder. The folder to write into is the one argument.
#include "output/clean_text.h"
#include "output/drawing.h"
#include "output/drawing_zones.h"
#include "output/html.h"
#include "output/json.h"
#include "output/live_states.h"
#include "output/markdown.h"
#include "output/pictures.h"
#include "output/quantity_words.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"
#include "output/tongue.h"
#include "output/trace.h"
#include "text/json_writer.h"

#include <cstdio>
#include <filesystem>
#include <fstream>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

bool write(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    return static_cast<bool>(file.flush());
}

std::string check_document(const std::string& label) {
    text::SourceSet sources;
    const text::SourceId source = sources.add("hut.curb", label + "\nsecond line\n");
    text::DiagnosticSink sink;
    sink.add({"open-path", text::Severity::error, {source, 0, 1}, label, {{{source, 0, 1}, label}}, {label}, {label}});
    sink.add({"unreadable-file", text::Severity::warning, {}, label});
    const Tiny tiny = tiny_model(label);
    const CheckedFile file{"hut.curb", &sources, &sink, {&tiny.report, 1}, false};
    return check_json({&file, 1});
}

bool write_all(const std::filesystem::path& folder, const std::string& name, const std::string& label) {
    const Tiny tiny = tiny_model(label);
    const Drawing drawing = draw_system(Words(tiny.model.system), &tiny.report.steps[0]);
    if (!drawing.error.empty()) {
        std::fprintf(stderr, "%s\n", drawing.error.c_str());
        return false;
    }
    SheetInfo info = tiny_info();
    const auto& procedure = tiny.procedure();
    const Trace start = make_trace(tiny.model, procedure, tiny.report, 0, {});
    const Trace end = make_trace(tiny.model, procedure, tiny.report, 4, {});
    const bool written =
        write(folder / (name + ".md"), markdown_sheet(tiny.model, procedure, tiny.report, info)) &&
        write(folder / (name + ".procedure.json"), procedure_json(tiny.model, procedure, tiny.report, {}, info)) &&
        write(folder / (name + ".start.trace.json"), trace_json(start, {})) &&
        write(folder / (name + ".trace.json"), trace_json(end, {})) &&
        write(folder / (name + ".check.json"), check_document(label)) && write(folder / (name + ".svg"), drawing.svg);
    const std::vector<meaning::ValueSet> standing = required_standing(tiny.model.system, procedure);
    const Words words(tiny.model.system);
    for (ZoneDrawing& zone : draw_zones(words, placed_zones(words)).zones) {
        info.pictures.drawings.push_back({std::move(zone.title), std::move(zone.svg)});
    }
    info.pictures.steps = draw_pictures(Words(tiny.model.system), tiny.report, standing);
    LiveStates live = live_states(Words(tiny.model.system), tiny.report, standing);
    info.pictures.states = std::move(live.states);
    info.pictures.key = std::move(live.key);
    return written && write(folder / (name + ".html"), html_sheet(tiny.model, procedure, tiny.report, info)) &&
           write(folder / (name + ".pocket.html"), html_pocket(tiny.model, procedure, tiny.report, info));
}

// What each language makes of numbers, counts and lists, to be held against a library that has CLDR.
std::string locales() {
    const auto quantity = [](std::string_view number, meaning::Unit unit) {
        return *make_quantity(std::get<meaning::Rational>(meaning::parse_number(number)), unit);
    };
    text::JsonWriter json;
    json.begin_object();
    for (const Language language : meaning::all_languages) {
        const Tongue tongue(language);
        json.key(meaning::code(language)).begin_object().key("numbers").begin_object();
        for (const std::string_view digits : {"0", "7", "999", "1000", "1234", "9999", "12345", "123456", "1234567",
                                              "-5", "-1234.5", "0.027", "1234.50", "98765.4321"}) {
            json.member(digits, tongue.number(digits));
        }
        json.end_object().key("plurals").begin_object();
        for (const std::uint64_t count :
             {0, 1, 2, 3, 11, 21, 100, 101, 1001, 999'999, 1'000'000, 2'000'000, 1'000'001}) {
            const Plural category = plural_category(language, count);
            json.member(std::to_string(count), category == Plural::one    ? "one"
                                               : category == Plural::many ? "many"
                                                                          : "other");
        }
        json.end_object();
        for (const bool all : {true, false}) {
            json.key(all ? "all_of" : "one_of").begin_array();
            for (const std::vector<const char*>& items : std::vector<std::vector<const char*>>{{"a"},
                                                                                               {"a", "b"},
                                                                                               {"a", "b", "c"},
                                                                                               {"a", "b", "c", "d"},
                                                                                               {"a", "ide"},
                                                                                               {"a", "hijo"},
                                                                                               {"a", "hielo"},
                                                                                               {"a", "otro"},
                                                                                               {"a", "hotel"},
                                                                                               {"a", "b", "Inodoro"},
                                                                                               {"a", "b", "Ocho"}}) {
                std::vector<Phrase> phrases;
                json.begin_object().key("items").begin_array();
                for (const char* const item : items) {
                    phrases.push_back(phrase(item));
                    json.value(item);
                }
                json.end_array();
                json.member("written", std::string(plain(all ? tongue.all_of(phrases) : tongue.one_of(phrases))));
                json.end_object();
            }
            json.end_array();
        }
        const auto metric = [&](const meaning::Quantity& each) {
            return quantity_in(each, meaning::UnitSystem::metric, tongue);
        };
        json.member("metres", metric(quantity("12.5", meaning::Unit::m)));
        json.member("percent", metric(quantity("12.5", meaning::Unit::percent)));
        json.member("celsius", metric(quantity("12.5", meaning::Unit::degC)));
        json.member("day", metric(quantity("3", meaning::Unit::d))).end_object();
    }
    json.end_object();
    return json.take();
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    // What each label should read as, for the judges to look for.
    text::JsonWriter labels;
    labels.begin_object();
    bool written = write_all(folder, "plain", {});
    const auto hostile = hostile_labels();
    for (std::size_t i = 0; i < hostile.size(); ++i) {
        const std::string name = "hostile-" + std::to_string(i);
        written = written && write_all(folder, name, hostile[i]);
        labels.member(name, one_line(hostile[i]));
    }
    labels.end_object();
    return written && write(folder / "labels.json", labels.take()) && write(folder / "locales.json", locales()) ? 0 : 1;
}
