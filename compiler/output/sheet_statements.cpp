// What each kind of statement says on the sheet: one function per kind.
#include "output/clean_text.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_quantities.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Of a time, rounded up; nothing where it is longer than anyone waits.
std::uint64_t seconds_of(const Quantity& time) {
    constexpr double longest = 365.0 * 86400;
    const double seconds = std::ceil(time.value.to_double());
    return seconds > 0 && seconds <= longest ? static_cast<std::uint64_t>(seconds) : 0;
}

} // namespace

/// Visits a statement; `composer` knows the words, the place and what has been said.
struct StatementLines {
    LineComposer& composer;
    const Statement& statement;

    [[nodiscard]] const Words& words() const { return *composer.words_; }
    [[nodiscard]] const Tongue& tongue() const { return words().tongue(); }
    template <PlaceName Place>
    [[nodiscard]] Filling<Place> name(VariableId id) const {
        return in<Place>(label(words().variable(id)));
    }
    template <PlaceName Place>
    [[nodiscard]] Filling<Place> vessel(ChamberId id) const {
        return in<Place>(label(words().chamber(id)));
    }

    [[nodiscard]] std::vector<Line> act(Phrase text, Wording place = {}) const {
        return one(LineKind::act, std::move(text), std::move(place));
    }
    [[nodiscard]] std::vector<Line> one(LineKind kind, Phrase text, Wording place = {}) const {
        Line line{kind};
        line.text = std::move(text);
        line.place = std::move(place);
        composer.mark(line, statement.exists);
        return {line};
    }
    /// A line around others; `condition` is one that all of them stand under.
    [[nodiscard]] std::vector<Line> around(LineKind kind, Phrase text, const Statements& body,
                                           const std::vector<Phrase>& conditions = {}) const {
        const std::size_t outer = composer.conditions_.size();
        const std::size_t said = composer.said_.size();
        for (const Phrase& condition : conditions) {
            composer.conditions_.push_back(plain(condition));
        }
        std::vector<Line> lines = one(kind, std::move(text));
        lines.front().body = composer.lines(body);
        composer.conditions_.resize(outer);
        if (kind == LineKind::conditional || kind == LineKind::in_case) {
            composer.said_.resize(said); // whom the box does not concern has not read what it says
        }
        return lines;
    }

