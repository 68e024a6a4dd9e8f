#include "output/sheet_pocket.h"

#include "output/clean_text.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_quantities.h"

#include <algorithm>
#include <utility>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Strings the doings of a step together. Things that are put the same way one after the other share their verb.
class Brief {
  public:
    Brief(const Words& words, std::vector<Wording> conditions, const quantities::Quantities* quantities)
        : words_(&words)
        , conditions_(std::move(conditions))
        , quantities_(quantities) {}

    [[nodiscard]] Phrase take() {
        flush();
        return std::exchange(text_, {});
    }

    void statements(const Statements& all) {
        for (const Statement& each : all) {
            const Wording condition = only_where(*words_, each.exists, conditions_);
            if (condition != condition_) {
                flush();
                condition_ = condition;
            }
            std::visit([this](const auto& statement) { say(statement); }, each.what);
        }
        flush();
        condition_.clear();
    }

  private:
    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }

    void say(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            const Wording value = words_->value(setting.variable, setting.value);
            if (value != value_) {
                flush();
                value_ = value;
            }
            names_.push_back(phrase(label(words_->variable(setting.variable))));
        }
    }
    void say(const HoldStatement& s) {
        around(tongue().say<Saying::brief_hold>(name<"what">(s.setting.variable),
                                                in<"how">(label(words_->value(s.setting.variable, s.setting.value)))),
               s.body);
        doing(tongue().say<Saying::brief_let_go>());
    }
    void say(const CoupleStatement& s) { doing(tongue().say<Saying::brief_couple>(name<"a">(s.a), name<"b">(s.b))); }
    void say(const UncoupleStatement& s) { doing(tongue().say<Saying::brief_uncouple>(name<"what">(s.end))); }
    void say(const CapStatement& s) {
        const auto what = name<"what">(s.end);
        doing(s.cap ? tongue().say<Saying::brief_cap>(what) : tongue().say<Saying::brief_uncap>(what));
    }
    void say(const DipStatement& s) {
        doing(tongue().say<Saying::brief_dip>(name<"what">(s.end), chamber<"vessel">(s.vessel)));
    }
    void say(const LiftOutStatement& s) { doing(tongue().say<Saying::brief_lift_out>(name<"what">(s.end))); }
    void say(const PlaceStatement& s) {
        doing(
            tongue().say<Saying::brief_place>(chamber<"vessel">(s.chamber), in<"what">(label(words_->node(s.under)))));
    }
    void say(const TakeAwayStatement& s) { doing(tongue().say<Saying::brief_take_away>(chamber<"what">(s.chamber))); }
    void say(const VerifyStatement& s) {
        doing(tongue().say<Saying::brief_check>(in<"what">(tongue().all_of(words_->expressions(s.expression)))));
    }
    void say(const FlowStatement& s) { doing(flow(s.flow)); }
    void say(const KeepStatement& s) { doing(tongue().say<Saying::brief_leave_going>(in<"what">(flow(s.flow)))); }
    void say(const PressuriseStatement& s) {
        Phrase text = tongue().say<Saying::brief_pressure>();
        if (s.until) {
            text = until(text, *s.until);
        } else if (s.at_most) {
            text = tongue().say<Saying::clause_at_most>(in<"what">(text),
                                                        in<"amount">(quantity_words(*s.at_most, tongue())));
        }
        doing(std::move(text));
    }
    void say(const PourStatement& s) {
        const Wording written = words_->told(s.into_label);
        doing(tongue().say<Saying::brief_pour>(chamber<"vessel">(s.vessel),
                                               in<"where">(label(written.empty() ? words_->node(s.into) : written))));
    }
    void say(const RepeatStatement& s) {
        const Phrase text = tongue().say_of<Saying::brief_repeat>(s.at_most);
        around(s.until ? until(text, *s.until) : text, s.body);
    }
    void say(const ConditionalStatement& s) {
        const Wording condition = only_where(*words_, s.condition, conditions_);
        around(condition.empty() ? tongue().say<Saying::always>() : phrase(condition), s.body);
    }
    void say(const InCaseStatement& s) {
        around(tongue().say<Saying::brief_in_case>(in<"what">(label(words_->told(s.words)))), s.body);
    }
    void say(const WaitStatement& s) {
        doing(tongue().say<Saying::brief_wait>(in<"time">(label(quantity_words(s.time, tongue())))));
    }
    void say(const RecordStatement& s) {
        doing(tongue().say<Saying::brief_record>(
            in<"what">(label(words_->told_or(s.words, Saying::brief_what_is_found)))));
    }
    void say(const WearStatement& s) {
        doing(tongue().say<Saying::brief_wear>(in<"what">(tongue().all_of(words_->labels(s.items)))));
    }
    // Told elsewhere on the pocket form, or named there as left out.
    void say(const WatchStatement&) {}
    void say(const HelperStatement&) {}
    void say(const BringStatement&) {}
    void say(const NoteStatement&) {}
    void say(const PhotoStatement&) {} // has no room here
    void say(const SignalStatement&) {}
    void say(const ContractStatement&) {}

    void around(Phrase lead, const Statements& body) {
        flush();
        Brief inner(*words_, conditions_, quantities_);
        inner.statements(body);
        const Phrase within = inner.take();
        doing(within.empty() ? std::move(lead)
                             : tongue().say<Saying::brief_within>(in<"what">(lead), in<"steps">(within)));
    }

    template <PlaceName Place>
    [[nodiscard]] Filling<Place> name(VariableId id) const {
        return in<Place>(label(words_->variable(id)));
    }
    template <PlaceName Place>
    [[nodiscard]] Filling<Place> chamber(ChamberId id) const {
        return in<Place>(label(words_->chamber(id)));
    }

    [[nodiscard]] Phrase flow(const Flow& flow) const {
        const auto list = [&](const std::vector<Phrase>& labels, Saying otherwise) {
            return labels.empty() ? phrase(tongue().text(otherwise)) : tongue().all_of(labels);
        };
        const auto from = in<"from">(list(origin_labels(*words_, flow), Saying::the_pipes));
        const auto to = in<"to">(list(words_->labels(flow.outlet_labels), Saying::where_it_leaves));
        Phrase text =
            flow.gravity ? tongue().say<Saying::brief_drain>(from, to) : tongue().say<Saying::brief_run>(from, to);
        if (flow.until) {
            text = until(text, *flow.until);
        }
        const auto much = [&](const Quantity& quantity) {
            return in<"amount">(quantity_in(quantity, UnitSystem::metric, tongue()));
        };
        if (flow.at_least) {
            text = tongue().say<Saying::clause_at_least>(in<"what">(text), much(*flow.at_least));
        }
        if (flow.at_most) {
            text = tongue().say<Saying::clause_at_most>(in<"what">(text), much(*flow.at_most));
        }
        const quantities::FlowAmount* amount = quantities_ == nullptr ? nullptr : quantities_->of(flow);
        if (amount != nullptr && amount->rate && (*amount->least_minutes > 0 || amount->most)) {
            text = tongue().say<Saying::standing>(
                in<"what">(text), in<"how">(time_words(tongue(), *amount->least_minutes, amount->most_minutes)));
        }
        return text;
    }

    [[nodiscard]] Phrase until(const Phrase& what, const Observation& observation) const {
        return tongue().say<Saying::brief_until>(in<"what">(what), in<"until">(sign(observation)));
    }

    /// What shows the end, without the author's words for it.
    [[nodiscard]] Phrase sign(const Observation& observation) const {
        switch (observation.kind) {
        case ObservationKind::stops:
            return tongue().say<Saying::brief_until_stops>();
        case ObservationKind::only_air:
            return tongue().say<Saying::brief_until_air>();
        case ObservationKind::shows:
            // What, the full sheet says; most flows have but one thing to show.
            return observation.fluid && words_->system()[observation.fluid].gas
                       ? tongue().say<Saying::brief_until_air>()
                       : tongue().say<Saying::brief_until_shows>();
        case ObservationKind::clear:
            return tongue().say<Saying::brief_until_clear>();
        case ObservationKind::full:
            return tongue().say<Saying::brief_until_full>();
        case ObservationKind::holds_pressure:
            return tongue().say<Saying::brief_until_holds>();
        case ObservationKind::reads_at_least:
            return observation.least ? tongue().say<Saying::brief_until_reads>(
                                           in<"quantity">(quantity_words(*observation.least, tongue())))
                                     : tongue().say<Saying::brief_until_reads_enough>();
        }
        return {};
    }

    void doing(Phrase what) {
        flush();
        add(std::move(what));
    }
    void flush() {
        if (names_.empty()) {
            value_.clear();
            return;
        }
        Phrase text = tongue().say<Saying::brief_put>(in<"what">(tongue().all_of(names_)), in<"how">(label(value_)));
        names_.clear();
        value_.clear();
        add(std::move(text));
    }
    void add(Phrase what) {
        if (!condition_.empty()) {
            what = tongue().say<Saying::standing>(in<"what">(what), in<"how">(condition_));
        }
        text_ =
            text_.empty() ? std::move(what) : tongue().say<Saying::list_also>(in<"before">(text_), in<"last">(what));
    }

    const Words* words_;
    std::vector<Wording> conditions_;
    const quantities::Quantities* quantities_;
    Wording condition_; ///< of the statement at hand
    Phrase text_;
    std::vector<Phrase> names_; ///< all to be put to `value_`
    Wording value_;
};

