#include "output/markdown.h"

#include "output/clean_text.h"
#include "output/limits.h"
#include "output/words.h"

#include <fmt/format.h>

#include <concepts>

#include <iterator>
#include <string_view>
#include <utility>

namespace curbstop::output {
namespace {

std::string escaped(std::string_view text) {
    return output::markdown_escaped(text, false);
}
template <std::same_as<Wording> Text>
std::string escaped(const Text& text) {
    return markdown_words(text, false);
}
template <std::same_as<Wording> Text>
std::string markdown_escaped(const Text& text, bool starts_line) {
    return markdown_words(text, starts_line);
}
using output::markdown_escaped;

std::string words(const Phrase& phrase) {
    std::string out;
    for (const Piece& piece : phrase) {
        if (piece.label) {
            out += "**" + escaped(piece.text) + "**";
        } else if (piece.code) {
            out += "`" + std::string(piece.text) + "`";
        } else {
            out += markdown_escaped(piece.text, out.empty());
        }
    }
    return out;
}

// A place to write on.
constexpr std::string_view blank = "\\_\\_\\_\\_\\_\\_\\_\\_";

std::string condition_mark(const Wording& condition) {
    return condition.empty() ? std::string() : " *(" + escaped(condition) + ")*";
}

class Writer {
  public:
    explicit Writer(const Sheet& sheet)
        : sheet_(&sheet)
        , tongue_(sheet.language) {}

