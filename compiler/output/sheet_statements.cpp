// What each kind of statement says on the sheet: one function per kind.
#include "output/clean_text.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_quantities.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

/// Visits a statement; `composer` knows the words, the place and what has been said.
struct StatementLines {
    LineComposer& composer;
    const Statement& statement;

    [[nodiscard]] const Words& words() const { return *composer.words_; }
    [[nodiscard]] Piece name(VariableId id) const { return label(words().variable(id)); }

    [[nodiscard]] std::vector<Line> act(Phrase text, std::string place = {}) const {
        return one(LineKind::act, std::move(text), std::move(place));
    }
    [[nodiscard]] std::vector<Line> one(LineKind kind, Phrase text, std::string place = {}) const {
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
                   phrase("Hold ", name(s.setting.variable), " at ",
                          label(words().value(s.setting.variable, s.setting.value)), " all the while:"),
                   s.body);
        lines.front().cautions = cautions;
        lines.front().place = composer.place_of(s.setting.variable);
        Line release = act(phrase("Let go of ", name(s.setting.variable))).front();
        if (variable.springs_back) {
            release.cautions = composer.hazards(s.setting.variable, *variable.springs_back);
            append(release.text,
                   phrase(": it springs back to ", label(words().value(s.setting.variable, *variable.springs_back))));
        }
        append(release.text, ".");
        lines.push_back(std::move(release));
        return lines;
    }
    std::vector<Line> operator()(const CoupleStatement& s) const {
        return act(phrase("Couple ", name(s.a), " to ", name(s.b), "."), composer.place_of(s.b));
    }
    std::vector<Line> operator()(const UncoupleStatement& s) const {
        return act(phrase("Uncouple ", name(s.end), "."), composer.place_of(s.end));
    }
    std::vector<Line> operator()(const CapStatement& s) const {
        return act(s.cap ? phrase("Put the cap on ", name(s.end), ".") : phrase("Take the cap off ", name(s.end), "."),
                   composer.place_of(s.end));
    }
    std::vector<Line> operator()(const DipStatement& s) const {
        std::vector<Line> lines =
            act(phrase("Dip ", name(s.end), " in ", label(words().chamber(s.vessel)), "."), composer.place_of(s.end));
        lines.front().cautions = composer.hazards(s.vessel);
        return lines;
    }
    std::vector<Line> operator()(const LiftOutStatement& s) const {
        return act(phrase("Lift ", name(s.end), " out."), composer.place_of(s.end));
    }
    std::vector<Line> operator()(const PlaceStatement& s) const {
        const PartId part = words().system()[s.under].part;
        return act(phrase("Place ", label(words().chamber(s.chamber)), " under ", label(words().node(s.under)), "."),
                   composer.place_of(part));
    }
    std::vector<Line> operator()(const TakeAwayStatement& s) const {
        return act(phrase("Take ", label(words().chamber(s.chamber)), " away."));
    }
    std::vector<Line> operator()(const VerifyStatement& s) const {
        const std::vector<Phrase> items = words().expressions(s.expression);
        std::vector<std::string> places;
        for (const VariableId looked_at : s.looked_at) {
            const std::string place = composer.place_of(looked_at);
            if (!place.empty() && std::find(places.begin(), places.end(), place) == places.end()) {
                places.push_back(place);
            }
        }
        std::vector<Phrase> place_phrases;
        for (const std::string& place : places) {
            place_phrases.push_back(phrase(place));
        }
        if (items.size() == 1) {
            return one(LineKind::check, phrase("Check: ", items.front(), "."), plain(joined(place_phrases, "and")));
        }
        std::vector<Line> lines =
            one(LineKind::check, phrase("Check that all of this is so:"), plain(joined(place_phrases, "and")));
        lines.front().items = items;
        return lines;
    }
    std::vector<Line> operator()(const FlowStatement& s) const { return composer.flow_lines(s.flow); }
    std::vector<Line> operator()(const KeepStatement& s) const {
        std::vector<Line> lines = composer.flow_lines(s.flow);
        lines.front().text.insert(lines.front().text.begin(), Piece{"Leave it going. "});
        return lines;
    }
    std::vector<Line> operator()(const PressuriseStatement& s) const {
        std::vector<Phrase> labels;
        for (const std::string& text : s.labels) {
            labels.push_back(phrase(label(one_line(text))));
        }
        Phrase text = phrase("Let ", joined(labels, "and"), " bring it to pressure, with nothing running out");
        if (s.at_most) {
            append(text, ", at most " + quantity_words(*s.at_most));
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
            act(phrase("Carry ", label(words().chamber(s.vessel)), " to ",
                       label(one_line_or(s.into_label, words().node(s.into))), " and empty it there."));
        lines.front().cautions = composer.hazards(s.vessel);
        return lines;
    }
    std::vector<Line> operator()(const RepeatStatement& s) const {
        Phrase text = phrase("Do this at most " + at_most_times(s.at_most));
        if (s.until) {
            append(text, phrase(", until you see: ", words().observation(*s.until)));
        }
        append(text, ":");
        return around(LineKind::repeat, std::move(text), s.body);
    }
    std::vector<Line> operator()(const WatchStatement& s) const {
        Piece where = s.part ? label(words().part(s.part)) : Piece{s.zone ? words().zone(s.zone) : "the same place"};
        std::string place = s.part ? composer.place_of(s.part) : std::string();
        return one(LineKind::watch, phrase("Meanwhile at ", std::move(where), ": ", label(one_line(s.words))),
                   std::move(place));
    }
    std::vector<Line> operator()(const HelperStatement& s) const {
        const std::string what = one_line(s.words);
        return one(LineKind::helper, phrase("A second person is needed", what.empty() ? "." : ": " + what));
    }
    std::vector<Line> operator()(const WaitStatement& s) const {
        return act(phrase("Wait ", label(quantity_words(s.time)), "."));
    }
    std::vector<Line> operator()(const WearStatement& s) const {
        std::vector<Phrase> items;
        for (const std::string& item : s.items) {
            items.push_back(phrase(label(one_line(item))));
        }
        return one(LineKind::wear, phrase("Wear ", joined(items, "and"), "."));
    }
    std::vector<Line> operator()(const BringStatement& s) const {
        Phrase text = phrase("Have at hand: ");
        if (s.amount) {
            append(text, quantity_words(*s.amount) + " of ");
        } else if (s.fluid && composer.quantities_ != nullptr) {
            const auto supply = std::ranges::find(composer.quantities_->supplies, s.fluid, &quantities::Supply::fluid);
            if (supply != composer.quantities_->supplies.end() && supply->needs > 0) {
                append(text, volume_words(supply->needs) + " or more of ");
            }
        }
        append(text, label(s.fluid ? words().fluid(s.fluid) : one_line(s.item)));
        append(text, ".");
        return one(LineKind::bring, std::move(text));
    }
    std::vector<Line> operator()(const RecordStatement& s) const {
        std::vector<Line> lines = one(LineKind::record, phrase(one_line_or(s.words, "Record")));
        lines.front().unit = record_unit(s.dimension);
        const auto units = record_units(s.dimension);
        lines.front().units.assign(units.begin(), units.end());
        return lines;
    }
    std::vector<Line> operator()(const NoteStatement& s) const { return one(LineKind::note, phrase(one_line(s.text))); }
    std::vector<Line> operator()(const PhotoStatement& s) const {
        std::vector<Line> lines = one(LineKind::photo, phrase(one_line(words().system()[s.photo].words)));
        lines.front().photo = s.photo;
        return lines;
    }
    // LineComposer::lines attaches these to the action that they are about.
    std::vector<Line> operator()(const SignalStatement&) const { return {}; }
    std::vector<Line> operator()(const ContractStatement& s) const {
        return {composer.contract_line(s.expression, s.requires_)};
    }
    std::vector<Line> operator()(const ConditionalStatement& s) const {
        const std::string condition = only_where(words(), s.condition, composer.conditions_);
        if (condition.empty()) {
            return composer.lines(s.body);
        }
        std::vector<Line> lines =
            around(LineKind::conditional, phrase(capital(condition) + ":"), s.body, words().expressions(s.condition));
        Line& box = lines.front();
        box.applies = Applies::both(box.applies, Applies::under(words().system(), s.condition));
        return lines;
    }
    std::vector<Line> operator()(const InCaseStatement& s) const {
        return around(LineKind::in_case, phrase("In case you see this: ", label(one_line(s.words))), s.body);
    }
};

std::vector<Line> LineComposer::statement(const Statement& statement) {
    return std::visit(StatementLines{*this, statement}, statement.what);
}

} // namespace curbstop::output
