#include "output/markdown.h"

#include "output/clean_text.h"
#include "output/limits.h"
#include "output/words.h"

#include <fmt/format.h>

#include <iterator>
#include <span>
#include <utility>

namespace curbstop::output {
namespace {

std::string escaped(std::string_view text) {
    return markdown_escaped(text, false);
}

std::string words(const Phrase& phrase) {
    std::string out;
    for (const Piece& piece : phrase) {
        if (piece.label) {
            out += "**" + escaped(piece.text) + "**";
        } else {
            out += markdown_escaped(piece.text, out.empty());
        }
    }
    return out;
}

std::string condition_mark(const std::string& condition) {
    return condition.empty() ? std::string() : " *(" + escaped(condition) + ")*";
}

class Writer {
  public:
    explicit Writer(const Sheet& sheet)
        : sheet_(&sheet) {}

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
        put("\n## What it looks like\n\n");
        for (const PartPhoto& each : sheet_->photos) {
            put("- **{}**: {} ({})\n", escaped(each.part),
                escaped(one_line((*sheet_->all_photos)[each.photo.value].words)), escaped(photo_file(each.photo)));
        }
    }

    void clauses(std::span<const std::string_view> all) {
        for (const std::string_view clause : all) {
            put("- {}\n", markdown_escaped(clause, true));
        }
    }

    void head() {
        put("# {}\n\n**{}**\n", markdown_escaped(sheet_->procedure, true), escaped(sheet_->system));
        if (!sheet_->about.empty()) {
            put("\n{}\n", markdown_escaped(sheet_->about, true));
        }
        put("\n> {}\n\n## Proved\n\n{}\n\n", escaped(replaces_nothing()), escaped(checked_words(*sheet_)));
        clauses(always_proved());
        for (const Phrase& result : sheet_->results) {
            put("- at the end: {}\n", words(result));
        }
        if (sheet_->stands_as_listed) {
            put("- at the end: everything stands as the last table says\n");
        }
        put("\n## Not proved\n\nNobody but you looks after this:\n\n");
        for (const Phrase& each : sheet_->not_proved) {
            put("- {}\n", words(each));
        }
        clauses(never_proved());
    }

    void task_list(std::string_view heading, const std::vector<BringItem>& items) {
        if (items.empty()) {
            return;
        }
        put("\n### {}\n\n", heading);
        for (const BringItem& item : items) {
            put("- [ ] {}{}\n", words(item.text), condition_mark(item.condition));
        }
    }

    void preparation() {
        const Preparation& before = sheet_->preparation;
        put("\n## Before you start\n");
        if (!before.options.empty()) {
            put("\n### Yours may have\n\nTick what yours has. What is marked “only with” or “only without” goes by "
                "it.\n\n");
            for (const OptionItem& option : before.options) {
                put("- [ ] {}\n", markdown_escaped(option.label, true));
            }
        }
        task_list("Wear", before.wear);
        task_list("Bring", before.bring);
        cards(sheet_->quantities);
        task_list("Covers that will be opened", before.covers);
        walk(before);
        cards(before.cards);
        if (!before.signals.empty()) {
            put("\n### Signal words on this sheet\n\n");
            for (const meaning::Signal signal : before.signals) {
                put("- **{}** {}\n", signal_word(signal), escaped(signal_meaning(signal)));
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
        for (const std::string& column : info.columns) {
            put(" {} |", escaped(column));
        }
        out_ += "\n|";
        for (std::size_t i = 0; i < info.columns.size(); ++i) {
            out_ += " --- |";
        }
        for (const std::vector<std::string>& row : info.rows) {
            out_ += "\n|";
            for (const std::string& cell : row) {
                put(" {} |", escaped(cell));
            }
        }
        out_ += "\n";
    }

    void walk(const Preparation& before) {
        if (!before.walk.empty()) {
            put("\n### The way\n\n");
            const std::string_view between = before.walk.size() == before.place_changes + 1 ? " → " : ", ";
            for (std::size_t i = 0; i < before.walk.size(); ++i) {
                put("{}{}", i == 0 ? "" : between, markdown_escaped(before.walk[i], i == 0));
            }
            out_ += '\n';
            if (const std::string changes = walk_words(before); !changes.empty()) {
                put("\n{}\n", changes);
            }
        }
        if (!before.helper_steps.empty()) {
            std::vector<Phrase> steps;
            for (const std::uint32_t step : before.helper_steps) {
                steps.push_back(phrase(std::to_string(step)));
            }
            put("\n### Helper\n\nA second person is needed in step{} {}.\n", steps.size() > 1 ? "s" : "",
                plain(joined(steps, "and")));
        }
    }

    void start() {
        if (!sheet_->as_left_by.empty()) {
            put("\nEverything stands as **{}** left it. If anyone has moved anything since, put it back first.\n",
                escaped(sheet_->as_left_by));
        }
        if (!sheet_->before.empty()) {
            put("\n### It all holds only if these stand so before the first step\n\n"
                "Whatever is not listed may stand in any way.\n\n");
            table(sheet_->before);
        }
        if (!sheet_->requirements.empty()) {
            put("\nAnd this must be so:\n\n");
            for (const Phrase& requirement : sheet_->requirements) {
                put("- {}\n", words(requirement));
            }
        }
    }

    void table(const std::vector<StandingGroup>& groups) {
        put("| Place | Part | Stands |\n| --- | --- | --- |\n");
        for (const StandingGroup& group : groups) {
            for (const StandingRow& row : group.rows) {
                put("| {} | {}{} | **{}** |\n", group.place.empty() ? "Anywhere" : escaped(group.place),
                    escaped(row.what), condition_mark(row.condition), escaped(row.how));
            }
        }
    }

    void blocks(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            if (block.kind == BlockKind::step) {
                step(block.step);
                continue;
            }
            put("\n---\n\n{}, from here to the end of this part.\n", words(block.heading));
            lines_apart(block.opening);
            this->blocks(block.blocks);
            lines_apart(block.closing);
            put("\nEnd of this part: {}.\n\n---\n", words(block.heading));
        }
    }

    void step(const SheetStep& step) {
        put("\n### {}. {}\n", step.number, escaped(step.title));
        if (!step.go_to.empty()) {
            put("\n→ Go to **{}**.\n", escaped(step.go_to));
        }
        if (step.zones.size() > 1) {
            std::vector<Phrase> zones;
            for (const std::string& zone : step.zones) {
                zones.push_back(phrase(label(zone)));
            }
            put("\nPlaces: {}.\n", words(joined(zones, "and")));
        }
        if (step.helper) {
            put("\nA second person is needed.\n");
        }
        lines_apart(step.lines);
        state(step);
    }

    void state(const SheetStep& step) {
        if (!step.judged) {
            return;
        }
        for (const HeldBackLine& held : step.held_back) {
            const std::string by = held.as_in_step > 0 ? fmt::format("as in step {}", held.as_in_step)
                                                       : "from here on by " + words(joined(held.barriers, "and"));
            put("\nHeld back from {} {}.\n", escaped(held.source), by);
        }
        if (step.safe_to_stop) {
            put("\n**Safe to stop here.**\n");
            return;
        }
        std::vector<Phrase> running;
        for (const std::string& source : step.running) {
            running.push_back(phrase(label(source)));
        }
        put("\n**Do not leave it like this:** {}.\n",
            running.empty() ? "something may still be running out" : words(joined(running, "and")) + " may be on");
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
                put("{}- **{}:** {}\n", indent, signal_word(caution.signal), escaped(caution.text));
            }
            this->line(line, indent);
            for (const Phrase& item : line.items) {
                put("{}  - {}\n", indent, words(item));
            }
            lines(line.body, depth + 1);
        }
    }

