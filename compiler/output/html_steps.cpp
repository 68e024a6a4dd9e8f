#include "output/html_escape.h"
#include "output/html_parts.h"

#include <fmt/format.h>

#include <algorithm>
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
    case LineKind::leave_so:
        return "leave-so";
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

/// A step that may take more rows than this in a column of a printed page is laid out so that it can be split, with
/// its heading repeated; any other stays whole.
constexpr std::size_t longest_on_a_page = 34;
constexpr std::size_t letters_in_a_row = 38; // of 9 pt, beside a picture

/// So many things to have at hand in one step are what the list before the steps is for.
constexpr std::ptrdiff_t worth_a_list = 3;

/// Nobody keeps a longer wait in mind: its times are written down.
constexpr std::uint64_t long_wait = 600; // seconds

std::size_t rows(const Phrase& phrase) {
    std::size_t letters = 0;
    for (const Piece& piece : phrase) {
        letters += piece.text.size();
    }
    return 1 + letters / letters_in_a_row;
}

std::size_t rows(const std::vector<Line>& lines) {
    std::size_t count = 0;
    for (const Line& line : lines) {
        count += rows(line.text) + (line.place.size() + line.condition.size()) / letters_in_a_row + rows(line.body);
        for (const Caution& caution : line.cautions) {
            count += 2 + caution.text.size() / letters_in_a_row;
        }
        for (const Phrase& item : line.items) {
            count += rows(item);
        }
    }
    return count;
}

/// Something in it is ticked off or filled in; else the step as a whole is.
bool has_box(const std::vector<Line>& lines) {
    return std::ranges::any_of(lines, [](const Line& line) {
        switch (line.kind) {
        case LineKind::act:
        case LineKind::check:
        case LineKind::bring:
        case LineKind::wear:
        case LineKind::record:
            return true;
        case LineKind::see:
        case LineKind::watch:
        case LineKind::note:
        case LineKind::photo:
        case LineKind::estimate:
        case LineKind::proved:
        case LineKind::helper:
        case LineKind::leave_so:
        case LineKind::only_cautions:
            return false;
        case LineKind::hold:
        case LineKind::conditional:
        case LineKind::in_case:
        case LineKind::repeat:
            return has_box(line.body);
        }
        return false;
    });
}

class StepWriter {
  public:
    explicit StepWriter(const Sheet& sheet)
        : sheet_(&sheet)
        , tongue_(sheet.language) {}

    [[nodiscard]] std::string take() { return std::exchange(out_, {}); }

