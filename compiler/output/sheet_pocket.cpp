#include "output/sheet_pocket.h"

#include "output/clean_text.h"
#include "output/limits.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"

#include <algorithm>
#include <utility>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Strings the doings of a step together. Things that are put the same way one after the other share their verb.
class Brief {
  public:
    Brief(const Words& words, std::vector<std::string> conditions)
        : words_(&words)
        , conditions_(std::move(conditions)) {}

    [[nodiscard]] Phrase take() {
        flush();
        return std::exchange(text_, {});
    }

    void statements(const Statements& all) {
        for (const Statement& each : all) {
            const std::string condition = only_where(*words_, each.exists, conditions_);
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
    void say(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            const std::string value = words_->value(setting.variable, setting.value);
            if (value != value_) {
                flush();
                value_ = value;
            }
            names_.push_back(phrase(label(words_->variable(setting.variable))));
        }
    }
    void say(const HoldStatement& s) {
        around(phrase("hold ", name(s.setting.variable), " at ",
                      label(words_->value(s.setting.variable, s.setting.value))),
               s.body, "let go");
    }
    void say(const CoupleStatement& s) { doing(phrase("couple ", name(s.a), " to ", name(s.b))); }
    void say(const UncoupleStatement& s) { doing(phrase("uncouple ", name(s.end))); }
    void say(const CapStatement& s) { doing(phrase(s.cap ? "cap " : "uncap ", name(s.end))); }
    void say(const DipStatement& s) { doing(phrase("dip ", name(s.end), " in ", chamber(s.vessel))); }
    void say(const LiftOutStatement& s) { doing(phrase("lift ", name(s.end), " out")); }
    void say(const PlaceStatement& s) {
        doing(phrase("place ", chamber(s.chamber), " under ", label(words_->node(s.under))));
    }
    void say(const TakeAwayStatement& s) { doing(phrase("take ", chamber(s.chamber), " away")); }
    void say(const VerifyStatement& s) { doing(phrase("see that ", joined(words_->expressions(s.expression), "and"))); }
    void say(const FlowStatement& s) { doing(flow(s.flow)); }
    void say(const KeepStatement& s) { doing(phrase("leave it going: ", flow(s.flow))); }
    void say(const PressuriseStatement& s) {
        Phrase text = phrase("bring to pressure");
        if (s.until) {
            append(text, " until " + sign(*s.until));
        } else if (s.at_most) {
            append(text, ", at most " + quantity_words(*s.at_most));
        }
        doing(std::move(text));
    }
    void say(const PourStatement& s) {
        doing(phrase("empty ", chamber(s.vessel), " into ", label(one_line_or(s.into_label, words_->node(s.into)))));
    }
    void say(const RepeatStatement& s) {
        Phrase text = phrase("at most " + at_most_times(s.at_most));
        if (s.until) {
            append(text, " until " + sign(*s.until));
        }
        around(std::move(text), s.body, {});
    }
    void say(const ConditionalStatement& s) {
        const std::string condition = only_where(*words_, s.condition, conditions_);
        around(phrase(condition.empty() ? "always" : condition), s.body, {});
    }
    void say(const InCaseStatement& s) { around(phrase("in case of ", label(one_line(s.words))), s.body, {}); }
    void say(const WaitStatement& s) { doing(phrase("wait ", label(quantity_words(s.time)))); }
    void say(const RecordStatement& s) { doing(phrase("write down ", label(one_line_or(s.words, "what is found")))); }
    void say(const WearStatement& s) {
        std::vector<Phrase> items;
        for (const std::string& item : s.items) {
            items.push_back(phrase(label(one_line(item))));
        }
        doing(phrase("wear ", joined(items, "and")));
    }
    // Told elsewhere on the pocket form, or named there as left out.
    void say(const WatchStatement&) {}
    void say(const HelperStatement&) {}
    void say(const BringStatement&) {}
    void say(const NoteStatement&) {}
    void say(const PhotoStatement&) {} // has no room here
    void say(const SignalStatement&) {}
    void say(const ContractStatement&) {}

    void around(Phrase lead, const Statements& body, const std::string& close) {
        flush();
        Brief inner(*words_, conditions_);
        inner.statements(body);
        const Phrase within = inner.take();
        append(lead, within.empty() ? "" : " [");
        append(lead, within);
        append(lead, within.empty() ? "" : "]");
        doing(std::move(lead));
        if (!close.empty()) {
            doing(phrase(close));
        }
    }

    [[nodiscard]] Piece name(VariableId id) const { return label(words_->variable(id)); }
    [[nodiscard]] Piece chamber(ChamberId id) const { return label(words_->chamber(id)); }

    [[nodiscard]] Phrase flow(const Flow& flow) const {
        const auto list = [](const std::vector<std::string>& labels, const char* otherwise) {
            std::vector<Phrase> phrases;
            for (const std::string& text : labels) {
                phrases.push_back(phrase(label(one_line(text))));
            }
            return phrases.empty() ? phrase(otherwise) : joined(phrases, "and");
        };
        Phrase text = phrase(flow.gravity ? "drain " : "run ", list(flow.origin_labels, "the pipes"),
                             flow.gravity ? " through " : " to ", list(flow.outlet_labels, "where it leaves"));
        if (flow.until) {
            append(text, " until " + sign(*flow.until));
            return text;
        }
        if (flow.at_least) {
            append(text, ", at least " + quantity_words(*flow.at_least));
        }
        if (flow.at_most) {
            append(text, ", at most " + quantity_words(*flow.at_most));
        }
        return text;
    }

    /// What shows the end, without the author's words for it.
    [[nodiscard]] std::string sign(const Observation& observation) const {
        switch (observation.kind) {
        case ObservationKind::stops:
            return "it stops";
        case ObservationKind::only_air:
            return "only air comes";
        case ObservationKind::shows:
            // What, the full sheet says; most flows have but one thing to show.
            return observation.fluid && words_->system()[observation.fluid].gas ? "only air comes" : "it shows";
        case ObservationKind::clear:
            return "it runs clear";
        case ObservationKind::full:
            return "it is full";
        case ObservationKind::holds_pressure:
            return "the pressure holds";
        case ObservationKind::reads_at_least:
            return observation.least ? "it reads " + quantity_words(*observation.least) + " or more"
                                     : "it reads enough";
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
        Phrase text = joined(names_, "and");
        append(text, phrase(" → ", label(value_)));
        names_.clear();
        value_.clear();
        add(std::move(text));
    }
    void add(Phrase what) {
        if (!text_.empty()) {
            append(text_, "; ");
        }
        append(text_, what);
        if (!condition_.empty()) {
            append(text_, " (" + condition_ + ")");
        }
    }

    const Words* words_;
    std::vector<std::string> conditions_;
    std::string condition_; ///< of the statement at hand
    Phrase text_;
    std::vector<Phrase> names_; ///< all to be put to `value_`
    std::string value_;
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

Phrase brief_words(const Words& words, const Step& step, const std::vector<std::string>& conditions) {
    Brief brief(words, conditions);
    brief.statements(step.statements);
    Phrase text = brief.take();
    if (text.empty()) {
        return phrase(one_line_or(step.title, "Step"));
    }
    if (!text.front().label) {
        text.front().text = capital(std::move(text.front().text));
    }
    return text;
}

Pocket compose_pocket(const Sheet& sheet) {
    Pocket pocket;
    pocket.short_title = "pocket form";
    pocket.legend = "A letter beside a step names what to heed before it:";
    pocket.title = "Pocket form, for those who have done it with the full sheet";
    std::vector<Phrase> results = sheet.results;
    if (sheet.stands_as_listed) {
        results.push_back(phrase("everything stands as its last table says"));
    }
    pocket.proved = "Proved for " + std::to_string(sheet.instants) + " moments" +
                    (results.empty() ? "." : ". At the end " + plain(joined(results, "and")) + ".") +
                    " What is not proved, the full sheet says.";
    pocket.full_sheet = "Goes with the full sheet of content version " + sheet.info.content_version.substr(0, 12) +
                        " and no other. " + std::string(replaces_nothing());
    pocket.left_out = {"how everything has to stand before and stands after",
                       "what to bring, how much, and how much may run",
                       "where each part is, and behind which cover",
                       "what you should see, in words, and watch meanwhile",
                       "notes",
                       "what holds pressure back",
                       "what is proved between stages",
                       "tags, record of use, volumes"};
    CautionList cautions;
    for (const SheetStage& stage : sheet.stages) {
        cautions.blocks(stage.blocks);
    }
    pocket.cautions = cautions.take();
    return pocket;
}

} // namespace curbstop::output
