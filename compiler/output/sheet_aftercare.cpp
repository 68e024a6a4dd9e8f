#include "output/sheet_aftercare.h"

#include "meaning/possibility.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_standing.h"
#include "output/sheet_switches.h"
#include "output/sheet_walk.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

const Season* season_after(const Model& model, const Procedure& procedure) {
    const auto found = std::ranges::find_if(
        model.seasons, [&](const Season& season) { return &model.procedures[season.first.value] == &procedure; });
    return found == model.seasons.end() ? nullptr : &*found;
}

PartId outermost(const System& system, PartId part) {
    while (part && system[part].parent) {
        part = system[part].parent;
    }
    return part;
}

/// How everything stands at the end, and what of it is not as in use.
class TagMaker {
  public:
    TagMaker(const Words& words, const Model& model, const Procedure& procedure, const proofs::ProcedureReport& report)
        : words_(&words)
        , report_(&report)
        , switches_(switches(words.system()))
        , at_start_(required_standing(words.system(), procedure))
        , in_use_(at_start_)
        , season_(season_after(model, procedure))
        , next_(season_ == nullptr ? Wording() : words.named(model.procedures[season_->second.value])) {
        const System& system = words.system();
        if (system.use) {
            for (std::size_t i = 0; i < in_use_.size(); ++i) {
                in_use_[i] = all_values(system.variables[i]);
            }
            for (const Lineup::Entry& entry : system[system.use].entries) {
                in_use_[entry.variable.value] &= entry.values;
            }
        }
    }

    [[nodiscard]] std::vector<Tag> tags() const {
        const System& system = words_->system();
        std::vector<Tag> result;
        std::vector<PartId> tagged; // beside the tags
        for (std::size_t i = 0; i < system.variables.size(); ++i) {
            const VariableId id(i);
            if (!is_left_otherwise(id)) {
                continue;
            }
            const PartId part = outermost(system, system[id].part);
            const auto known = part ? std::ranges::find(tagged, part) : tagged.end();
            if (known == tagged.end()) {
                tagged.push_back(part);
                result.push_back(blank(id, part));
            }
            const auto at = part ? std::ranges::find(tagged, part) - tagged.begin()
                                 : static_cast<std::ptrdiff_t>(tagged.size()) - 1;
            add(id, result[static_cast<std::size_t>(at)]);
        }
        for (std::size_t i = 0; i < result.size(); ++i) {
            finish(tagged[i], result[i]);
        }
        if (std::ranges::any_of(report_->steps, &proofs::StepReport::spoilt)) {
            result.push_back(of_taps());
        }
        return result;
    }

