// What the sheet says besides what the rest of the document holds as data: what to know beforehand, and what is left
// when the last step is done. Composed once for all forms (output/sheet.h); words, not codes.
#include "output/json_parts.h"
#include "output/sheet.h"

namespace curbstop::output {
namespace {

template <class Text>
void strings(text::JsonWriter& json, std::string_view key, const std::vector<Text>& all) {
    json.key(key).begin_array();
    for (const std::string& each : all) {
        json.value(each);
    }
    json.end_array();
}

void phrases(text::JsonWriter& json, std::string_view key, const std::vector<Phrase>& all) {
    json.key(key).begin_array();
    for (const Phrase& each : all) {
        json.value(plain(each));
    }
    json.end_array();
}

void card(text::JsonWriter& json, const InfoCard& card) {
    json.begin_object().member("heading", card.heading);
    phrases(json, "lines", card.lines);
    phrases(json, "after", card.after);
    json.end_object();
}

void tags(text::JsonWriter& json, const TagSheet& sheet) {
    json.key("tags").begin_array();
    for (const Tag& tag : sheet.tags) {
        json.begin_object().member("what", tag.what).member("place", tag.place).member("condition", tag.condition);
        strings(json, "stands", tag.stands);
        phrases(json, "rules", tag.rules);
        json.member("since", tag.since).end_object();
    }
    json.end_array();
}

void records(text::JsonWriter& json, const RecordSheet& sheet) {
    json.key("records").begin_array();
    for (const RecordSheet::Row& row : sheet.rows) {
        json.begin_object().member("step", row.step).member("what", row.what).member("unit", row.unit);
        json.member("condition", row.condition).end_object();
    }
    json.end_array();
}

void briefs(text::JsonWriter& json, const std::vector<Block>& blocks) {
    for (const Block& block : blocks) {
        if (block.kind == BlockKind::step) {
            json.begin_object().member("step", block.step.number).member("words", plain(block.step.brief.words));
            phrases(json, "blanks", block.step.brief.blanks);
            json.end_object();
        }
        briefs(json, block.blocks);
    }
}

} // namespace

void json_sheet(const JsonContext& context, const Sheet& sheet) {
    text::JsonWriter& json = context.json;
    json.key("sheet").begin_object();
    json.key("beforehand").begin_array();
    for (const InfoCard& each : sheet.preparation.cards) {
        card(json, each);
    }
    json.end_array();
    tags(json, sheet.tags);
    records(json, sheet.records);
    json.key("next");
    if (sheet.next.lines.empty()) {
        json.null();
    } else {
        card(json, sheet.next);
    }
    json.key("pocket").begin_array();
    for (const SheetStage& stage : sheet.stages) {
        briefs(json, stage.blocks);
    }
    json.end_array();
    json.end_object();
}

} // namespace curbstop::output
