#include "output/sheet_leaving.h"

#include "output/sheet_standing.h"

#include <algorithm>

namespace curbstop::output {

using namespace meaning;

namespace {

bool keeps_running(const Step& step) {
    return std::ranges::any_of(step.statements, [](const Statement& statement) {
        return std::holds_alternative<KeepStatement>(statement.what);
    });
}

} // namespace

LeavingComposer::LeavingComposer(const Words& words, const Procedure& procedure)
    : words_(&words)
    , as_ever_(words.system().variables.size())
    , left_(words.system().sources.size()) {
    const System& system = words.system();
    const auto use = std::ranges::find_if(system.lineups, &Lineup::for_use);
    if (use == system.lineups.end()) {
        return;
    }
    const std::vector<ValueSet> start = required_standing(system, procedure);
    for (const Lineup::Entry& entry : use->entries) {
        const Variable& variable = system[entry.variable];
        const bool plumbing =
            variable.kind != VariableKind::cover && (!variable.part || !system[variable.part].nodes.empty());
        if (plumbing) {
            const bool left_open = !procedure.as_left_by && (start[entry.variable.value] & entry.values) != 0;
            as_ever_[entry.variable.value] = left_open ? entry.values | start[entry.variable.value] : entry.values;
        }
    }
}

void LeavingComposer::join_others(const BreakOff& before) {
    if (said_ != before) {
        said_.reset();
    }
}

std::vector<Phrase> LeavingComposer::things(const std::vector<VariableId>& variables) const {
    const System& system = words_->system();
    std::vector<VariableId> left = variables;
    std::vector<Phrase> result;
    for (const Group& group : system.groups) {
        const auto of_group = [&](VariableId id) {
            return std::ranges::any_of(group.parts, [&](PartId part) { return system[part].variable == id; });
        };
        const auto count = std::ranges::count_if(left, of_group);
        if (count > 1 && static_cast<std::size_t>(count) == group.parts.size()) {
            result.push_back(phrase(label(words_->named(group))));
            std::erase_if(left, of_group);
        }
    }
    for (const VariableId id : left) {
        result.push_back(phrase(label(words_->variable(id))));
    }
    return result;
}

Phrase LeavingComposer::leave_so(SourceId source, std::vector<proofs::Barrier> barriers) const {
    const System& system = words_->system();
    struct Alike {
        Wording how;
        std::vector<VariableId> variables;
    };
    std::vector<Alike> all;
    for (const proofs::Barrier& barrier : barriers) {
        const Variable& variable = system[barrier.variable];
        // Of two ends that are coupled one is named.
        const bool named = std::ranges::any_of(all, [&](const Alike& alike) {
            return std::ranges::any_of(alike.variables, [&](VariableId other) {
                const auto& values = system[other].values;
                return std::ranges::any_of(values, [&](const auto& value) {
                    return value.partner && system[value.partner].end == barrier.variable &&
                           variable.kind == VariableKind::end;
                });
            });
        });
        if (named) {
            continue;
        }
        Wording how = words_->values(barrier.variable, barrier.values);
        auto alike = std::ranges::find(all, how, &Alike::how);
        if (alike == all.end()) {
            alike = all.insert(all.end(), {std::move(how), {}});
        }
        alike->variables.push_back(barrier.variable);
    }
    std::vector<Phrase> parts;
    for (const Alike& alike : all) {
        parts.push_back(tongue().say<Saying::things_stand>(in<"what">(tongue().all_of(things(alike.variables))),
                                                           in<"how">(alike.how)));
    }
    return tongue().say<Saying::leave_so_while_on>(in<"source">(name(words_->source(source))),
                                                   in<"what">(tongue().series_of(parts)));
}

bool LeavingComposer::stands_as_ever(const std::vector<ValueSet>& standing) const {
    bool known = false;
    for (std::size_t i = 0; i < as_ever_.size() && i < standing.size(); ++i) {
        known = known || as_ever_[i];
        if (as_ever_[i] && (standing[i] & ~*as_ever_[i]) != 0) {
            return false;
        }
    }
    return known;
}

Phrase LeavingComposer::break_off(const SheetStep& sheet, const Step& step, const proofs::StepReport& report) const {
    std::vector<Phrase> sentences;
    if (!report.safe_to_stop && !(stands_as_ever(report.standing) && !report.falling && !keeps_running(step))) {
        std::vector<Phrase> sources;
        for (const Wording& source : sheet.running) {
            sources.push_back(phrase(label(source)));
        }
        return sources.empty() ? tongue().say<Saying::do_not_leave_running_out>()
                               : tongue().say<Saying::do_not_leave_on>(in<"sources">(tongue().all_of(sources)));
    }
    Phrase text = !report.safe_to_stop     ? tongue().say<Saying::break_off_in_use>()
                  : report.charged.empty() ? tongue().say<Saying::break_off>()
                                           : tongue().say<Saying::break_off_under_pressure>();
    if (report.may_freeze) {
        append(text, phrase(" ", tongue().say<Saying::not_yet_frost_safe>()));
    }
    if (report.spoilt) {
        append(text, phrase(" ", tongue().say<Saying::not_fit_to_drink>()));
    }
    return text;
}

void LeavingComposer::add_to(SheetStep& sheet, const proofs::StepReport& report, const std::vector<Wording>& conditions,
                             bool for_all) {
    const Step& step = *report.step;
    const bool as_ever = stands_as_ever(report.standing) && !keeps_running(step);
    for (const proofs::HeldBack& held : report.held_back) {
        if (as_ever) {
            break; // nobody has to be told to leave alone what stands as it does in use
        }
        const auto running = [&](const std::vector<SourceId>& sources) {
            return std::ranges::find(sources, held.source) != sources.end();
        };
        if (running(running_before_) && !running(report.running)) {
            continue; // the step turns it off
        }
        std::vector<Left>& left = left_[held.source.value];
        const auto is_known = [&](const proofs::Barrier& barrier) {
            return std::ranges::any_of(left, [&](const Left& each) {
                return each.barrier == barrier && std::ranges::all_of(each.conditions, [&](const Wording& condition) {
                           return std::ranges::find(conditions, condition) != conditions.end();
                       });
            });
        };
        if (std::ranges::all_of(held.barriers, is_known)) {
            continue;
        }
        sheet.leave_so.push_back(leave_so(held.source, held.barriers));
        for (const proofs::Barrier& barrier : held.barriers) {
            if (for_all) {
                left.push_back({barrier, conditions});
            }
        }
    }
    running_before_ = report.running;
    Phrase text = break_off(sheet, step, report);
    if (said_ != text) {
        said_ = text;
        sheet.break_off = std::move(text);
        if (may_have_frozen_ && report.safe_to_stop && !report.may_freeze) {
            append(sheet.break_off, phrase(" ", tongue().say<Saying::frost_safe_now>()));
        }
        may_have_frozen_ = report.may_freeze;
    }
    if (!for_all) {
        said_.reset();
    }
}

} // namespace curbstop::output