  private:
    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }
    [[nodiscard]] ValueSet at_end(VariableId id) const { return report_->steps.back().standing[id.value]; }

    [[nodiscard]] bool is_left_otherwise(VariableId id) const {
        const Variable& variable = words_->system()[id];
        // A vessel is carried along, a cover shows by itself how it stands.
        return variable.kind != VariableKind::vessel && variable.kind != VariableKind::cover &&
               variable.values.size() > 1 && ((at_end(id) & ~in_use_[id.value]) != 0 || heats_what_is_empty(id));
    }

    /// Nobody may light or switch on what is left without water, whether or not it is off in use as well.
    [[nodiscard]] bool heats_what_is_empty(VariableId id) const {
        const auto each = std::ranges::find(switches_, id, &Switch::variable);
        return each != switches_.end() && !may_be_empty(id, *each).empty();
    }

    /// What the sheet tells to tag the taps for, at the end or on the way.
    [[nodiscard]] Tag of_taps() const {
        Tag tag;
        tag.what = tongue().text(Saying::tag_every_tap);
        tag.stands.emplace_back(tongue().text(Saying::tag_not_to_drink));
        tag.rules.push_back(tongue().say<Saying::tag_do_not_drink>());
        tag.since = tongue().text(Saying::tag_for_each);
        return tag;
    }

    [[nodiscard]] Tag blank(VariableId id, PartId part) const {
        const std::vector<WorkPlace> places = words_->places(id);
        Tag tag;
        tag.what = part ? words_->part(part) : words_->variable(id);
        tag.place = places.empty() ? Wording() : words_->place(places.front());
        tag.condition = only_where(*words_, words_->system()[id].exists, {});
        tag.applies = Applies::under(words_->system(), words_->system()[id].exists);
        return tag;
    }

    void add(VariableId id, Tag& tag) const {
        const Wording name = words_->variable(id);
        const Wording how = words_->values(id, at_end(id));
        const auto of = [&](const Wording& what) {
            return plain(tongue().say<Saying::tagged>(in<"tag">(what), in<"text">(how)));
        };
        tag.stands.push_back(name == tag.what ? how : of(name.from(own_label_begins(name, tag.what))));
        for (Phrase& rule : rules(id)) {
            if (std::ranges::find(tag.rules, rule) == tag.rules.end()) {
                tag.rules.push_back(std::move(rule));
            }
        }
        const std::uint32_t step = moved_last(id);
        const std::string since =
            plain(step == 0 ? tongue().say<Saying::as_it_was_found>()
                            : tongue().say<Saying::since_step>(in<"number">(tongue().number(step))));
        if (tag.since.find(since) == std::string::npos) {
            tag.since += (tag.since.empty() ? "" : " ") + since;
        }
    }

    void finish(PartId part, Tag& tag) const {
        const System& system = words_->system();
        if (part && std::ranges::find(system.may_move_while_stored, part) != system.may_move_while_stored.end()) {
            tag.rules.push_back(tongue().say<Saying::may_be_moved_stored>());
        } else {
            tag.rules.push_back(next_.empty() ? tongue().say<Saying::leave_it_so>()
                                              : tongue().say<Saying::leave_it_so_until>(in<"procedure">(label(next_))));
        }
    }

    [[nodiscard]] std::uint32_t moved_last(VariableId id) const {
        for (std::size_t i = report_->steps.size(); i-- > 0;) {
            const ValueSet before = i == 0 ? at_start_[id.value] : report_->steps[i - 1].standing[id.value];
            if (report_->steps[i].standing[id.value] != before) {
                return report_->steps[i].number;
            }
        }
        return 0;
    }

    /// Whether the end leaves no way in which an expression could hold; only of how things stand.
    [[nodiscard]] bool surely_fails(ExpressionId id) const {
        return !possibility(words_->system(), id, [this](const Expression& e) {
                    return Possibility{(at_end(e.variable) & e.values) != 0, (at_end(e.variable) & ~e.values) != 0};
                }).can_hold;
    }

    /// What is heated by something and may stand empty at the end.
    [[nodiscard]] std::vector<Phrase> may_be_empty(VariableId id, const Switch& each) const {
        const System& system = words_->system();
        const std::vector<ChamberId>& holds = report_->steps.back().surely_holds;
        std::vector<Phrase> found;
        for (const Source& source : system.sources) {
            const SourceId source_id(static_cast<std::size_t>(&source - system.sources.data()));
            const bool mine = (each.own && source.part == system[id].part) ||
                              std::ranges::find(each.feeds, source_id) != each.feeds.end();
            if (mine && source.kind == SourceKind::heat && source.heats &&
                std::ranges::find(holds, source.heats) == holds.end()) {
                const Phrase name = phrase(label(words_->part(source.part)));
                if (std::ranges::find(found, name) == found.end()) {
                    found.push_back(name);
                }
            }
        }
        return found;
    }

    [[nodiscard]] std::vector<Phrase> rules(VariableId id) const {
        std::vector<Phrase> result;
        const auto each = std::ranges::find(switches_, id, &Switch::variable);
        if (each != switches_.end()) {
            const std::vector<Phrase> empty = may_be_empty(id, *each);
            const ValueSet other = all_values(words_->system()[id]) & ~at_end(id);
            const auto how = in<"how">(label(words_->values(id, empty.empty() ? in_use_[id.value] : other)));
            result.push_back(empty.empty()
                                 ? tongue().say<Saying::do_not_set_to>(how)
                                 : tongue().say<Saying::do_not_set_to_empty>(how, in<"where">(tongue().all_of(empty))));
        }
        for (const Guard& guard : words_->system().guards) {
            if (guard.variable == id && ((in_use_[id.value] >> guard.value) & 1) != 0 && surely_fails(guard.needs)) {
                result.push_back(tongue().say<Saying::not_to>(in<"how">(label(words_->value(id, guard.value))),
                                                              in<"why">(label(words_->told(guard.why)))));
            }
        }
        return result;
    }

    const Words* words_;
    const proofs::ProcedureReport* report_;
    std::vector<Switch> switches_;
    std::vector<ValueSet> at_start_, in_use_;
    const Season* season_;
    Wording next_;
};

} // namespace

TagSheet tag_sheet(const Words& words, const Model& model, const Procedure& procedure,
                   const proofs::ProcedureReport& report) {
    const Tongue& tongue = words.tongue();
    TagSheet sheet;
    sheet.heading = tongue.text(Saying::tags_to_cut_out);
    sheet.lead = tongue.text(Saying::tags_explained);
    sheet.fields = {tongue.text(Saying::tag_date), tongue.text(Saying::tag_name)};
    if (!report.steps.empty()) {
        sheet.tags = TagMaker(words, model, procedure, report).tags();
    }
    return sheet;
}

RecordSheet record_sheet(const Words& words, const Procedure& procedure) {
    const Tongue& tongue = words.tongue();
    RecordSheet sheet;
    sheet.heading = tongue.text(Saying::record_of_use);
    sheet.lead = tongue.text(Saying::record_explained);
    for (const Saying column : {Saying::column_step, Saying::column_what, Saying::column_unit, Saying::column_found}) {
        sheet.columns.emplace_back(tongue.text(column));
    }
    each_statement(procedure, [&](const auto& statement, const Circumstances& here) {
        if constexpr (std::is_same_v<std::decay_t<decltype(statement)>, RecordStatement>) {
            sheet.rows.push_back({here.step, words.told_or(statement.words, Saying::record_something),
                                  record_unit(statement, tongue), only_where(words, here.exists, {}),
                                  Applies::under(words.system(), here.exists)});
        }
    });
    return sheet;
}

InfoCard next_card(const Words& words, const Model& model, const Procedure& procedure) {
    const Tongue& tongue = words.tongue();
    InfoCard card{tongue.text(Saying::next_season), {}, {}, {}};
    const Season* season = season_after(model, procedure);
    if (season == nullptr) {
        return card;
    }
    card.lines.push_back(
        tongue.say<Saying::comes_next>(in<"procedure">(label(words.named(model.procedures[season->second.value]))),
                                       in<"season">(label(words.named(*season)))));
    std::vector<Phrase> movable;
    for (const PartId part : words.system().may_move_while_stored) {
        movable.push_back(phrase(label(words.part(part))));
    }
    if (movable.empty()) {
        card.lines.push_back(tongue.say<Saying::put_back_all>());
    } else {
        card.lines.push_back(tongue.say<Saying::may_be_moved_until>(in<"what">(tongue.all_of(movable))));
        card.lines.push_back(tongue.say<Saying::put_back_others>());
    }
    return card;
}

} // namespace curbstop::output
