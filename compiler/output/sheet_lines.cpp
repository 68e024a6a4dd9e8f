#include "output/sheet_lines.h"

#include "output/clean_text.h"
#include "output/limits.h"
#include "output/quantity_words.h"
#include "output/sheet_quantities.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

std::string only_where(const Words& words, ExpressionId condition, const std::vector<std::string>& known) {
    if (condition == Expressions::always()) {
        return {};
    }
    std::vector<Phrase> left;
    for (const Phrase& part : words.expressions(condition)) {
        if (std::find(known.begin(), known.end(), plain(part)) == known.end()) {
            left.push_back(part);
        }
    }
    return left.empty() ? std::string() : "only " + plain(joined(left, "and"));
}

std::string at_most_times(std::uint32_t count) {
    return count == 1 ? "once" : std::to_string(count) + " times";
}

bool LineComposer::say(const Caution& caution) {
    if (std::find(said_.begin(), said_.end(), caution) != said_.end()) {
        return false;
    }
    said_.push_back(caution);
    return true;
}

std::vector<Caution> LineComposer::hazards(VariableId variable, std::uint32_t value) {
    std::vector<Caution> found;
    for (const Hazard& hazard : words_->system().hazards) {
        const Caution caution{hazard.signal, one_line(hazard.text)};
        if (hazard.variable == variable && hazard.value == value && say(caution)) {
            found.push_back(caution);
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Caution& a, const Caution& b) { return a.signal < b.signal; });
    return found;
}

std::vector<Caution> LineComposer::hazards(ChamberId vessel) {
    std::vector<Caution> found;
    const FluidId filling = words_->system()[vessel].fluid;
    if (!words_->system()[vessel].vessel || !filling.valid()) {
        return found;
    }
    for (const Fluid::Warning& warning : words_->system()[filling].warnings) {
        if (const Caution caution{warning.signal, one_line(warning.text)}; say(caution)) {
            found.push_back(caution);
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Caution& a, const Caution& b) { return a.signal < b.signal; });
    return found;
}

std::string LineComposer::place_of(const std::vector<WorkPlace>& places) const {
    std::vector<Phrase> phrases;
    bool covered = false;
    for (const WorkPlace& place : places) {
        phrases.push_back(phrase(words_->place(place)));
        covered = covered || !place.covers.empty();
    }
    std::string text = plain(joined(phrases, "or"));
    if (text == only_place_ && !covered) {
        return {};
    }
    // The step's heading has said where: what is left to say is behind what.
    if (places.size() == 1 && !only_place_.empty() && text.starts_with(only_place_ + ", ")) {
        text.erase(0, only_place_.size() + 2);
    }
    return text;
}

std::string LineComposer::place_of(VariableId variable) const {
    return place_of(words_->places(variable));
}

std::string LineComposer::place_of(PartId part) const {
    return part ? place_of(words_->system()[part].places) : std::string();
}

std::string LineComposer::condition_of(ExpressionId exists) const {
    return only_where(*words_, exists, conditions_);
}

void LineComposer::mark(Line& line, ExpressionId exists) const {
    line.condition = condition_of(exists);
    line.applies = line.condition.empty() ? Applies() : Applies::under(words_->system(), exists);
}

Line LineComposer::setting_line(const Setting& setting) {
    const Variable& variable = words_->system()[setting.variable];
    const Piece what = label(words_->variable(setting.variable));
    Line line;
    line.cautions = hazards(setting.variable, setting.value);
    if (variable.kind == VariableKind::cover) {
        line.text = phrase(setting.value == 0 ? "Shut " : "Open ", what, ".");
    } else {
        line.text = phrase("Set ", what, " to ", label(words_->value(setting.variable, setting.value)), ".");
    }
    line.place = place_of(setting.variable);
    mark(line, variable.exists);
    return line;
}

Line LineComposer::see_line(const Observation& observation) const {
    Line line{LineKind::see};
    line.text = words_->observation(observation);
    return line;
}

std::vector<Line> LineComposer::flow_lines(const Flow& flow) const {
    const auto list = [](const std::vector<std::string>& labels, const std::string& otherwise) {
        std::vector<Phrase> phrases;
        for (const std::string& text : labels) {
            phrases.push_back(phrase(label(one_line(text))));
        }
        return phrases.empty() ? phrase(otherwise) : joined(phrases, "and");
    };
    Line line;
    line.text = phrase(flow.gravity ? "Let it drain from " : "Let it run from ",
                       list(flow.origin_labels, flow.pipes ? "the pipes" : "what is named above"),
                       flow.gravity ? " through " : " to ", list(flow.outlet_labels, "where it leaves"));
    if (flow.at_least) {
        append(line.text, ", at least " + quantity_words(*flow.at_least));
    }
    if (flow.at_most) {
        append(line.text, ", at most " + quantity_words(*flow.at_most));
    }
    if (flow.seen_at) {
        append(line.text, phrase(", and watch ", label(words_->part(flow.seen_at))));
        line.place = place_of(flow.seen_at);
    }
    append(line.text, ".");
    mark(line, flow.parts_exist);
    std::vector<Line> lines{line};
    const quantities::FlowAmount* amount = quantities_ == nullptr ? nullptr : quantities_->of(flow);
    if (amount != nullptr) {
        if (auto estimate = estimate_line(*words_, *amount)) {
            lines.push_back(std::move(*estimate));
        }
    }
    if (flow.until) {
        lines.push_back(see_line(*flow.until));
    }
    for (Line& each : lines) {
        each.applies = line.applies;
    }
    return lines;
}

Line LineComposer::contract_line(ExpressionId expression, bool requires_) const {
    const bool proved = is_proved(words_->system(), expression);
    Line line{proved ? LineKind::proved : LineKind::check};
    const std::vector<Phrase> items = words_->expressions(expression);
    const std::string lead =
        proved ? (requires_ ? "Before this: " : "After this: ") : "Make sure, for it is not proved: ";
    line.text = phrase(lead, joined(items, "and"), ".");
    return line;
}

std::vector<Line> LineComposer::lines(const Statements& statements) {
    std::vector<Line> result;
    std::vector<Caution> pending;
    const auto is_action = [](const Line& line) {
        return line.kind != LineKind::see && line.kind != LineKind::note && line.kind != LineKind::proved &&
               line.kind != LineKind::wear && line.kind != LineKind::bring && line.kind != LineKind::record &&
               line.kind != LineKind::helper && line.kind != LineKind::watch && line.kind != LineKind::photo;
    };
    for (const Statement& each : statements) {
        if (const auto* signal = std::get_if<SignalStatement>(&each.what)) {
            if (const Caution caution{signal->signal, one_line(signal->text)}; say(caution)) {
                pending.push_back(caution);
            }
            continue;
        }
        for (Line& line : statement(each)) {
            if (is_action(line) && !pending.empty()) {
                line.cautions.insert(line.cautions.begin(), pending.begin(), pending.end());
                pending.clear();
            }
            result.push_back(std::move(line));
        }
    }
    if (!pending.empty()) {
        const auto first = std::find_if(result.begin(), result.end(), is_action);
        if (first != result.end()) {
            first->cautions.insert(first->cautions.begin(), pending.begin(), pending.end());
        } else {
            Line line{LineKind::only_cautions};
            line.cautions = std::move(pending);
            result.insert(result.begin(), std::move(line));
        }
    }
    return result;
}

} // namespace curbstop::output
