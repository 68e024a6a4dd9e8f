#include "output/sheet_controls.h"

#include <array>

namespace curbstop::output {

std::span<const ScriptText> script_texts() {
    static constexpr std::array texts{
        // Progress.
        ScriptText{"progress", Saying::script_progress},
        ScriptText{"of", Saying::script_of},
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
        ScriptText{"options-taken", Saying::script_options_taken},
        ScriptText{"options-unsaid", Saying::script_options_unsaid},
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
        ScriptText{"refused-clock", Saying::script_refused_clock},
        ScriptText{"refused-date", Saying::script_refused_date},
        ScriptText{"refused-state", Saying::script_refused_state},
        ScriptText{"refused-twice", Saying::script_refused_twice},
        ScriptText{"refused-id", Saying::script_refused_id},
        ScriptText{"refused-unit", Saying::script_refused_unit},
        // Getting about, filling in, what was undone.
        ScriptText{"where", Saying::script_where},
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
        // Waits by the clock, readings, rounds, and what comes first.
        ScriptText{"done-at", Saying::script_done_at},
        ScriptText{"waiting-until", Saying::script_waiting_until},
        ScriptText{"wait-begins", Saying::script_wait_begins},
        ScriptText{"waiting-in", Saying::script_waiting_in},
        ScriptText{"wait-over", Saying::script_wait_over},
        ScriptText{"wait-is-over", Saying::script_wait_is_over},
        ScriptText{"reading-beyond", Saying::script_reading_beyond},
        ScriptText{"reading-sign", Saying::script_reading_sign},
        ScriptText{"reading-below-zero", Saying::script_reading_below_zero},
        ScriptText{"reading-unknown", Saying::script_reading_unknown},
        ScriptText{"round", Saying::script_round},
        ScriptText{"last-round", Saying::script_last_round},
        ScriptText{"round-open", Saying::script_round_open},
        ScriptText{"round-begins", Saying::script_round_begins},
        ScriptText{"first-this", Saying::script_first_this},
        ScriptText{"ask-option", Saying::script_ask_option},
        ScriptText{"has", Saying::screen_has},
        ScriptText{"lacks", Saying::screen_has_not},
        ScriptText{"option-opens", Saying::script_option_opens},
        ScriptText{"option-taken", Saying::script_option_taken},
        ScriptText{"refused-damaged", Saying::script_refused_damaged},
    };
    return texts;
}

} // namespace curbstop::output
