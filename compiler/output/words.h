// What a model holds, in the owner's words: the label of a thing, how it stands, a condition read aloud.
// Must not know: HTML, Markdown, proofs. Every text is one line and not escaped.
#pragma once

#include "meaning/procedure.h"
#include "meaning/system.h"
#include "output/phrase.h"
#include "output/tongue.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// A label fit to print; where none was written, the name with spaces for underscores and without what holds it.
[[nodiscard]] std::string label_of(const meaning::Named& thing);

/// "DANGER", "WARNING", "CAUTION", "NOTICE" (ANSI Z535).
[[nodiscard]] std::string signal_word(meaning::Signal signal, const Tongue& tongue);

/// What a signal word tells, in our words after the definitions of ANSI Z535.4 (clauses 4.14.1 to 4.14.4, as printed by
/// a publisher of safety labels; the standard itself was not at hand).
[[nodiscard]] std::string signal_meaning(meaning::Signal signal, const Tongue& tongue);

/// Where in "Heater, element" or "Heater: element", the label of what is part of "Heater", its own label begins; 0
/// where it does not begin with that of the whole.
[[nodiscard]] std::size_t own_label_begins(std::string_view label, std::string_view whole);

/// Words for one system, which must outlive this, in one language; what is not given in it stays as it was written.
class Words {
  public:
    explicit Words(const meaning::System& system, Tongue tongue = Tongue(Language::english))
        : system_(&system)
        , tongue_(tongue) {}

    [[nodiscard]] const meaning::System& system() const { return *system_; }
    [[nodiscard]] const Tongue& tongue() const { return tongue_; }

    /// What an author wrote, on one line.
    [[nodiscard]] Wording told(const meaning::Text& text) const;
    /// The same where there is something to see, else what is said in its place.
    [[nodiscard]] Wording told_or(const meaning::Text& text, Saying otherwise) const;
    /// Several, each a label of a list.
    [[nodiscard]] std::vector<Phrase> labels(const std::vector<meaning::Text>& texts) const;
    /// A label, or the name where none was written.
    [[nodiscard]] Wording named(const meaning::Named& thing) const;

    /// "Water heater", and of an inner part "Water heater, element".
    [[nodiscard]] Wording part(meaning::PartId id) const;
    /// What stands in several ways: "Stop valve", "Compressor, regulator", "Panel under the sink".
    [[nodiscard]] Wording variable(meaning::VariableId id) const;
    /// One way to stand: "open", "2 bar", "coupled to Hose", "in Jug", "under Filter", "away".
    [[nodiscard]] Wording value(meaning::VariableId id, std::uint32_t value) const;
    /// "Take **Strainer** out.": what is done to put it so, as the kind says it; empty where it does not.
    [[nodiscard]] Phrase to_do(meaning::VariableId id, std::uint32_t value) const;
    /// "open or half open"; "any way" where the set says nothing.
    [[nodiscard]] Wording values(meaning::VariableId id, meaning::ValueSet set) const;
    [[nodiscard]] Wording node(meaning::NodeId id) const;
    [[nodiscard]] Wording chamber(meaning::ChamberId id) const;
    [[nodiscard]] Wording source(meaning::SourceId id) const;
    [[nodiscard]] Wording outlet(meaning::OutletId id) const;
    [[nodiscard]] Wording zone(meaning::ZoneId id) const;
    [[nodiscard]] Wording fluid(meaning::FluidId id) const;
    /// "Kitchen", "Kitchen, behind Panel under the sink".
    [[nodiscard]] Wording place(const meaning::WorkPlace& place) const;
    /// The places from which a variable is worked, the first one first; empty for what has no fixed place.
    [[nodiscard]] std::vector<meaning::WorkPlace> places(meaning::VariableId id) const;

    /// "X is open": a labelled statement of an expression. Conditions that always or never hold read "always", "never".
    [[nodiscard]] Phrase expression(meaning::ExpressionId id) const;
    /// The operands of a conjunction, those of inner ones too; of any other expression itself.
    [[nodiscard]] std::vector<meaning::ExpressionId> conjuncts(meaning::ExpressionId id) const;
    /// The same, a conjunction taken apart into what each of its operands says.
    [[nodiscard]] std::vector<Phrase> expressions(meaning::ExpressionId id) const;
    /// Of a condition on options: "with Loft tap", "without Loft tap and with Shower"; empty where it always holds.
    [[nodiscard]] Wording condition(meaning::ExpressionId id) const;

    /// What shows the end of a flow: the owner's words, and what they have to mean.
    [[nodiscard]] Phrase observation(const meaning::Observation& observation) const;

  private:
    [[nodiscard]] Phrase negation(const meaning::Expression& inner, meaning::ExpressionId id) const;
    [[nodiscard]] std::vector<Phrase> excepted(const meaning::Expression& expression) const;
    /// What an observation has to mean.
    [[nodiscard]] Phrase seen_thing(const meaning::Observation& observation) const;
    [[nodiscard]] Phrase nested(meaning::ExpressionId id, meaning::ExpressionKind inside) const;
    [[nodiscard]] Wording of_part(meaning::PartId part, const meaning::Named& thing, bool only_one) const;

    const meaning::System* system_;
    Tongue tongue_;
};

/// Every bit that a variable of this many values may have.
[[nodiscard]] meaning::ValueSet all_values(const meaning::Variable& variable);

} // namespace curbstop::output
