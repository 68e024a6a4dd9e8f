#include "output/sheet_lines.h"

#include "output/clean_text.h"
#include "output/limits.h"
#include "output/quantity_words.h"
#include "output/sheet_quantities.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

Phrase left_to_ask(const Words& words, ExpressionId condition, const std::vector<Wording>& known) {
    if (condition == Expressions::always()) {
        return {};
    }
    std::vector<Phrase> left;
    for (const Phrase& part : words.expressions(condition)) {
        if (std::find(known.begin(), known.end(), plain(part)) == known.end()) {
            left.push_back(part);
        }
    }
    return words.tongue().all_of(left);
}

Wording only_where(const Words& words, ExpressionId condition, const std::vector<Wording>& known) {
    const Phrase left = left_to_ask(words, condition, known);
    return left.empty() ? Wording() : plain(words.tongue().say<Saying::only_where>(in<"condition">(plain(left))));
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
        const Caution caution{hazard.signal, words_->told(hazard.text)};
        if (hazard.variable == variable && hazard.value == value &&
            (!hazard.while_hot || may_be_hot(variable, value)) && say(caution)) {
            found.push_back(caution);
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Caution& a, const Caution& b) { return a.signal < b.signal; });
    return found;
}

bool LineComposer::may_be_hot(VariableId variable, std::uint32_t value) const {
    return known_.hot_moves == nullptr ||
           std::ranges::find(*known_.hot_moves, proofs::HotMove{known_.step, variable, value}) !=
               known_.hot_moves->end();
}

std::vector<Caution> LineComposer::hazards(ChamberId vessel) {
    std::vector<Caution> found;
    const FluidId filling = words_->system()[vessel].fluid;
    if (!words_->system()[vessel].vessel || !filling.valid()) {
        return found;
    }
    for (const Fluid::Warning& warning : words_->system()[filling].warnings) {
        if (const Caution caution{warning.signal, words_->told(warning.text)}; say(caution)) {
            found.push_back(caution);
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Caution& a, const Caution& b) { return a.signal < b.signal; });
    return found;
}

Wording LineComposer::place_of(const std::vector<WorkPlace>& places) const {
    // Of several it is worked at the one where one is.
    if (places.size() > 1 && known_.zones != nullptr) {
        const auto here = std::ranges::find_if(places, [&](const WorkPlace& place) {
            return std::ranges::find(*known_.zones, place.zone) != known_.zones->end();
        });
        if (here != places.end()) {
            return place_of(std::vector{*here});
        }
    }
    std::vector<Phrase> phrases;
    for (const WorkPlace& place : places) {
        phrases.push_back(phrase(words_->place(place)));
    }
    // The step's heading has said where: what is left to say is behind what.
    const auto here = std::ranges::find_if(places, [&](const WorkPlace& place) {
        return !only_place_.empty() && place.zone && words_->zone(place.zone) == only_place_;
    });
    if (here != places.end()) {
        return here->covers.empty() ? Wording() : words_->place({{}, here->covers});
    }
    Wording text = plain(tongue().one_of(phrases));
    return text == only_place_ ? Wording() : text;
}

Wording LineComposer::place_of(VariableId variable) const {
    return place_of(words_->places(variable));
}

Wording LineComposer::place_of(PartId part) const {
    return part ? place_of(words_->system()[part].places) : Wording();
}

Wording LineComposer::condition_of(ExpressionId exists) const {
    return only_where(*words_, exists, conditions_);
}

void LineComposer::mark(Line& line, ExpressionId exists) const {
    line.condition = condition_of(exists);
    line.applies = line.condition.empty() ? Applies() : Applies::under(words_->system(), exists);
}

