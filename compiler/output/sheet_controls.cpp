#include "output/sheet_controls.h"

#include <array>

namespace curbstop::output {

std::span<const ScriptText> script_texts() {
    static constexpr std::array texts{
        // Progress.
        ScriptText{"progress", Saying::script_progress},
        ScriptText{"of", Saying::script_of},
        ScriptText{"done", Saying::script_done},
        ScriptText{"step-done", Saying::script_step_done},
        ScriptText{"last-step-done", Saying::script_last_step_done},
        ScriptText{"step-open", Saying::script_step_open},
        ScriptText{"at-step", Saying::script_at_step},
        ScriptText{"none-open", Saying::script_none_open},
        // Variants.
        ScriptText{"has-not", Saying::script_has_not},
        ScriptText{"hidden", Saying::script_hidden},
        ScriptText{"nothing-hidden", Saying::script_nothing_hidden},
        // The way back.
        ScriptText{"taken-back", Saying::script_taken_back},
        ScriptText{"nothing-to-take-back", Saying::script_nothing_to_take_back},
        ScriptText{"cleared", Saying::script_cleared},
        // What is kept.
        ScriptText{"keeps-nothing", Saying::script_keeps_nothing},
        ScriptText{"kept-unreadable", Saying::script_kept_unreadable},
        // Files.
        ScriptText{"saved", Saying::script_saved},
        ScriptText{"taken-over", Saying::script_taken_over},
        ScriptText{"kept-ours", Saying::script_kept_ours},
        ScriptText{"unplaced", Saying::script_unplaced},
        ScriptText{"other-version", Saying::script_other_version},
        ScriptText{"kept-other-version", Saying::script_kept_other_version},
        ScriptText{"left-alone", Saying::script_left_alone},
        ScriptText{"refused", Saying::script_refused},
        ScriptText{"refused-size", Saying::script_refused_size},
        ScriptText{"refused-json", Saying::script_refused_json},
        ScriptText{"refused-format", Saying::script_refused_format},
        ScriptText{"refused-version", Saying::script_refused_version},
        ScriptText{"refused-other-system", Saying::script_refused_other_system},
        ScriptText{"refused-other-procedure", Saying::script_refused_other_procedure},
        ScriptText{"refused-missing", Saying::script_refused_missing},
        ScriptText{"refused-text", Saying::script_refused_text},
        ScriptText{"refused-empty", Saying::script_refused_empty},
        ScriptText{"refused-number", Saying::script_refused_number},
        ScriptText{"refused-list", Saying::script_refused_list},
        ScriptText{"refused-group", Saying::script_refused_group},
        ScriptText{"refused-date", Saying::script_refused_date},
        ScriptText{"refused-state", Saying::script_refused_state},
        ScriptText{"refused-twice", Saying::script_refused_twice},
        ScriptText{"refused-id", Saying::script_refused_id},
        ScriptText{"refused-unit", Saying::script_refused_unit},
    };
    return texts;
}

} // namespace curbstop::output
