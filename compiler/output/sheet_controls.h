// The words of what works on screen only: the labels of its controls and the messages of its script, which has no words
// of its own.
// Must not know: HTML, how any of it works.
#pragma once

#include <span>
#include <string_view>

namespace curbstop::output {

/// What stands on and beside the controls.
struct ControlWords {
    std::string_view skip = "Skip to the steps";
    std::string_view desk = "Screen and record";
    std::string_view theme = "Colours";
    std::string_view theme_of_device = "as the device";
    std::string_view theme_bright = "bright";
    std::string_view theme_dark = "dark";
    std::string_view large = "Large targets, for gloves";
    std::string_view print_all = "Print the pictures and drawings, too: many more pages";
    std::string_view record = "Record";
    std::string_view record_about = "Ticks and fields are kept on this device as you go. A file takes them to another "
                                    "device, or to next season.";
    std::string_view save = "Save the record as a file";
    std::string_view open = "Add a record from a file";
    std::string_view clear = "Clear all ticks and fields";
    std::string_view take = "Take over what still fits";
    std::string_view leave = "Leave it";
    std::string_view options = "Say what yours has. What does not apply to it is hidden; what you have not said stays.";
    std::string_view not_said = "not said";
    std::string_view has = "has it";
    std::string_view has_not = "has it not";
    std::string_view progress = "Progress";
    std::string_view next = "Next open step";
    std::string_view undo = "Undo";
    std::string_view unit = "Unit";
    std::string_view whole = "Done"; ///< of a step in which there is nothing else to tick
};

/// A message of the script, by the name under which the script asks for it. What stands in {braces} is filled in;
/// counts come after a colon or between words, so that no word has to agree with them.
struct ScriptText {
    std::string_view name;
    std::string_view text;
};
[[nodiscard]] std::span<const ScriptText> script_texts();

} // namespace curbstop::output