class CautionList {
  public:
    void lines(const std::vector<Line>& lines, std::uint32_t step) {
        for (const Line& line : lines) {
            for (const Caution& caution : line.cautions) {
                add(caution, step);
            }
            this->lines(line.body, step);
        }
    }
    void blocks(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            lines(block.opening, first_step(block.blocks));
            lines(block.step.lines, block.step.number);
            this->blocks(block.blocks);
        }
    }
    [[nodiscard]] auto take() {
        std::ranges::stable_sort(found_, {}, [](const auto& each) { return each.first.signal; });
        return std::move(found_);
    }

  private:
    [[nodiscard]] static std::uint32_t first_step(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            const std::uint32_t step = block.kind == BlockKind::step ? block.step.number : first_step(block.blocks);
            if (step != 0) {
                return step;
            }
        }
        return 0;
    }
    void add(const Caution& caution, std::uint32_t step) {
        auto known = std::ranges::find(found_, caution, &std::pair<Caution, std::vector<std::uint32_t>>::first);
        if (known == found_.end()) {
            known = found_.insert(found_.end(), {caution, {}});
        }
        if (step != 0 && (known->second.empty() || known->second.back() != step)) {
            known->second.push_back(step);
        }
    }

    std::vector<std::pair<Caution, std::vector<std::uint32_t>>> found_;
};

} // namespace