    std::vector<Line> operator()(const SetStatement& s) const {
        std::vector<Line> lines;
        for (const Setting& setting : s.settings) {
            lines.push_back(composer.setting_line(setting));
        }
        return lines;
    }
    std::vector<Line> operator()(const HoldStatement& s) const {
        const Variable& variable = words().system()[s.setting.variable];
        const std::vector<Caution> cautions = composer.hazards(s.setting.variable, s.setting.value);
        std::vector<Line> lines =
            around(LineKind::hold,
                   tongue().say<Saying::hold_at>(name<"what">(s.setting.variable),
                                                 in<"how">(label(words().value(s.setting.variable, s.setting.value)))),
                   s.body);
        lines.front().cautions = cautions;
        lines.front().puts = s.setting;
        lines.front().place = composer.place_of(s.setting.variable);
        const auto what = name<"what">(s.setting.variable);
        Line release = act(variable.springs_back
                               ? tongue().say<Saying::let_go_springs_back>(
                                     what, in<"how">(label(words().value(s.setting.variable, *variable.springs_back))))
                               : tongue().say<Saying::let_go>(what))
                           .front();
        if (variable.springs_back) {
            release.cautions = composer.hazards(s.setting.variable, *variable.springs_back);
        }
        lines.push_back(std::move(release));
        return lines;
    }
    std::vector<Line> operator()(const CoupleStatement& s) const {
        return act(tongue().say<Saying::couple>(name<"a">(s.a), name<"b">(s.b)), composer.place_of(s.b));
    }
    std::vector<Line> operator()(const UncoupleStatement& s) const {
        return act(tongue().say<Saying::uncouple>(name<"what">(s.end)), composer.place_of(s.end));
    }
    std::vector<Line> operator()(const CapStatement& s) const {
        const auto what = name<"what">(s.end);
        return act(s.cap ? tongue().say<Saying::put_cap_on>(what) : tongue().say<Saying::take_cap_off>(what),
                   composer.place_of(s.end));
    }
    std::vector<Line> operator()(const DipStatement& s) const {
        std::vector<Line> lines = act(tongue().say<Saying::dip_in>(name<"what">(s.end), vessel<"vessel">(s.vessel)),
                                      composer.place_of(s.end));
        lines.front().cautions = composer.hazards(s.vessel);
        return lines;
    }
    std::vector<Line> operator()(const LiftOutStatement& s) const {
        return act(tongue().say<Saying::lift_out>(name<"what">(s.end)), composer.place_of(s.end));
    }
    std::vector<Line> operator()(const PlaceStatement& s) const {
        const PartId part = words().system()[s.under].part;
        return act(
            tongue().say<Saying::place_under>(vessel<"vessel">(s.chamber), in<"what">(label(words().node(s.under)))),
            composer.place_of(part));
    }
    std::vector<Line> operator()(const TakeAwayStatement& s) const {
        return act(tongue().say<Saying::take_away>(vessel<"what">(s.chamber)));
    }
    std::vector<Line> operator()(const VerifyStatement& s) const {
        const std::vector<Phrase> items = words().expressions(s.expression);
        std::vector<Wording> places;
        for (const VariableId looked_at : s.looked_at) {
            const Wording place = composer.place_of(looked_at);
            if (!place.empty() && std::find(places.begin(), places.end(), place) == places.end()) {
                places.push_back(place);
            }
        }
        std::vector<Phrase> place_phrases;
        for (const Wording& place : places) {
            place_phrases.push_back(phrase(place));
        }
        const Wording where = plain(tongue().all_of(place_phrases));
        if (items.size() == 1) {
            return one(LineKind::check, tongue().say<Saying::check_this>(in<"what">(items.front())), where);
        }
        std::vector<Line> lines = one(LineKind::check, tongue().say<Saying::check_all>(), where);
        lines.front().items = items;
        return lines;
    }
    std::vector<Line> operator()(const FlowStatement& s) const { return composer.flow_lines(s.flow); }
    std::vector<Line> operator()(const KeepStatement& s) const {
        std::vector<Line> lines = composer.flow_lines(s.flow);
        lines.front().text = tongue().say<Saying::leave_going>(in<"what">(lines.front().text));
        return lines;
    }
    std::vector<Line> operator()(const PressuriseStatement& s) const {
        Phrase text = tongue().say<Saying::bring_to_pressure>(in<"what">(tongue().all_of(words().labels(s.labels))));
        if (s.at_most) {
            text = tongue().say<Saying::clause_at_most>(
                in<"what">(text), in<"amount">(quantity_words(*s.at_most, tongue(), Towards::less)));
        }
        append(text, ".");
        std::vector<Line> lines = act(std::move(text));
        if (s.until) {
            lines.push_back(composer.see_line(*s.until));
            lines.back().applies = lines.front().applies;
        }
        return lines;
    }
    std::vector<Line> operator()(const PourStatement& s) const {
        std::vector<Line> lines =
            act(tongue().say<Saying::pour_into>(vessel<"vessel">(s.vessel), in<"where">(label(into(s)))));
        lines.front().cautions = composer.hazards(s.vessel);
        if (composer.quantities_ != nullptr) {
            if (auto dose = dose_line(words(), *composer.quantities_, words().system()[s.vessel].fluid)) {
                std::vector<Line> how_much = one(LineKind::note, std::move(*dose)); // where it is measured out
                lines.insert(lines.begin(), how_much.begin(), how_much.end());
            }
        }
        return lines;
    }
    std::vector<Line> operator()(const RepeatStatement& s) const {
        Phrase text = tongue().say_of<Saying::repeat_this>(s.at_most);
        if (s.until) {
            text = tongue().say<Saying::repeat_until>(in<"what">(text), in<"seen">(words().observation(*s.until)));
        }
        text = tongue().say<Saying::lead_in>(in<"what">(text));
        std::vector<Line> lines = around(LineKind::repeat, std::move(text), s.body);
        lines.front().rounds = s.at_most;
        return lines;
    }
    std::vector<Line> operator()(const WatchStatement& s) const {
        const Piece where = s.part   ? label(words().part(s.part))
                            : s.zone ? Piece{words().zone(s.zone)}
                                     : Piece{tongue().text(Saying::same_place)};
        return one(LineKind::watch,
                   tongue().say<Saying::meanwhile_at>(in<"where">(where), in<"what">(label(words().told(s.words)))),
                   s.part ? composer.place_of(s.part) : Wording());
    }
    std::vector<Line> operator()(const HelperStatement& s) const {
        const Wording what = words().told(s.words);
        return one(LineKind::helper, what.empty() ? tongue().say<Saying::second_person>()
                                                  : tongue().say<Saying::second_person_for>(in<"what">(what)));
    }
    std::vector<Line> operator()(const WaitStatement& s) const {
        std::vector<Line> lines = act(tongue().say<Saying::wait>(in<"time">(label(quantity_words(s.time, tongue())))));
        lines.front().wait_seconds = seconds_of(s.time);
        return lines;
    }
    std::vector<Line> operator()(const WearStatement& s) const {
        return one(LineKind::wear, tongue().say<Saying::wear>(in<"what">(tongue().all_of(words().labels(s.items)))));
    }
    std::vector<Line> operator()(const BringStatement& s) const {
        const Piece item = label(s.fluid ? words().fluid(s.fluid) : words().told(s.item));
        Phrase what = phrase(item);
        if (s.amount) {
            what = tongue().say<Saying::amount_of>(in<"amount">(quantity_words(*s.amount, tongue(), Towards::more)),
                                                   in<"what">(item));
        } else if (s.fluid && composer.quantities_ != nullptr) {
            const auto supply = std::ranges::find(composer.quantities_->supplies, s.fluid, &quantities::Supply::fluid);
            if (supply != composer.quantities_->supplies.end() && supply->needs > 0) {
                what = tongue().say<Saying::amount_or_more_of>(in<"amount">(volume_words(supply->needs, tongue())),
                                                               in<"what">(item));
            }
        }
        return one(LineKind::bring, tongue().say<Saying::have_at_hand>(in<"what">(what)));
    }
    std::vector<Line> operator()(const RecordStatement& s) const {
        std::vector<Line> lines = one(LineKind::record, phrase(words().told_or(s.words, Saying::record_something)));
        Line& line = lines.front();
        line.within = bounds_words(s.dimension, s.at_least, s.at_most, tongue());
        if (!line.within.empty()) {
            line.text = tongue().say<Saying::tagged>(in<"tag">(line.text), in<"text">(line.within));
        }
        line.at_least = s.at_least;
        line.at_most = s.at_most;
        line.units = record_units(s.dimension, s.unit);
        line.record = s.kind;
        line.unit = record_unit(s, tongue());
        return lines;
    }
    std::vector<Line> operator()(const NoteStatement& s) const {
        return one(LineKind::note, phrase(words().told(s.text)));
    }
    std::vector<Line> operator()(const PhotoStatement& s) const {
        std::vector<Line> lines = one(LineKind::photo, phrase(words().told(words().system()[s.photo].words)));
        lines.front().photo = s.photo;
        return lines;
    }
    // LineComposer::lines attaches these to the action that they are about.
    std::vector<Line> operator()(const SignalStatement&) const { return {}; }
    std::vector<Line> operator()(const ContractStatement& s) const {
        return composer.contract_lines(s.expression, s.requires_);
    }
    std::vector<Line> operator()(const ConditionalStatement& s) const {
        const Phrase condition = left_to_ask(words(), s.condition, composer.conditions_);
        if (condition.empty()) {
            return composer.lines(s.body);
        }
        std::vector<Line> lines =
            around(LineKind::conditional, tongue().say<Saying::only_where_line>(in<"condition">(plain(condition))),
                   s.body, words().expressions(s.condition));
        Line& box = lines.front();
        box.applies = Applies::both(box.applies, Applies::under(words().system(), s.condition));
        return lines;
    }
    std::vector<Line> operator()(const InCaseStatement& s) const {
        return around(LineKind::in_case, tongue().say<Saying::in_case>(in<"what">(label(words().told(s.words)))),
                      s.body);
    }

    /// Where a vessel is emptied.
    [[nodiscard]] Wording into(const PourStatement& s) const {
        Wording written = words().told(s.into_label);
        return written.empty() || words().system()[s.into].kind == meaning::NodeKind::place ? words().node(s.into)
                                                                                            : written;
    }
};

std::vector<Line> LineComposer::statement(const Statement& statement) {
    return std::visit(StatementLines{*this, statement}, statement.what);
}

} // namespace curbstop::output
