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
        ScriptText{"none-open", Saying::script_none_open},
        // Variants.
        ScriptText{"has-not", Saying::script_has_not},
        ScriptText{"hidden", Saying::script_hidden},
        ScriptText{"nothing-hidden", Saying::script_nothing_hidden},
        // The way back.
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
        ScriptText{"refused-day", Saying::script_refused_day},
        ScriptText{"refused-date", Saying::script_refused_date},
        ScriptText{"refused-state", Saying::script_refused_state},
        ScriptText{"refused-twice", Saying::script_refused_twice},
        ScriptText{"refused-id", Saying::script_refused_id},
        ScriptText{"refused-unit", Saying::script_refused_unit},
        // Getting about, filling in, what was undone.
        ScriptText{"where", Saying::script_where},
        ScriptText{"where-aside", Saying::script_where_aside},
        ScriptText{"still-open", Saying::script_still_open},
        ScriptText{"step-done-open", Saying::script_step_done_open},
        ScriptText{"and-more", Saying::script_and_more},
        ScriptText{"ready-at", Saying::script_ready_at},
        ScriptText{"not-ready", Saying::script_not_ready},
        ScriptText{"not-a-number", Saying::script_not_a_number},
        ScriptText{"unit-changed", Saying::script_unit_changed},
        ScriptText{"clear-question", Saying::script_clear_question},
        ScriptText{"hidden-steps", Saying::script_hidden_steps},
        ScriptText{"undone-tick-step", Saying::script_undone_tick_step},
        ScriptText{"undone-field-step", Saying::script_undone_field_step},
        ScriptText{"undone-tick", Saying::script_undone_tick},
        ScriptText{"undone-field", Saying::script_undone_field},
        ScriptText{"undone-option", Saying::script_undone_option},
        ScriptText{"undone-many", Saying::script_undone_many},
        ScriptText{"refused-not-measured", Saying::script_refused_not_measured},
        ScriptText{"not-measured", Saying::screen_not_measured},
    };
    return texts;
}

} // namespace curbstop::output