    std::string write() {
        head();
        preparation();
        photos();
        for (const SheetStage& stage : sheet_->stages) {
            put("\n## {}\n", markdown_escaped(stage.label, true));
            lines_apart(stage.opening);
            blocks(stage.blocks);
            lines_apart(stage.closing);
        }
        after();
        return std::move(out_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    [[nodiscard]] std::string photo_file(meaning::PhotoId id) const {
        return one_line((*sheet_->all_photos)[id.value].file);
    }
    void photos() {
        if (sheet_->photos.empty()) {
            return;
        }
        put("\n## {}\n\n", text(Saying::photos_heading));
        for (const PartPhoto& each : sheet_->photos) {
            put("- {} ({})\n", tagged(fmt::format("**{}**", escaped(each.part)), escaped(each.words)),
                escaped(photo_file(each.photo)));
        }
    }

    /// What is said whole, escaped.
    [[nodiscard]] std::string text(Saying what) const { return markdown_escaped(tongue_.text(what), true); }

    /// "Note: …", with a tag or the name of a field before it.
    [[nodiscard]] std::string tagged(const std::string& tag, std::string_view written) const {
        // The words are escaped already, and the tag is ours.
        return plain(tongue_.say<Saying::tagged>(in<"tag">(tag), in<"text">(std::string(written))));
    }

    void clauses(const std::vector<std::string>& all) {
        for (const std::string& clause : all) {
            put("- {}\n", markdown_escaped(clause, true));
        }
    }

    void head() {
        put("# {}\n\n**{}**\n", markdown_escaped(sheet_->procedure, true), escaped(sheet_->system));
        if (!sheet_->about.empty()) {
            put("\n{}\n", markdown_escaped(sheet_->about, true));
        }
        put("\n> {}\n\n## {}\n\n{}\n\n", escaped(tongue_.text(Saying::replaces_nothing)), text(Saying::proved),
            escaped(checked_words(*sheet_)));
        clauses(always_proved(tongue_));
        for (const Phrase& result : sheet_->results) {
            put("- {}\n", words(tongue_.say<Saying::at_the_end>(in<"what">(result))));
        }
        if (sheet_->stands_as_listed) {
            put("- {}\n", text(Saying::stands_as_listed));
        }
        put("\n## {}\n\n{}\n\n", text(Saying::not_proved), text(Saying::nobody_but_you));
        for (const Phrase& each : sheet_->not_proved) {
            put("- {}\n", words(each));
        }
        clauses(never_proved(tongue_));
    }

    void task_list(Saying heading, const std::vector<BringItem>& items) {
        if (items.empty()) {
            return;
        }
        put("\n### {}\n\n", text(heading));
        for (const BringItem& item : items) {
            put("- [ ] {}{}\n", words(item.text), condition_mark(item.condition));
        }
    }

    void preparation() {
        const Preparation& before = sheet_->preparation;
        put("\n## {}\n", text(Saying::before_you_start));
        if (!before.options.empty()) {
            put("\n### {}\n\n{}\n\n", text(Saying::yours_may_have), text(Saying::tick_yours));
            for (const OptionItem& option : before.options) {
                put("- [ ] {}\n", markdown_escaped(option.label, true));
            }
        }
        task_list(Saying::heading_wear, before.wear);
        task_list(Saying::heading_bring, before.bring);
        cards(sheet_->quantities);
        task_list(Saying::heading_covers, before.covers);
        walk(before);
        cards(before.cards);
        if (!before.signals.empty()) {
            put("\n### {}\n\n", text(Saying::heading_signals));
            for (const meaning::Signal signal : before.signals) {
                put("- **{}** {}\n", signal_word(signal, tongue_), escaped(signal_meaning(signal, tongue_)));
            }
        }
        start();
    }

    void cards(const std::vector<InfoCard>& all) {
        const auto paragraphs = [&](const std::vector<Phrase>& lines) {
            for (const Phrase& line : lines) {
                put("\n{}\n", words(line));
            }
        };
        for (const InfoCard& card : all) {
            put("\n### {}\n", markdown_escaped(card.heading, true));
            paragraphs(card.lines);
            if (!card.table.rows.empty()) {
                info_table(card.table);
            }
            paragraphs(card.after);
        }
    }

    void info_table(const InfoTable& info) {
        out_ += "\n|";
        for (const Wording& column : info.columns) {
            put(" {} |", escaped(column));
        }
        out_ += "\n|";
        for (std::size_t i = 0; i < info.columns.size(); ++i) {
            out_ += " --- |";
        }
        for (const std::vector<Wording>& row : info.rows) {
            out_ += "\n|";
            for (const Wording& cell : row) {
                put(" {} |", escaped(cell));
            }
        }
        out_ += "\n";
    }

    void walk(const Preparation& before) {
        if (!before.walk.empty()) {
            put("\n### {}\n\n", text(Saying::heading_way));
            const std::string_view between = before.walk.size() == before.place_changes + 1 ? " → " : ", ";
            for (std::size_t i = 0; i < before.walk.size(); ++i) {
                put("{}{}", i == 0 ? "" : between, markdown_escaped(before.walk[i], i == 0));
            }
            out_ += '\n';
            if (const std::string changes = walk_words(before, tongue_); !changes.empty()) {
                put("\n{}\n", changes);
            }
        }
        if (!before.helper_steps.empty()) {
            put("\n### {}\n\n{}\n", text(Saying::heading_helper), escaped(helper_words(*sheet_)));
        }
    }

    void start() {
        if (!sheet_->as_left_by.empty()) {
            put("\n{}\n", words(as_left_words(*sheet_)));
        }
        if (!sheet_->left.empty()) {
            put("\n### {}\n\n", words(left_heading(*sheet_)));
            table(sheet_->left);
        }
        if (!sheet_->before.empty()) {
            put("\n### {}\n\n{}\n\n", text(Saying::holds_only_if), text(Saying::rest_any_way));
            table(sheet_->before);
        }
        if (!sheet_->requirements.empty()) {
            put("\n{}\n\n", text(Saying::and_this_must_be));
            for (const Phrase& requirement : sheet_->requirements) {
                put("- {}\n", words(requirement));
            }
        }
    }

    void table(const std::vector<StandingGroup>& groups) {
        put("| {} | {} | {} |\n| --- | --- | --- |\n", text(Saying::column_place), text(Saying::column_part),
            text(Saying::column_stands));
        for (const StandingGroup& group : groups) {
            for (const StandingRow& row : group.rows) {
                put("| {} | {}{}{} | **{}** |\n", group.place.empty() ? text(Saying::anywhere) : escaped(group.place),
                    escaped(row.what), condition_mark(row.behind), condition_mark(row.condition), escaped(row.how));
            }
        }
    }

    void blocks(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            if (block.kind == BlockKind::step) {
                step(block.step);
                continue;
            }
            put("\n---\n\n{}\n", words(tongue_.say<Saying::box_begins>(in<"what">(block.heading))));
            lines_apart(block.opening);
            this->blocks(block.blocks);
            lines_apart(block.closing);
            put("\n{}\n\n---\n", words(tongue_.say<Saying::box_ends>(in<"what">(block.heading))));
        }
    }

    void step(const SheetStep& step) {
        put("\n### {}. {}\n", step.number, escaped(step.title));
        if (!step.go_to.empty()) {
            put("\n→ {}.\n", words(tongue_.say<Saying::go_to>(in<"place">(label(step.go_to)))));
        }
        if (step.zones.size() > 1) {
            put("\n{}\n", words(places_words(*sheet_, step)));
        }
        lines_apart(step.lines);
        state(step);
    }

    void state(const SheetStep& step) {
        if (!step.break_off.empty()) {
            put("\n{}\n", words(step.break_off));
        }
    }

    void lines_apart(const std::vector<Line>& all) {
        if (!all.empty()) {
            out_ += '\n';
            lines(all, 0);
        }
    }

    void lines(const std::vector<Line>& all, std::size_t depth) {
        const std::string indent(2 * depth, ' ');
        for (const Line& line : all) {
            for (const Caution& caution : line.cautions) {
                put("{}- {}\n", indent, signal_words(caution));
            }
            this->line(line, indent);
            for (const Phrase& item : line.items) {
                put("{}  - {}\n", indent, words(item));
            }
            lines(line.body, depth + 1);
        }
    }

    void line(const Line& line, const std::string& indent) {
        const std::string written =
            words(line.text) + (line.place.empty() ? "" : " – " + escaped(line.place)) + condition_mark(line.condition);
        switch (line.kind) {
        case LineKind::act:
        case LineKind::check:
        case LineKind::bring:
        case LineKind::wear:
            put("{}- [ ] {}\n", indent, written);
            break;
        case LineKind::see:
        case LineKind::watch:
        case LineKind::note:
        case LineKind::estimate:
        case LineKind::helper:
            put("{}- {}\n", indent, tagged(tag_of(line.kind, tongue_), written));
            break;
        case LineKind::proved:
        case LineKind::leave_so:
            put("{}- {}\n", indent, written);
            break;
        case LineKind::photo:
            put("{}- {} ({})\n", indent, tagged(tongue_.text(Saying::tag_photo), written),
                escaped(photo_file(line.photo)));
            break;
        case LineKind::record:
            put("{}- {} {}\n", indent, tagged(tongue_.text(Saying::tag_record), tagged(written, blank)),
                escaped(line.unit));
            break;
        case LineKind::hold:
        case LineKind::conditional:
        case LineKind::in_case:
        case LineKind::repeat:
            put("{}- {}\n", indent, written);
            break;
        case LineKind::only_cautions:
            break;
        }
    }

    void after() {
        put("\n## {}\n", text(Saying::when_done));
        if (!sheet_->after.empty()) {
            // In Markdown the table has no heading of its own.
            put("\n{}\n\n", words(tongue_.say<Saying::lead_in>(in<"what">(tongue_.text(Saying::stands_after)))));
            table(sheet_->after);
        }
        put("\n- {}\n- {}\n", tagged(tongue_.text(Saying::done_on), blank),
            tagged(tongue_.text(Saying::done_by), blank));
        records();
        if (!sheet_->next.lines.empty()) {
            cards({sheet_->next});
        }
        tags();
        if (!sheet_->staying.rows.empty()) {
            put("\n## {}\n\n{}\n", text(Saying::what_stays_where), text(Saying::staying_explained));
            info_table(sheet_->staying);
        }
        put("\n---\n\n{} {}\n", words(version_words(*sheet_)),
            words(tongue_.say<Saying::made_by>(in<"tool">("Curbstop " + sheet_->info.tool_version))));
    }

    [[nodiscard]] std::string signal_words(const Caution& caution) const {
        // The colon is part of what is bold: its place is the language's.
        const std::string word = plain(tongue_.say<Saying::lead_in>(in<"what">(signal_word(caution.signal, tongue_))));
        return "**" + word + "** " + words(caution_words(caution, tongue_));
    }

    void records() {
        const RecordSheet& records = sheet_->records;
        if (records.rows.empty()) {
            return;
        }
        put("\n### {}\n\n{}\n", markdown_escaped(records.heading, true), markdown_escaped(records.lead, true));
        InfoTable table{records.columns, {}};
        for (const RecordSheet::Row& row : records.rows) {
            const Wording what = row.condition.empty() ? row.what : row.what + " (" + row.condition + ")";
            table.rows.push_back({tongue_.number(row.step), what, row.unit, {}});
        }
        info_table(table);
    }

    void tags() {
        if (sheet_->tags.tags.empty()) {
            return;
        }
        put("\n### {}\n\n{}\n", markdown_escaped(sheet_->tags.heading, true),
            markdown_escaped(sheet_->tags.lead, true));
        for (const Tag& tag : sheet_->tags.tags) {
            put("\n- **{}**{}\n", escaped(tag.what), condition_mark(tag.condition));
            for (const Wording& how : tag.stands) {
                put("  - **{}**\n", escaped(how));
            }
            for (const Phrase& rule : tag.rules) {
                put("  - {}\n", words(rule));
            }
            put("  - {}{}\n", tag.place.empty() ? "" : escaped(tag.place) + ". ", escaped(tag.since));
            for (const std::string& field : sheet_->tags.fields) {
                put("  - {}\n", tagged(field, blank));
            }
        }
    }

    const Sheet* sheet_;
    Tongue tongue_;
    std::string out_;
};

} // namespace

std::string markdown_sheet(const Sheet& sheet) {
    return Writer(sheet).write();
}

std::string markdown_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                           const proofs::ProcedureReport& report, const SheetInfo& info) {
    return markdown_sheet(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
