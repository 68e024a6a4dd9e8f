#include "command/arguments.h"

#include "command/exit_status.h"
#include "text/utf8.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include <map>
#include <sstream>

namespace curbstop::command {
namespace {

constexpr const char* about =
    "Curbstop checks written procedures for water systems: that no step lets water, antifreeze or pressure\n"
    "go where it should not. It prints the procedures that it has proved as sheets to work by.";

constexpr const char* statuses = "Exit status: 0 proved (or done), 1 refused, 2 could not be used.\n";

constexpr const char* first_steps =
    "Try this first:\n"
    "  curbstop check hut.curb          what is wrong, and where\n"
    "  curbstop sheet hut.curb          a sheet for each procedure, to print or to carry\n"
    "  curbstop COMMAND --help          what a command does, with an example\n"
    "\n";

constexpr const char* check_help =
    "Example:\n"
    "  curbstop check hut.curb boat.curb\n"
    "  curbstop check --as json - < hut.curb\n"
    "Every procedure gets a line that says whether it is proved. Warnings do not refuse.\n";

constexpr const char* sheet_help =
    "Example:\n"
    "  curbstop sheet hut.curb                              close_up.html and open_up.html, here\n"
    "  curbstop sheet hut.curb --procedure close_up -o -    to standard output\n"
    "  curbstop sheet hut.curb --as markdown\n"
    "  curbstop sheet hut.curb --language de                auf Deutsch; labels as far as they are given in it\n"
    "  curbstop sheet hut.curb --pocket                     close_up.pocket.html and open_up.pocket.html\n"
    "Drawings of the system need Graphviz (package libgvc6); without it a sheet has the pictures of its steps only.\n"
    "A procedure that is refused gets no sheet: nothing is written, and the messages say why.\n";

constexpr const char* trace_help = "Example:\n"
                                   "  curbstop trace hut.curb --procedure close_up --after 3\n"
                                   "  curbstop trace hut.curb --procedure close_up --after 3 --of stop_valve\n"
                                   "Steps are numbered as on the sheet; 0 is before the first.\n";

constexpr const char* draw_help =
    "Example:\n"
    "  curbstop draw hut.curb                                       larkfold.svg, here\n"
    "  curbstop draw hut.curb --procedure close_up --after 2 -o -   how things stand after step 2\n"
    "  curbstop draw hut.curb --zone room                           larkfold.room.svg, here\n"
    "  curbstop draw hut.curb --language de                         auf Deutsch\n"
    "Needs the Graphviz libraries (package libgvc6).\n";

void add_common(CLI::App& command, CommonArguments& common) {
    static const std::map<std::string, Colour> colours{
        {"auto", Colour::automatic}, {"always", Colour::always}, {"never", Colour::never}};
    command
        .add_option("--stdlib", common.stdlib, "Folder of the standard library, in place of the one that comes along")
        ->type_name("DIR");
    command.add_option("--colour,--color", common.colour, "Colour of messages: auto, always or never")
        ->transform(CLI::CheckedTransformer(colours).description(""))
        ->type_name("WHEN");
}

template <class Form>
void add_form(CLI::App& command, Form& form, const std::map<std::string, Form>& forms, const std::string& words) {
    command.add_option("--as", form, words)
        ->transform(CLI::CheckedTransformer(forms).description(""))
        ->type_name("FORM");
}

void add_file(CLI::App& command, std::string& file) {
    command.add_option("file", file, "The .curb file; - is standard input")->required()->type_name("FILE");
}

CLI::Option* add_procedure(CLI::App& command, std::optional<std::string>& procedure) {
    return command.add_option("--procedure", procedure, "Its name; may be left out where the file has one only")
        ->type_name("NAME");
}

void add_output(CLI::App& command, std::optional<std::string>& output, const std::string& otherwise) {
    command.add_option("-o,--output", output, "Where to write; - is standard output. Otherwise " + otherwise)
        ->type_name("OUT");
}

void add_language(CLI::App& command, std::optional<meaning::Language>& language) {
    static const std::map<std::string, meaning::Language> languages = [] {
        std::map<std::string, meaning::Language> codes;
        for (const meaning::Language each : meaning::all_languages) {
            codes.emplace(meaning::code(each), each);
        }
        return codes;
    }();
    command.add_option("--language", language, "en, fr, de or es; otherwise the one that the system is written in")
        ->transform(CLI::CheckedTransformer(languages).description(""))
        ->type_name("LANG");
}

// CLI11 may quote the arguments in what it says; they could hold anything.
std::string fit_to_print(const std::string& text) {
    std::string out;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        out += text::printable(line) + "\n";
    }
    return out;
}

} // namespace

