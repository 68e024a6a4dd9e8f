#include "output/sheet_brief.h"

#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_quantities.h"
#include "output/sheet_standing.h"
#include "output/sheet_switches.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Strings together what a step has beyond its title.
class BriefComposer {
  public:
    BriefComposer(const Words& words, std::vector<Wording> conditions, const quantities::Quantities* quantities,
                  bool dosed = false)
        : words_(&words)
        , conditions_(std::move(conditions))
        , quantities_(quantities)
        , dosed_(dosed) {}

    [[nodiscard]] Brief take() {
        for (auto begin = clauses_.begin(); begin != clauses_.end();) {
            const auto end = std::find_if(begin, clauses_.end(), [&](const Phrase& each) { return each != *begin; });
            Phrase clause = end - begin > 1 ? tongue().say<Saying::brief_each>(in<"what">(*begin)) : *begin;
            Phrase& text = brief_.words;
            text = text.empty() ? std::move(clause)
                                : tongue().say<Saying::list_also>(in<"before">(text), in<"last">(clause));
            begin = end;
        }
        return std::move(brief_);
    }

    void statements(const Statements& all) {
        for (const Statement& each : all) {
            condition_ = left_to_ask(*words_, each.exists, conditions_);
            std::visit([this](const auto& statement) { say(statement); }, each.what);
        }
        condition_.clear();
    }

    [[nodiscard]] Phrase flow(const Flow& flow) const {
        Phrase text;
        const auto& until = flow.until;
        // How much is read on a gauge is how much comes.
        const bool reads_amount = until && until->kind == ObservationKind::reads_at_least && until->least &&
                                  until->least->dimension == Dimension::volume && !flow.at_least;
        join(text, amount(reads_amount ? until->least : flow.at_least, flow.at_most));
        const quantities::FlowAmount* worked_out = quantities_ == nullptr ? nullptr : quantities_->of(flow);
        if (worked_out != nullptr && worked_out->rate && !worked_out->throttled &&
            (*worked_out->least_minutes > 0 || worked_out->most)) {
            join(text, time(*worked_out->least_minutes, worked_out->most_minutes));
        }
        if (until && !reads_amount) {
            join(text, sign(*until));
        }
        return text;
    }

    /// What shows the end, mostly without the author's words for it.
    [[nodiscard]] Phrase sign(const Observation& observation) const {
        switch (observation.kind) {
        case ObservationKind::stops:
            return tongue().say<Saying::brief_until_stops>();
        case ObservationKind::only_air:
            return tongue().say<Saying::brief_until_air>();
        case ObservationKind::shows:
            // What, the full sheet says; most flows have but one thing to show.
            return observation.fluid && words_->system()[observation.fluid].gas
                       ? tongue().say<Saying::brief_until_some_air>()
                       : tongue().say<Saying::brief_until_shows>();
        case ObservationKind::clear:
            return observation.words.empty() || !dosed_
                       ? tongue().say<Saying::brief_until_clear>()
                       : tongue().say<Saying::brief_until_seen>(in<"what">(words_->told(observation.words)));
        case ObservationKind::full:
            return tongue().say<Saying::brief_until_full>();
        case ObservationKind::holds_pressure:
            return tongue().say<Saying::brief_until_holds>();
        case ObservationKind::reads_at_least:
            return observation.least
                       ? tongue().say<Saying::brief_until_reads>(in<"quantity">(metric(*observation.least)))
                       : tongue().say<Saying::brief_until_reads_enough>();
        }
        return {};
    }