    /// Names those to whom the lines that come belong: in the record, ticks and fields are counted from there.
    void owner(std::string name) {
        owner_ = std::move(name);
        counted_ = 0;
    }

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
        const bool listed = std::ranges::count(lines, LineKind::bring, &Line::kind) >= worth_a_list;
        if (listed) { // all of it stands before the steps: paper need not have it twice
            put("<li class=\"line on-paper\"><p class=\"tick\"><span class=\"square\"></span> "
                "<span>{}</span></p></li>\n",
                html_escaped(tongue_.text(Saying::all_at_hand)));
        }
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const Line& each = lines[i];
            // How much and how long goes with what it is about: on paper in the same row.
            const bool estimated =
                each.kind == LineKind::act && i + 1 < lines.size() && lines[i + 1].kind == LineKind::estimate;
            line(each, listed && each.kind == LineKind::bring ? " listed" : "", estimated ? &lines[i + 1] : nullptr);
            i += estimated ? 1 : 0;
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
        const std::string id = fmt::format("box-{}", boxes_);
        // What mostly does not happen is not in the way of those to whom it does not: a question, and what to do if so.
        const bool in_case = block.kind == BlockKind::in_case;
        put("<div class=\"box {}{}\" role=\"group\" aria-labelledby=\"{}\"{}>\n<p class=\"box-head{}\" "
            "id=\"{}\">{}</p>\n",
            kind, in_case ? " fold" : "", id, html_applies(block.applies), in_case ? " fold-head" : "", id,
            html_phrase(block.heading));
        if (in_case) {
            put("<div class=\"happened\" data-needs-script hidden>{}</div>\n",
                html_tick(id + "-happened", html_escaped(tongue_.text(Saying::screen_happened))));
        }
        owner(id);
        rounds(block.rounds);
        lines(block.opening);
        blocks(block.blocks);
        owner(id + "-end");
        lines(block.closing);
        if (block.kind == BlockKind::repeat && block.rounds > 1) {
            out_ += html_rounds(id, block.rounds, tongue_);
        }
        out_ += "</div>\n";
    }

    // On paper the boxes of a step are ticked once; how often it was gone through is ticked here.
    void rounds(std::uint64_t count) {
        constexpr std::uint64_t most = 12;
        if (count < 2 || count > most) {
            return;
        }
        put("<p class=\"rounds on-paper\" aria-hidden=\"true\">{}: ", html_escaped(tongue_.text(Saying::rounds_done)));
        for (std::uint64_t i = 0; i < count; ++i) {
            out_ += "<span class=\"square\"></span> ";
        }
        out_ += "</p>\n";
    }

    void step(const SheetStep& step) {
        if (!step.go_to.empty()) {
            put("<p class=\"go\">{}</p>\n", html_phrase(tongue_.say<Saying::go_to>(in<"place">(label(step.go_to)))));
        }
        put("<article class=\"step{}\" id=\"step-{}\">\n<h3><span class=\"number\">{}</span> {}<span "
            "class=\"title\">{}</span></h3>\n",
            rows(step.lines) > longest_on_a_page ? " long" : "", step.number, step.number,
            has_box(step.lines) ? "" : "<span class=\"square on-paper\"></span> ", html_label(step.title));
        step_ = step.number;
        owner(fmt::format("step-{}", step.number));
        if (step.zones.size() > 1) {
            put("<p class=\"zones\">{}</p>\n", html_phrase(places_words(*sheet_, step)));
        }
        out_ += html_picture(*sheet_, step.number);
        looks(step);
        lines(step.lines);
        if (counted_ == 0) { // nothing to tick off: on screen, the step as a whole can be
            put("<div class=\"whole\">{}</div>\n",
                html_tick(next_id(), html_escaped(tongue_.text(Saying::screen_whole))));
        }
        state(step);
        out_ += "</article>\n";
    }

    /// What was shown before is not carried along twice: it is named, with the step where it is.
    void photo(const Line& line) {
        if (sheet_->all_photos == nullptr || line.photo.value >= sheet_->all_photos->size()) {
            return;
        }
        const auto& bytes = (*sheet_->all_photos)[line.photo.value].bytes;
        const auto before = std::ranges::find_if(
            shown_, [&](const auto& each) { return (*sheet_->all_photos)[each.first.value].bytes == bytes; });
        if (before == shown_.end()) {
            shown_.emplace_back(line.photo, step_);
            out_ += html_photo(*sheet_, line.photo, plain(line.text));
            return;
        }
        Piece step{plain(tongue_.say<Saying::step_number>(in<"number">(tongue_.number(before->second))))};
        step.step = before->second;
        put("<p><span class=\"tag\">{}</span> {}</p>\n", html_escaped(tongue_.text(Saying::tag_photo)),
            html_phrase(tongue_.say<Saying::standing>(in<"what">(line.text), in<"how">(step))));
    }

    // A photograph is in the sheet once, however often its part is worked.
    void looks(const SheetStep& step) {
        for (std::size_t i = 0; i < sheet_->photos.size(); ++i) {
            const PartPhoto& photo = sheet_->photos[i];
            if (std::ranges::find(photo.steps, step.number) != photo.steps.end()) {
                put("<p class=\"looks\"><a href=\"#photo-{}\">{}</a></p>\n", i + 1,
                    html_phrase(tongue_.say<Saying::tagged>(in<"tag">(tongue_.text(Saying::photos_heading)),
                                                            in<"text">(photo.part))));
            }
        }
    }

    void state(const SheetStep& step) {
        if (!step.break_off.empty()) {
            put("<div class=\"state\">\n<p class=\"stop\">{}</p>\n</div>\n", html_phrase(step.break_off));
        }
    }

    void line(const Line& line, std::string_view more, const Line* estimate) {
        put("<li class=\"line {}{}\"{}{}>\n", line_class(line.kind), more, html_applies(line.applies),
            line.wait_seconds > 0 ? fmt::format(" data-wait=\"{}\"", line.wait_seconds) : std::string());
        for (const Caution& caution : line.cautions) {
            out_ += html_caution(caution, tongue_);
        }
        const std::string where = line.place.empty()
                                      ? std::string()
                                      : fmt::format(" <span class=\"place\">{}</span>", html_label(line.place));
        const std::string expect =
            estimate == nullptr
                ? std::string()
                : fmt::format(" <span class=\"expect\"><span class=\"tag\">{}</span> {}</span>",
                              html_escaped(tag_of(LineKind::estimate, tongue_)), html_phrase(estimate->text));
        const std::string words = html_phrase(line.text) + where + html_condition(line.condition) + expect;
        switch (line.kind) {
        case LineKind::act:
        case LineKind::check:
        case LineKind::bring:
        case LineKind::wear:
            if (line.kind == LineKind::check && line.items.size() > 1) { // each is ticked by itself
                put("<p>{}</p>\n", words);
            } else if (line.wait_seconds > 0) {
                const std::string id = next_id();
                put("{}\n{}", html_tick(id, words), html_wait(id, plain(line.text), tongue_));
            } else {
                put("{}\n", html_tick(next_id(), words));
            }
            if (line.wait_seconds >= long_wait) {
                put("<p class=\"clock on-paper\" aria-hidden=\"true\">{} <span></span> {} <span></span></p>\n",
                    html_escaped(tongue_.text(Saying::wait_started)),
                    html_escaped(tongue_.text(Saying::wait_not_before)));
            }
            break;
        case LineKind::record:
            out_ += html_field(next_id(), words, plain(line.text), line, tongue_);
            break;
        case LineKind::see:
        case LineKind::watch:
        case LineKind::note:
        case LineKind::estimate:
        case LineKind::helper:
            put("<p><span class=\"tag\">{}</span> {}</p>\n", html_escaped(tag_of(line.kind, tongue_)), words);
            break;
        case LineKind::proved:
        case LineKind::leave_so:
            put("<p>{}</p>\n", words);
            break;
        case LineKind::photo:
            photo(line);
            break;
        case LineKind::hold:
        case LineKind::conditional:
        case LineKind::in_case:
        case LineKind::repeat:
            put("<p class=\"box-head\">{}</p>\n", words);
            rounds(line.rounds);
            lines(line.body);
            if (line.kind == LineKind::repeat && line.rounds > 1) {
                out_ += html_rounds(fmt::format("{}-r{}", owner_, counted_ + 1), line.rounds, tongue_);
            }
            break;
        case LineKind::only_cautions:
            break;
        }
        if (!line.items.empty()) {
            out_ += "<ul class=\"items\">\n";
            for (const Phrase& item : line.items) {
                put("<li>{}</li>\n", line.kind == LineKind::check && line.items.size() > 1
                                         ? html_tick(next_id(), html_phrase(item))
                                         : html_phrase(item));
            }
            out_ += "</ul>\n";
        }
        out_ += "</li>\n";
    }

    [[nodiscard]] std::string next_id() { return fmt::format("{}-{}", owner_, ++counted_); }

    const Sheet* sheet_;
    Tongue tongue_;
    std::string out_;
    std::string owner_;
    unsigned counted_ = 0;
    unsigned boxes_ = 0;
    std::uint32_t step_ = 0;
    std::vector<std::pair<meaning::PhotoId, std::uint32_t>> shown_; ///< and in which step
};

} // namespace

