// What one leaves as it is: while a source is on, said before it is switched on; and on going away, whether one may
// break off. Each is said where it changes and not again, to whoever has read it. Must not know: HTML, Markdown.
#pragma once

#include "output/sheet.h"
#include "output/words.h"

#include <optional>
#include <vector>

namespace curbstop::output {

class LeavingComposer {
  public:
    /// What was said last of breaking off; nothing where readers differ in it.
    using BreakOff = std::optional<Phrase>;

    LeavingComposer(const Words& words, const meaning::Procedure& procedure, const proofs::ProcedureReport& report);

    /// Tells it of the step that comes next, whose lines are composed, and of the conditions that it stands under.
    /// `for_all`: everybody who comes to where it stands reads it.
    void add_to(SheetStep& sheet, const proofs::StepReport& report, const std::vector<Wording>& conditions,
                bool for_all);

    [[nodiscard]] const BreakOff& said() const { return said_; }
    /// What was left on at the end of the step before, and until when: somebody has to stay by it.
    [[nodiscard]] const std::vector<meaning::SourceId>& to_stay_by() const { return to_stay_by_; }
    /// After steps that only some readers come to: the others know what was said before.
    void join_others(const BreakOff& before);

  private:
    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }
    void add_leave_so(SheetStep& sheet, const proofs::StepReport& report, const std::vector<Wording>& conditions,
                      bool for_all);
    /// `besides`: others have been told before.
    [[nodiscard]] Phrase leave_so(meaning::SourceId source, const std::vector<proofs::Barrier>& barriers,
                                  bool besides) const;
    /// Nobody has to be told of it: it is capped and elsewhere, or behind what stays shut.
    [[nodiscard]] bool is_out_of_reach(const proofs::Barrier& barrier, const proofs::StepReport& report) const;
    [[nodiscard]] Phrase left_on(const proofs::StepReport& report) const;
    /// All of it is said of what is done with: nobody has to stay.
    [[nodiscard]] bool may_leave(const meaning::Step& step, const proofs::StepReport& report) const;
    [[nodiscard]] Phrase under_pressure(const std::vector<meaning::NodeId>& charged) const;
    /// The step in which a source that is on goes off for all; 0: none.
    [[nodiscard]] std::uint32_t off_in(const proofs::StepReport& report, meaning::SourceId source) const;
    /// The next step, of those that everybody does, at whose end `so` no longer holds; 0: it holds to the end.
    template <class So>
    [[nodiscard]] std::uint32_t until_step(const proofs::StepReport& report, const So& so) const;
    [[nodiscard]] std::vector<Phrase> things(const std::vector<meaning::VariableId>& variables) const;
    [[nodiscard]] bool stands_as_ever(const std::vector<meaning::ValueSet>& standing) const;
    [[nodiscard]] Phrase break_off(const meaning::Step& step, const proofs::StepReport& report) const;

    const Words* words_;
    std::vector<const proofs::StepReport*> done_by_all_; // in order
    bool may_have_frozen_ = false;                       ///< the last time that it was told
    /// Per variable: how it stands in use, or may have stood before the first step where no step has to undo that.
    std::vector<std::optional<meaning::ValueSet>> as_ever_;
    /// Something to be left as it is, and who was told so: those who come where all of this is so.
    struct Left {
        proofs::Barrier barrier;
        std::vector<Wording> conditions;
    };
    std::vector<std::vector<Left>> left_;           // per source
    std::vector<meaning::SourceId> running_before_; // at the end of the step before
    std::vector<meaning::SourceId> to_stay_by_;
    BreakOff said_;
};

} // namespace curbstop::output
