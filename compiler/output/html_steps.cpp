#include "output/html_escape.h"
#include "output/html_parts.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>

namespace curbstop::output {
namespace {

std::string_view line_class(LineKind kind) {
    switch (kind) {
    case LineKind::act:
        return "act";
    case LineKind::check:
        return "check";
    case LineKind::see:
        return "see";
    case LineKind::watch:
        return "watch";
    case LineKind::note:
        return "note";
    case LineKind::photo:
        return "photo";
    case LineKind::estimate:
        return "estimate";
    case LineKind::proved:
        return "proved";
    case LineKind::record:
        return "record";
    case LineKind::bring:
        return "bring";
    case LineKind::wear:
        return "wear";
    case LineKind::helper:
        return "helper";
    case LineKind::hold:
        return "hold";
    case LineKind::conditional:
        return "conditional";
    case LineKind::in_case:
        return "in-case";
    case LineKind::repeat:
        return "repeat";
    case LineKind::only_cautions:
        return "only-cautions";
    }
    return {};
}

/// What stands before a line that is no action, so that its meaning does not hang on its look.
std::string_view tag_of(LineKind kind) {
    switch (kind) {
    case LineKind::see:
        return "You should see";
    case LineKind::watch:
        return "Watch";
    case LineKind::note:
        return "Note";
    case LineKind::estimate:
        return "About";
    case LineKind::proved:
        return "Proved";
    case LineKind::helper:
        return "Helper";
    case LineKind::act:
    case LineKind::check:
    case LineKind::photo:
    case LineKind::record:
    case LineKind::bring:
    case LineKind::wear:
    case LineKind::hold:
    case LineKind::conditional:
    case LineKind::in_case:
    case LineKind::repeat:
    case LineKind::only_cautions:
        return {};
    }
    return {};
}

class StepWriter {
  public:
    explicit StepWriter(const Sheet& sheet)
        : sheet_(&sheet) {}

    [[nodiscard]] std::string take() { return std::exchange(out_, {}); }

    void blocks(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            if (block.kind == BlockKind::step) {
                step(block.step);
            } else {
                box(block);
            }
        }
    }