    void line(const Line& line, const std::string& indent) {
        const std::string text =
            words(line.text) + (line.place.empty() ? "" : " – " + escaped(line.place)) + condition_mark(line.condition);
        switch (line.kind) {
        case LineKind::act:
        case LineKind::check:
        case LineKind::bring:
        case LineKind::wear:
            put("{}- [ ] {}\n", indent, text);
            break;
        case LineKind::see:
            put("{}- You should see: {}\n", indent, text);
            break;
        case LineKind::watch:
            put("{}- Watch: {}\n", indent, text);
            break;
        case LineKind::note:
            put("{}- Note: {}\n", indent, text);
            break;
        case LineKind::estimate:
            put("{}- About: {}\n", indent, text);
            break;
        case LineKind::proved:
            put("{}- Proved: {}\n", indent, text);
            break;
        case LineKind::helper:
            put("{}- Helper: {}\n", indent, text);
            break;
        case LineKind::photo:
            put("{}- Photograph: {} ({})\n", indent, text, escaped(photo_file(line.photo)));
            break;
        case LineKind::record:
            put("{}- Record: {}: \\_\\_\\_\\_\\_\\_\\_\\_ {}\n", indent, text, escaped(line.unit));
            break;
        case LineKind::hold:
        case LineKind::conditional:
        case LineKind::in_case:
        case LineKind::repeat:
            put("{}- {}\n", indent, text);
            break;
        case LineKind::only_cautions:
            break;
        }
    }

    void after() {
        put("\n## When you are done\n");
        if (!sheet_->after.empty()) {
            put("\nHow everything stands after the last step:\n\n");
            table(sheet_->after);
        }
        put("\n- Done on: \\_\\_\\_\\_\\_\\_\\_\\_\n- By: \\_\\_\\_\\_\\_\\_\\_\\_\n");
        records();
        if (!sheet_->next.lines.empty()) {
            cards({sheet_->next});
        }
        tags();
        if (!sheet_->volumes.rows.empty()) {
            put("\n## What everything holds\n\nPipes by their bore and length, the rest as the maker or the author "
                "says. "
                "Bends and fittings are not counted.\n");
            info_table(sheet_->volumes);
        }
        put("\n---\n\n"
            "Procedure `{}`, content version `{}`: SHA-256 of the texts that this sheet was made from. "
            "Made by Curbstop {}.\n",
            sheet_->procedure_name, sheet_->info.content_version, escaped(sheet_->info.tool_version));
    }

    void records() {
        const RecordSheet& records = sheet_->records;
        if (records.rows.empty()) {
            return;
        }
        put("\n### {}\n\n{}\n", markdown_escaped(records.heading, true), markdown_escaped(records.lead, true));
        InfoTable table{records.columns, {}};
        for (const RecordSheet::Row& row : records.rows) {
            const std::string what = row.what + (row.condition.empty() ? "" : " (" + row.condition + ")");
            table.rows.push_back({std::to_string(row.step), what, row.unit, {}});
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
            for (const std::string& how : tag.stands) {
                put("  - **{}**\n", escaped(how));
            }
            for (const Phrase& rule : tag.rules) {
                put("  - {}\n", words(rule));
            }
            put("  - {}{}\n", tag.place.empty() ? "" : escaped(tag.place) + ". ", escaped(tag.since));
            for (const std::string& field : sheet_->tags.fields) {
                put("  - {}: \\_\\_\\_\\_\\_\\_\\_\\_\\_\n", escaped(field));
            }
        }
    }

    const Sheet* sheet_;
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
