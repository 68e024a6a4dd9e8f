// A hut with one tap, an option and a pump, as the builder would give it, with a report as the proof would give it:
// small enough to check each output against by eye. Labels can be replaced by hostile ones.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet_info.h"
#include "proofs/report.h"

#include <string>

namespace curbstop::output::tests {

struct Tiny {
    meaning::Model model;
    proofs::ProcedureReport report;

    [[nodiscard]] const meaning::Procedure& procedure() const { return model.procedures.front(); }
};

/// With `label`, it takes the place of every label and text that an author writes.
[[nodiscard]] Tiny tiny_model(const std::string& label = {});

[[nodiscard]] SheetInfo tiny_info();

/// Labels that have broken programs before: markup, script, quotes, direction, emoji, length, Markdown.
[[nodiscard]] std::vector<std::string> hostile_labels();

} // namespace curbstop::output::tests
