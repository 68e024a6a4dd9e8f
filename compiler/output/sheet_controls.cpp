#include "output/sheet_controls.h"

#include <array>

namespace curbstop::output {

std::span<const ScriptText> script_texts() {
    static constexpr std::array texts{
        // Progress.
        ScriptText{"progress", "Steps done: {done} of {all}"},
        ScriptText{"of", "{done} of {all}"},
        ScriptText{"done", "done"},
        ScriptText{"step-done", "Step {step} is done. Next open step: {next}."},
        ScriptText{"last-step-done", "Step {step} is done. No step is open any more."},
        ScriptText{"step-open", "Step {step} is open again."},
        ScriptText{"at-step", "At step {step}."},
        ScriptText{"none-open", "No step is open."},
        // Variants.
        ScriptText{"has-not", "(has it not)"},
        ScriptText{"hidden", "Hidden, as it does not apply to yours. Steps: {steps}. Lines in other steps: {lines}. "
                             "Rows of tables: {rows}. Things to have ready: {items}."},
        ScriptText{"nothing-hidden", "Nothing is hidden."},
        // The way back.
        ScriptText{"taken-back", "Undone. Changes that can still be undone: {left}."},
        ScriptText{"nothing-to-take-back", "There is nothing to undo."},
        ScriptText{"cleared", "All ticks and fields are cleared. Undo brings them back."},
        // What is kept.
        ScriptText{"keeps-nothing",
                   "This browser keeps nothing for this page: ticks and fields last only until it is closed. Save the "
                   "record as a file before you close it."},
        ScriptText{"kept-unreadable",
                   "What this device had kept for this sheet cannot be read and was set aside: {why}"},
        // Files.
        ScriptText{"saved", "The record was given to the browser to save, as {file}."},
        ScriptText{"taken-over", "Added from the record: ticks {ticks}, fields {fields}, options {options}."},
        ScriptText{"kept-ours", "Kept as it is here, though the record says otherwise: {names}."},
        ScriptText{"unplaced", "Not on this sheet, and left out: {count}."},
        ScriptText{"other-version",
                   "This record, saved on {saved}, is of another version of the sheet: {theirs}, not {ours}. Steps may "
                   "have changed. Only what reads the same on both, word for word, can be taken over."},
        ScriptText{"kept-other-version",
                   "This device keeps a record, saved on {saved}, of another version of this sheet: {theirs}, not "
                   "{ours}. Steps may have changed. Only what reads the same on both, word for word, can be taken "
                   "over."},
        ScriptText{"left-alone", "The record was left alone. Nothing here has changed."},
        ScriptText{"refused", "The record was not taken over, and nothing here has changed. What is wrong: {why}"},
        ScriptText{"refused-size", "{file} is larger than {most} MB."},
        ScriptText{"refused-json", "It is not JSON: {error}"},
        ScriptText{"refused-format", "It is no record of a sheet: format is not {format}."},
        ScriptText{"refused-version",
                   "It is of version {found} of the record, and this sheet reads version {known}. A newer sheet may "
                   "read it."},
        ScriptText{"refused-other-system", "It is of the system {theirs}; this sheet is of {ours}."},
        ScriptText{"refused-other-procedure", "It is of the procedure {theirs}; this sheet is of {ours}."},
        ScriptText{"refused-missing", "{path} is missing."},
        ScriptText{"refused-text", "{path} is not a text."},
        ScriptText{"refused-empty", "{path} is empty."},
        ScriptText{"refused-number", "{path} is not a whole number."},
        ScriptText{"refused-list", "{path} is not a list."},
        ScriptText{"refused-group", "{path} is not an object with members."},
        ScriptText{"refused-date", "{path} is not a date and time in UTC, such as 2025-10-31T09:30:00Z."},
        ScriptText{"refused-state", "{path} is not one of unknown, has, has_not."},
        ScriptText{"refused-twice", "{path} names {id} a second time."},
        ScriptText{"refused-id", "{path} names {id}, which this sheet does not have."},
        ScriptText{"refused-unit", "{path} is “{unit}”, which is no unit of this field."},
    };
    return texts;
}

} // namespace curbstop::output
