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
#include "output/sheet_standing.h"
#include "output/tiny_model.h"
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
    const Drawing drawing = draw_system(tiny.model.system, &tiny.report.steps[0]);
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
    for (ZoneDrawing& zone : draw_zones(tiny.model.system).zones) {
        info.pictures.drawings.push_back({std::move(zone.title), std::move(zone.svg)});
    }
    info.pictures.steps = draw_pictures(tiny.model.system, tiny.report, standing).steps;
    LiveStates live = live_states(tiny.model.system, tiny.report, standing);
    info.pictures.states = std::move(live.states);
    info.pictures.key = std::move(live.key);
    return written && write(folder / (name + ".html"), html_sheet(tiny.model, procedure, tiny.report, info)) &&
           write(folder / (name + ".pocket.html"), html_pocket(tiny.model, procedure, tiny.report, info));
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
    return written && write(folder / "labels.json", labels.take()) ? 0 : 1;
}