Line LineComposer::setting_line(const Setting& setting) {
    const Variable& variable = words_->system()[setting.variable];
    const auto what = in<"what">(label(words_->variable(setting.variable)));
    Line line;
    line.puts = setting;
    line.cautions = hazards(setting.variable, setting.value);
    if (variable.kind == VariableKind::cover) {
        line.text =
            setting.value == 0 ? tongue().say<Saying::shut_cover>(what) : tongue().say<Saying::open_cover>(what);
    } else if (Phrase told = words_->to_do(setting.variable, setting.value); !told.empty()) {
        line.text = std::move(told);
    } else {
        line.text =
            tongue().say<Saying::set_to>(what, in<"how">(label(words_->value(setting.variable, setting.value))));
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

std::vector<Phrase> origin_labels(const Words& words, const Flow& flow) {
    std::vector<Phrase> origins;
    for (std::size_t i = 0; i < flow.origin_labels.size(); ++i) {
        const bool pipes = i < flow.origins.size() && flow.origins[i].pipes;
        origins.push_back(
            phrase(label(pipes ? Wording(words.tongue().text(Saying::the_pipes)) : words.told(flow.origin_labels[i]))));
    }
    return origins;
}

Phrase LineComposer::flow_words(const Flow& flow) const {
    const std::vector<Phrase> origins = origin_labels(*words_, flow);
    const auto from = in<"from">(!origins.empty() ? tongue().all_of(origins)
                                 : flow.pipes     ? tongue().say<Saying::the_pipes>()
                                                  : tongue().say<Saying::what_is_named_above>());
    const auto to = in<"to">(flow.outlet_labels.empty() ? tongue().say<Saying::where_it_leaves>()
                                                        : tongue().all_of(words_->labels(flow.outlet_labels)));
    Phrase text = flow.gravity ? tongue().say<Saying::drain_from>(from, to) : tongue().say<Saying::run_from>(from, to);
    Range amounts;
    if (flow.at_least && flow.at_most) {
        amounts = range_words(*flow.at_least, *flow.at_most, tongue());
    } else if (flow.at_least) {
        amounts.least = quantity_words(*flow.at_least, tongue(), Towards::more);
    } else if (flow.at_most) {
        amounts.most = quantity_words(*flow.at_most, tongue(), Towards::less);
    }
    if (flow.at_least) {
        text = tongue().say<Saying::clause_at_least>(in<"what">(text), in<"amount">(amounts.least));
    }
    if (flow.at_most) {
        text = tongue().say<Saying::clause_at_most>(in<"what">(text), in<"amount">(amounts.most));
    }
    if (flow.seen_at) {
        text = tongue().say<Saying::clause_watch>(in<"what">(text), in<"where">(label(words_->part(flow.seen_at))));
    }
    append(text, ".");
    return text;
}

std::vector<Line> LineComposer::flow_lines(const Flow& flow) const {
    Line line;
    line.text = flow_words(flow);
    if (flow.seen_at) {
        line.place = place_of(flow.seen_at);
    }
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

std::vector<Line> LineComposer::contract_lines(ExpressionId expression, bool requires_) const {
    std::vector<Phrase> follows;
    std::vector<Line> lines;
    const auto check = [&](Phrase text) {
        lines.push_back({LineKind::check});
        lines.back().text = std::move(text);
    };
    for (const ExpressionId piece : words_->conjuncts(expression)) {
        const auto what = in<"what">(words_->expression(piece));
        const ExpressionKind kind = words_->system()[piece].kind;
        if (!is_proved(words_->system(), piece)) {
            check(tongue().say<Saying::make_sure>(what));
        } else if (kind == ExpressionKind::cool && known_.waited_in != 0) {
            Piece step{plain(tongue().say<Saying::step_number>(in<"number">(tongue().number(known_.waited_in))))};
            step.step = known_.waited_in;
            check(tongue().say<Saying::feel_it_since>(what, in<"step">(step)));
        } else if (kind == ExpressionKind::cool) {
            check(tongue().say<Saying::feel_it>(what));
        } else if (kind == ExpressionKind::no_pressure || kind == ExpressionKind::pressure_below) {
            check(tongue().say<Saying::look_for_pressure>(what));
        } else {
            follows.push_back(words_->expression(piece));
        }
    }
    if (!follows.empty()) {
        Line line{LineKind::proved};
        const auto what = in<"what">(tongue().all_of(follows));
        line.text = requires_ ? tongue().say<Saying::before_this>(what) : tongue().say<Saying::after_this>(what);
        lines.insert(lines.begin(), std::move(line));
    }
    return lines;
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
            if (const Caution caution{signal->signal, words_->told(signal->text)}; say(caution)) {
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