    void lines(const std::vector<Line>& lines) {
        if (lines.empty()) {
            return;
        }
        out_ += "<ul class=\"lines\">\n";
        for (const Line& each : lines) {
            line(each);
        }
        out_ += "</ul>\n";
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    void box(const Block& block) {
        const std::string_view kind = block.kind == BlockKind::conditional ? "conditional"
                                      : block.kind == BlockKind::in_case   ? "in-case"
                                      : block.kind == BlockKind::repeat    ? "repeat"
                                                                           : "meanwhile";
        ++boxes_;
        put("<div class=\"box {}\" role=\"group\" aria-labelledby=\"box-{}\">\n<p class=\"box-head\" "
            "id=\"box-{}\">{}</p>\n",
            kind, boxes_, boxes_, html_phrase(block.heading));
        lines(block.opening);
        blocks(block.blocks);
        lines(block.closing);
        out_ += "</div>\n";
    }

    void step(const SheetStep& step) {
        if (!step.go_to.empty()) {
            put("<p class=\"go\">Go to <b>{}</b></p>\n", html_label(step.go_to));
        }
        put("<article class=\"step\" id=\"step-{}\">\n<h3><span class=\"number\">{}</span> {}</h3>\n", step.number,
            step.number, html_label(step.title));
        if (step.zones.size() > 1 || (step.helper && !has_helper_line(step.lines))) {
            std::vector<Phrase> zones;
            for (const std::string& zone : step.zones) {
                zones.push_back(phrase(label(zone)));
            }
            put("<p class=\"zones\">{}{}</p>\n",
                zones.size() > 1 ? "Places: " + html_phrase(joined(zones, "and")) + ". " : std::string(),
                step.helper ? "A second person is needed." : "");
        }
        out_ += html_picture(*sheet_, step.number);
        lines(step.lines);
        state(step);
        out_ += "</article>\n";
    }

    [[nodiscard]] static bool has_helper_line(const std::vector<Line>& lines) {
        for (const Line& line : lines) {
            if (line.kind == LineKind::helper || has_helper_line(line.body)) {
                return true;
            }
        }
        return false;
    }

    void state(const SheetStep& step) {
        if (!step.judged) {
            return;
        }
        out_ += "<div class=\"state\">\n";
        for (const HeldBackLine& held : step.held_back) {
            const std::string by = held.as_in_step > 0
                                       ? fmt::format("as in <a href=\"#step-{0}\">step {0}</a>", held.as_in_step)
                                       : "by " + html_phrase(joined(held.barriers, "and"));
            put("<p class=\"held\"><span class=\"tag\">Held back</span> from {}, {}.</p>\n", html_label(held.source),
                by);
        }
        if (step.safe_to_stop) {
            out_ += "<p class=\"stop safe\"><strong>Safe to stop here.</strong></p>\n";
        } else {
            std::vector<Phrase> running;
            for (const std::string& source : step.running) {
                running.push_back(phrase(label(source)));
            }
            const std::string why = running.empty() ? "something may still be running out"
                                                    : html_phrase(joined(running, "and")) + " may be on";
            put("<p class=\"stop unsafe\"><strong>Do not leave it like this:</strong> {}.</p>\n", why);
        }
        out_ += "</div>\n";
    }

    void line(const Line& line) {
        put("<li class=\"line {}\">\n", line_class(line.kind));
        for (const Caution& caution : line.cautions) {
            out_ += html_caution(caution);
        }
        const std::string where = line.place.empty()
                                      ? std::string()
                                      : fmt::format(" <span class=\"place\">{}</span>", html_label(line.place));
        const std::string words = html_phrase(line.text) + where + html_condition(line.condition);
        switch (line.kind) {
        case LineKind::act:
        case LineKind::check:
        case LineKind::bring:
        case LineKind::wear:
            put("<label class=\"tick\"><input type=\"checkbox\"><span>{}</span></label>\n", words);
            break;
        case LineKind::record:
            put("<label class=\"field\"><span>{}</span> <input type=\"text\" autocomplete=\"off\"> "
                "<span class=\"unit\">{}</span></label>\n",
                words, html_escaped(line.unit));
            break;
        case LineKind::see:
        case LineKind::watch:
        case LineKind::note:
        case LineKind::estimate:
        case LineKind::proved:
        case LineKind::helper:
            put("<p><span class=\"tag\">{}</span> {}</p>\n", tag_of(line.kind), words);
            break;
        case LineKind::photo:
            out_ += html_photo(*sheet_, line.photo);
            break;
        case LineKind::hold:
        case LineKind::conditional:
        case LineKind::in_case:
        case LineKind::repeat:
            put("<p class=\"box-head\">{}</p>\n", words);
            lines(line.body);
            break;
        case LineKind::only_cautions:
            break;
        }
        if (!line.items.empty()) {
            out_ += "<ul class=\"items\">\n";
            for (const Phrase& item : line.items) {
                put("<li>{}</li>\n", html_phrase(item));
            }
            out_ += "</ul>\n";
        }
        out_ += "</li>\n";
    }

    const Sheet* sheet_;
    std::string out_;
    unsigned boxes_ = 0;
};

} // namespace

std::string html_stages(const Sheet& sheet) {
    StepWriter writer(sheet);
    std::string out;
    for (std::size_t i = 0; i < sheet.stages.size(); ++i) {
        const SheetStage& stage = sheet.stages[i];
        writer.lines(stage.opening);
        writer.blocks(stage.blocks);
        writer.lines(stage.closing);
        fmt::format_to(std::back_inserter(out),
                       "<section class=\"stage\">\n<h2 id=\"stage-{0}\">{1}</h2>\n{2}"
                       "</section>\n",
                       i + 1, html_label(stage.label), writer.take());
    }
    return out;
}

} // namespace curbstop::output