  private:
    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }

    // What the title carries, or the full sheet: how things are put, what is seen and noted, what is worn and brought.
    void say(const CoupleStatement&) {}
    void say(const UncoupleStatement&) {}
    void say(const CapStatement&) {}
    void say(const DipStatement&) {}
    void say(const LiftOutStatement&) {}
    void say(const PlaceStatement&) {}
    void say(const TakeAwayStatement&) {}
    void say(const WatchStatement&) {}
    void say(const HelperStatement&) {}
    void say(const BringStatement&) {}
    void say(const WearStatement&) {}
    void say(const NoteStatement&) {}
    void say(const PhotoStatement&) {}
    void say(const SignalStatement&) {}
    void say(const ContractStatement&) {}

    void say(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            if (const auto& dial = words_->system()[setting.variable].values[setting.value].setting) {
                add(phrase(metric(*dial)));
            }
            const bool put_before = std::ranges::find(put_, setting.variable) != put_.end();
            if (ran_ && (put_before ||
                         switches_off(setting))) { // what was opened for what ran: a practised hand forgets that first
                Phrase then =
                    tongue().say<Saying::brief_then>(in<"how">(label(words_->value(setting.variable, setting.value))));
                // Of several in a row it is said once.
                if (clauses_.empty() || clauses_.back() != then) {
                    add(std::move(then));
                }
            }
            put_.push_back(setting.variable);
        }
    }
    [[nodiscard]] bool switches_off(const Setting& setting) const {
        return std::ranges::any_of(words_->system().sources, [&](const Source& source) {
            return std::ranges::any_of(switched_by(words_->system(), source.on), [&](const auto& on) {
                return on.first == setting.variable && (on.second >> setting.value & 1) == 0;
            });
        });
    }
    void say(const HoldStatement& s) { within({}, s.body); }
    void say(const VerifyStatement& s) {
        std::vector<Phrase> found;
        for (const ExpressionId piece : words_->conjuncts(s.expression)) {
            if (!says_how_things_stand(words_->system(), piece)) {
                found.push_back(words_->expression(piece));
            }
        }
        if (!found.empty()) {
            add(tongue().all_of(found));
        }
    }
    void say(const FlowStatement& s) {
        add(flow(s.flow));
        ran_ = true;
    }
    void say(const KeepStatement&) { add(tongue().say<Saying::brief_leave_going>()); }
    void say(const PressuriseStatement& s) {
        Phrase text = amount({}, s.at_most);
        if (s.until) {
            join(text, sign(*s.until));
        }
        add(std::move(text));
    }
    void say(const PourStatement& s) {
        if (quantities_ != nullptr) {
            if (auto dose = brief_dose(*words_, *quantities_, words_->system()[s.vessel].fluid)) {
                add(std::move(*dose));
            }
        }
    }
    void say(const RepeatStatement& s) {
        Phrase lead = tongue().say_of<Saying::brief_repeat>(s.at_most);
        if (s.until) {
            join(lead, sign(*s.until));
        }
        within(std::move(lead), s.body);
    }
    void say(const ConditionalStatement& s) {
        const Phrase outer = std::exchange(condition_, left_to_ask(*words_, s.condition, conditions_));
        within({}, s.body);
        condition_ = outer;
    }
    void say(const InCaseStatement& s) {
        within(tongue().say<Saying::brief_in_case>(in<"what">(label(words_->told(s.words)))), s.body);
    }
    void say(const WaitStatement& s) { add(tongue().say<Saying::brief_wait>(in<"time">(metric(s.time)))); }
    void say(const RecordStatement& s) {
        Phrase text = phrase(words_->told_or(s.words, Saying::brief_what_is_found));
        if (const Phrase within = bounds_words(s.dimension, s.at_least, s.at_most, tongue()); !within.empty()) {
            append(text, ", ");
            append(text, within);
        }
        append(text, ": ________");
        const auto units = record_units(s.dimension, s.unit);
        if (s.kind != RecordKind::measured) {
            append(text, " " + record_unit(s, tongue()));
        } else if (!units.empty()) {
            append(text, " " + std::string(unit_info(units.front()).symbol));
        }
        brief_.blanks.push_back(std::move(text));
    }

    void within(Phrase lead, const Statements& body) {
        std::vector<Wording> conditions = conditions_;
        if (!condition_.empty()) {
            conditions.push_back(plain(condition_));
        }
        BriefComposer inner(*words_, std::move(conditions), quantities_, dosed_);
        inner.statements(body);
        ran_ = ran_ || inner.ran_;
        Brief found = inner.take();
        if (!found.words.empty() && !lead.empty()) {
            lead = tongue().say<Saying::brief_within>(in<"what">(lead), in<"steps">(found.words));
        } else if (lead.empty()) {
            lead = std::move(found.words);
        }
        add(std::move(lead));
        std::ranges::move(found.blanks, std::back_inserter(brief_.blanks));
    }

    void add(Phrase what) {
        if (what.empty()) {
            return;
        }
        if (!condition_.empty()) {
            what = tongue().say<Saying::brief_only>(in<"condition">(condition_), in<"what">(what));
        }
        clauses_.push_back(std::move(what));
    }
    void join(Phrase& text, Phrase more) const {
        if (!text.empty() && !more.empty()) {
            more = tongue().say<Saying::brief_and>(in<"before">(text), in<"last">(more));
        }
        if (!more.empty()) {
            text = std::move(more);
        }
    }

    [[nodiscard]] std::string metric(const Quantity& quantity) const {
        return in_one_piece(quantity_in(quantity, UnitSystem::metric, tongue()));
    }
    /// No line ends between a number and its unit: there are many lines.
    [[nodiscard]] static std::string in_one_piece(std::string text) {
        for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) {
            text.replace(at, 1, "\u00a0");
        }
        return text;
    }

    /// "2–3 L", "max. 40 L"
    [[nodiscard]] Phrase amount(const std::optional<Quantity>& least, const std::optional<Quantity>& most) const {
        if (least && most) {
            return between(metric(*least), metric(*most));
        }
        return least  ? tongue().say<Saying::brief_at_least>(in<"amount">(metric(*least)))
               : most ? tongue().say<Saying::brief_at_most>(in<"amount">(metric(*most)))
                      : Phrase();
    }

    /// The unit is said once where it is the same.
    [[nodiscard]] Phrase between(std::string from, const std::string& to) const {
        if (from == to) {
            return phrase(to);
        }
        const auto unit_begins = [](const std::string& text) {
            return std::min(text.find_last_of("0123456789"), text.size() - 1) + 1;
        };
        if (from.substr(unit_begins(from)) == to.substr(unit_begins(to))) {
            from.resize(unit_begins(from));
        }
        return tongue().say<Saying::brief_between>(in<"from">(from), in<"to">(to));
    }

    /// As time_words, with signs for units.
    [[nodiscard]] Phrase time(double least, std::optional<double> most) const {
        const double greatest = std::max(most.value_or(least), least);
        constexpr double few_minutes = 5;
        if (greatest >= 2 && greatest < few_minutes) {
            const std::string from = in_one_piece(minutes_and_seconds(tongue(), least));
            const std::string to = in_one_piece(minutes_and_seconds(tongue(), greatest));
            return least <= 0   ? tongue().say<Saying::brief_at_most>(in<"amount">(to))
                   : from == to ? tongue().say<Saying::brief_about>(in<"amount">(to))
                                : tongue().say<Saying::brief_between>(in<"from">(from), in<"to">(to));
        }
        const auto up = [](double minutes) { return static_cast<std::uint64_t>(std::ceil(minutes - 1e-9)); };
        const auto [from, to] = greatest < 2 ? whole_seconds(least, greatest) : SecondsRange{up(least), up(greatest)};
        const auto said = [&](std::uint64_t count) {
            return in_one_piece(tongue().measured(std::to_string(count), greatest < 2 ? "s" : "min"));
        };
        if (least <= 0) {
            return tongue().say<Saying::brief_at_most>(in<"amount">(said(to)));
        }
        return from == to ? tongue().say<Saying::brief_about>(in<"amount">(said(to))) : between(said(from), said(to));
    }

    const Words* words_;
    std::vector<Wording> conditions_;
    const quantities::Quantities* quantities_;
    bool dosed_;
    Phrase condition_; ///< of the statement at hand
    std::vector<Phrase> clauses_;
    std::vector<VariableId> put_; ///< what the step has put before
    bool ran_ = false;            ///< something has run since
    Brief brief_;
};

} // namespace

Brief brief_words(const Words& words, const Step& step, const std::vector<Wording>& conditions,
                  const quantities::Quantities* quantities, bool dosed) {
    BriefComposer brief(words, conditions, quantities, dosed);
    brief.statements(step.statements);
    return brief.take();
}

Phrase brief_case(const Words& words, const InCaseSteps& steps) {
    return words.tongue().say<Saying::brief_in_case>(in<"what">(label(words.told(steps.words))));
}

Phrase brief_repeat(const Words& words, const RepeatSteps& steps) {
    const Phrase times = words.tongue().say_of<Saying::brief_repeat>(steps.at_most);
    return steps.until ? words.tongue().say<Saying::brief_and>(
                             in<"before">(times), in<"last">(BriefComposer(words, {}, nullptr).sign(*steps.until)))
                       : times;
}

Phrase brief_meanwhile(const Words& words, const MeanwhileSteps& steps, const quantities::Quantities* quantities) {
    const Phrase figures = BriefComposer(words, {}, quantities).flow(steps.flow);
    return figures.empty() ? words.tongue().say<Saying::while_this_goes_on>()
                           : words.tongue().say<Saying::brief_meanwhile>(in<"what">(figures));
}

} // namespace curbstop::output