Phrase brief_words(const Words& words, const Step& step, const std::vector<Wording>& conditions,
                   const quantities::Quantities* quantities) {
    Brief brief(words, conditions, quantities);
    brief.statements(step.statements);
    Phrase text = brief.take();
    // Where nothing is moved, let run or looked at, what is to be done stands in the notes.
    const bool only_notes = std::ranges::all_of(step.statements, [](const Statement& statement) {
        return std::holds_alternative<NoteStatement>(statement.what) ||
               std::holds_alternative<WearStatement>(statement.what) ||
               std::holds_alternative<RecordStatement>(statement.what) ||
               std::holds_alternative<BringStatement>(statement.what) ||
               std::holds_alternative<PhotoStatement>(statement.what) ||
               std::holds_alternative<SignalStatement>(statement.what);
    });
    if (!text.empty() && !text.front().label) {
        static_cast<std::string&>(text.front().text) = capital(text.front().text); // as many bytes as before
    }
    for (const Statement& statement : step.statements) {
        if (const auto* note = std::get_if<NoteStatement>(&statement.what); note != nullptr && only_notes) {
            if (!text.empty()) {
                append(text, text.back().text.ends_with('.') ? " " : ". ");
            }
            append(text, words.told(note->text));
        }
    }
    return text;
}

Pocket compose_pocket(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto version = in<"version">(sheet.info.content_version.substr(0, 12));
    Pocket pocket;
    pocket.short_title = tongue.text(Saying::pocket_form);
    pocket.legend = tongue.text(Saying::pocket_legend);
    pocket.title = tongue.text(Saying::pocket_title);
    std::vector<Phrase> results = sheet.results;
    if (sheet.stands_as_listed) {
        results.push_back(tongue.say<Saying::pocket_as_listed>());
    }
    pocket.proved = plain(results.empty() ? tongue.say<Saying::pocket_proved>()
                                          : tongue.say<Saying::pocket_proved_end>(in<"what">(tongue.all_of(results))));
    pocket.full_sheet = plain(tongue.say<Saying::pocket_goes_with>(version));
    pocket.full_sheet += " " + tongue.text(Saying::replaces_nothing);
    pocket.version = tongue.say<Saying::pocket_version>(in<"name">(code(sheet.procedure_name)),
                                                        in<"version">(code(sheet.info.content_version)));
    for (const Saying each : {Saying::pocket_no_standing, Saying::pocket_no_amounts, Saying::pocket_no_places,
                              Saying::pocket_no_sights, Saying::pocket_no_notes, Saying::pocket_no_barriers,
                              Saying::pocket_no_contracts, Saying::pocket_no_aftercare}) {
        pocket.left_out.push_back(tongue.text(each));
    }
    CautionList cautions;
    for (const SheetStage& stage : sheet.stages) {
        cautions.blocks(stage.blocks);
    }
    pocket.cautions = cautions.take();
    return pocket;
}

} // namespace curbstop::output