std::string html_stages(const Sheet& sheet) {
    StepWriter writer(sheet);
    const Tongue tongue(sheet.language);
    std::string out = fmt::format("<p class=\"bars on-paper\" aria-hidden=\"true\">{}</p>\n",
                                  html_escaped(tongue.text(Saying::bars_explained)));
    if (!sheet.before.empty()) {
        fmt::format_to(
            std::back_inserter(out),
            "<p class=\"not-compared\" id=\"not-compared\" data-needs-script hidden><a href=\"#before\">{}</a> "
            "<span class=\"tally\"></span></p>\n",
            html_escaped(tongue.text(Saying::screen_not_compared)));
    }
    out += "<div class=\"stages\">\n";
    for (std::size_t i = 0; i < sheet.stages.size(); ++i) {
        const SheetStage& stage = sheet.stages[i];
        writer.owner(fmt::format("stage-{}", i + 1));
        writer.lines(stage.opening);
        writer.blocks(stage.blocks);
        writer.owner(fmt::format("stage-{}-end", i + 1));
        writer.lines(stage.closing);
        fmt::format_to(std::back_inserter(out),
                       "<section class=\"stage\">\n<h2 id=\"stage-{0}\">{1}</h2>\n{2}"
                       "</section>\n",
                       i + 1, html_label(stage.label), writer.take());
    }
    return out + "</div>\n";
}

} // namespace curbstop::output
