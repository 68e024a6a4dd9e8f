// Statements of a step as lines of the sheet.
// Must not know: HTML, Markdown, stages.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// Composes the lines of one step. A caution that was printed is not printed again in the same step.
class LineComposer {
  public:
    /// What proofs know of a step; nothing where nobody has looked, and then every caution is said.
    struct Known {
        const meaning::Step* step = nullptr;
        const std::vector<proofs::HotMove>* hot_moves = nullptr;
        std::uint32_t waited_in = 0;                         ///< the last step before it in which one waits; 0: none
        const std::vector<meaning::ZoneId>* zones = nullptr; ///< where one is in the step
    };

    /// `only_place` is the place that the step's heading names, where it names just one. `conditions` are those that
    /// the step stands under already, as Words::expressions says them.
    /// `quantities`: what was worked out; null where nothing was.
    LineComposer(const Words& words, Wording only_place, std::vector<Wording> conditions,
                 const quantities::Quantities* quantities = nullptr)
        : LineComposer(words, std::move(only_place), std::move(conditions), quantities, Known()) {}
    LineComposer(const Words& words, Wording only_place, std::vector<Wording> conditions,
                 const quantities::Quantities* quantities, Known known)
        : words_(&words)
        , only_place_(std::move(only_place))
        , conditions_(std::move(conditions))
        , quantities_(quantities)
        , known_(known) {}

    /// A caution written in a list of statements is about the next action of that list; one with no action after it is
    /// about the list as a whole and comes before its first action.
    [[nodiscard]] std::vector<Line> lines(const meaning::Statements& statements);

    /// The lines of a flow and of its observation.
    [[nodiscard]] std::vector<Line> flow_lines(const meaning::Flow& flow) const;
    [[nodiscard]] Line see_line(const meaning::Observation& observation) const;
    /// What is so before or after, as far as it follows from how things were put; and what only a hand or an eye can
    /// know of it, or this version does not prove, as something to make sure of.
    [[nodiscard]] std::vector<Line> contract_lines(meaning::ExpressionId expression, bool requires_) const;

  private:
    friend struct StatementLines;

    [[nodiscard]] Phrase flow_words(const meaning::Flow& flow) const;
    [[nodiscard]] std::vector<Line> statement(const meaning::Statement& statement);
    [[nodiscard]] Line setting_line(const meaning::Setting& setting);
    [[nodiscard]] std::vector<Caution> hazards(meaning::VariableId variable, std::uint32_t value);
    /// Nothing shows that nothing hot comes to it.
    [[nodiscard]] bool may_be_hot(meaning::VariableId variable, std::uint32_t value) const;
    /// Of what a vessel is filled with.
    [[nodiscard]] std::vector<Caution> hazards(meaning::ChamberId vessel);
    [[nodiscard]] Wording place_of(meaning::VariableId variable) const;
    [[nodiscard]] Wording place_of(meaning::PartId part) const;
    [[nodiscard]] Wording place_of(const std::vector<meaning::WorkPlace>& places) const;
    [[nodiscard]] Wording condition_of(meaning::ExpressionId exists) const;
    /// Marks a line with the condition under which it is done, less what the step stands under already.
    void mark(Line& line, meaning::ExpressionId exists) const;
    [[nodiscard]] bool say(const Caution& caution);

    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }

    const Words* words_;
    Wording only_place_;
    std::vector<Wording> conditions_;
    std::vector<Caution> said_;
    const quantities::Quantities* quantities_;
    Known known_;
};

/// What a flow comes from, each a label; empty where the author names nothing.
[[nodiscard]] std::vector<Phrase> origin_labels(const Words& words, const meaning::Flow& flow);

/// What a condition asks beyond what is among `known` already, as a list; empty where nothing is left.
[[nodiscard]] Phrase left_to_ask(const Words& words, meaning::ExpressionId condition,
                                 const std::vector<Wording>& known);

/// "only with Loft tap": the same as a mark behind what it is about.
[[nodiscard]] Wording only_where(const Words& words, meaning::ExpressionId condition,
                                 const std::vector<Wording>& known);

} // namespace curbstop::output