Arguments read_arguments(int count, const char* const* words, std::string_view version) {
    CLI::App app{about, "curbstop"};
    app.footer(std::string(first_steps) + statuses);
    app.require_subcommand(1);
    app.set_version_flag("--version", "curbstop " + std::string(version));
    app.get_formatter()->column_width(28);

    CheckArguments check;
    CLI::App* check_command = app.add_subcommand("check", "Prove the procedures of files, or say what is wrong");
    check_command->add_option("files", check.files, "The .curb files; - is standard input")
        ->required()
        ->type_name("FILE");
    add_form(*check_command, check.form, {{"text", CheckForm::text}, {"json", CheckForm::json}}, "text or json");
    add_common(*check_command, check.common);
    check_command->footer(std::string(check_help) + statuses);

    SheetArguments sheet;
    CLI::App* sheet_command = app.add_subcommand("sheet", "Print proved procedures as sheets to work by");
    add_file(*sheet_command, sheet.file);
    sheet_command->add_option("--procedure", sheet.procedure, "Its name; all of them where it is left out")
        ->type_name("NAME");
    add_form(*sheet_command, sheet.form,
             {{"html", SheetForm::html}, {"markdown", SheetForm::markdown}, {"json", SheetForm::json}},
             "html, markdown or json");
    add_output(*sheet_command, sheet.output, "a file here, named after the procedure");
    sheet_command->add_flag("--no-pictures", sheet.no_pictures,
                            "Without drawings of the system and of what each step moves (html has them)");
    add_language(*sheet_command, sheet.language);
    sheet_command->add_flag("--pocket", sheet.pocket,
                            "The pocket form, for who knows the sheet: figures and waits (html only)");
    add_common(*sheet_command, sheet.common);
    sheet_command->footer(std::string(sheet_help) + statuses);

    TraceArguments trace;
    CLI::App* trace_command = app.add_subcommand("trace", "Show what is where after a step, and since when");
    add_file(*trace_command, trace.file);
    trace_command->add_option("--after", trace.after, "Number of the step; 0 is the start")->required()->type_name("N");
    add_procedure(*trace_command, trace.procedure);
    trace_command->add_option("--of", trace.of, "Only this part, cover, end or vessel, by its name in the file")
        ->type_name("PART");
    add_form(*trace_command, trace.form, {{"text", CheckForm::text}, {"json", CheckForm::json}}, "text or json");
    add_output(*trace_command, trace.output, "standard output");
    add_common(*trace_command, trace.common);
    trace_command->footer(std::string(trace_help) + statuses);

    DrawArguments draw;
    CLI::App* draw_command = app.add_subcommand("draw", "Draw the system as SVG");
    add_file(*draw_command, draw.file);
    CLI::Option* after =
        draw_command->add_option("--after", draw.after, "Show how things stand after this step")->type_name("N");
    add_procedure(*draw_command, draw.procedure)->needs(after);
    draw_command->add_option("--zone", draw.zone, "Only this zone, by its name in the file, and where its pipes lead")
        ->type_name("NAME");
    add_output(*draw_command, draw.output, "a file here, named after the system (and the zone)");
    add_language(*draw_command, draw.language);
    add_common(*draw_command, draw.common);
    draw_command->footer(std::string(draw_help) + statuses);

    if (count > 1 && words[1][0] != '-' && words[1][0] != '\0' &&
        std::ranges::none_of(app.get_subcommands({}),
                             [&](const CLI::App* command) { return command->get_name() == words[1]; })) {
        return Answer{"curbstop: " + fit_to_print("there is no command `" + std::string(words[1]) +
                                                  "`: there are check, sheet, trace and draw"),
                      unusable};
    }
    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        std::ostringstream out;
        std::ostringstream complaint;
        const int code = app.exit(error, out, complaint);
        if (code == 0) {
            return Answer{out.str(), proved};
        }
        return Answer{"curbstop: " + fit_to_print(complaint.str()), unusable};
    }
    if (check_command->parsed()) {
        return check;
    }
    if (sheet_command->parsed()) {
        return sheet;
    }
    if (trace_command->parsed()) {
        return trace;
    }
    return draw;
}

} // namespace curbstop::command
