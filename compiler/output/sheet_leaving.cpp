#include "output/sheet_leaving.h"

#include "output/sheet_lines.h"
#include "output/sheet_standing.h"
#include "output/sheet_switches.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace curbstop::output {

using namespace meaning;

namespace {

bool keeps_running(const Step& step) {
    return std::ranges::any_of(step.statements, [](const Statement& statement) {
        return std::holds_alternative<KeepStatement>(statement.what);
    });
}

void collect_done_by_all(const StageItems& items, std::vector<const Step*>& steps) {
    for (const StageItem& item : items) {
        if (const auto* step = std::get_if<Step>(&item.what)) {
            steps.push_back(step);
        } else if (const auto* repeat = std::get_if<RepeatSteps>(&item.what)) {
            collect_done_by_all(repeat->items, steps);
        } else if (const auto* meanwhile = std::get_if<MeanwhileSteps>(&item.what)) {
            collect_done_by_all(meanwhile->items, steps);
        }
    }
}

using Switches = std::vector<std::pair<VariableId, ValueSet>>;

bool switches_on(const Switches& switches, const Setting& setting) {
    return std::ranges::any_of(switches, [&](const auto& each) {
        return each.first == setting.variable && (each.second >> setting.value & 1) != 0;
    });
}

/// Follows a step and tells what it moves once a source is on: how that stands at the end is not how it stood
/// meanwhile.
class MovedSinceOn {
  public:
    MovedSinceOn(const Switches& switches, bool on_before)
        : switches_(&switches)
        , on_(on_before) {}

    void statements(const Statements& all) {
        for (const Statement& each : all) {
            std::visit([this](const auto& what) { visit(what); }, each.what);
        }
    }
    [[nodiscard]] bool moved(VariableId id) const { return std::ranges::find(moved_, id) != moved_.end(); }

  private:
    void put(const Setting& setting) {
        move(setting.variable);
        on_ = on_ || switches_on(*switches_, setting);
    }
    void move(VariableId id) {
        if (on_) {
            moved_.push_back(id);
        }
    }
    void visit(const SetStatement& s) {
        std::ranges::for_each(s.settings, [this](const Setting& each) { put(each); });
    }
    void visit(const HoldStatement& s) {
        put(s.setting);
        statements(s.body);
    }
    void visit(const CoupleStatement& s) {
        move(s.a);
        move(s.b);
    }
    void visit(const UncoupleStatement& s) { move(s.end); }
    void visit(const CapStatement& s) { move(s.end); }
    void visit(const DipStatement& s) { move(s.end); }
    void visit(const LiftOutStatement& s) { move(s.end); }
    void visit(const RepeatStatement& s) { statements(s.body); }
    void visit(const ConditionalStatement& s) { statements(s.body); }
    void visit(const InCaseStatement& s) { statements(s.body); }
    template <class Other>
    void visit(const Other&) {} // moves nothing

    const Switches* switches_;
    bool on_;
    std::vector<VariableId> moved_;
};

/// Puts `line` before the first action that switches the source on; says whether there is one.
bool insert_before_switch(std::vector<Line>& lines, const Switches& switches, Line& line) {
    for (auto each = lines.begin(); each != lines.end(); ++each) {
        if (each->puts && switches_on(switches, *each->puts)) {
            lines.insert(each, std::move(line));
            return true;
        }
        const bool has_condition = each->kind == LineKind::conditional;
        const Wording condition = line.condition;
        if (has_condition) {
            line.condition.clear(); // the box says it
        }
        if (insert_before_switch(each->body, switches, line)) {
            return true;
        }
        line.condition = condition;
    }
    return false;
}

} // namespace

LeavingComposer::LeavingComposer(const Words& words, const Procedure& procedure, const proofs::ProcedureReport& report)
    : words_(&words)
    , as_ever_(words.system().variables.size())
    , left_(words.system().sources.size()) {
    std::vector<const Step*> by_all;
    for (const Stage& stage : procedure.stages) {
        collect_done_by_all(stage.items, by_all);
    }
    for (const proofs::StepReport& each : report.steps) {
        if (std::ranges::find(by_all, each.step) != by_all.end()) {
            done_by_all_.push_back(&each);
        }
    }
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
        if (count <= 1) {
            continue;
        }
        const Phrase all = phrase(label(words_->named(group)));
        std::vector<Phrase> others;
        for (const PartId part : group.parts) {
            const VariableId variable = system[part].variable;
            if (!variable || std::ranges::find(left, variable) == left.end()) {
                others.push_back(phrase(label(words_->part(part))));
            }
        }
        constexpr std::size_t named_apart = 2; // more of them, and the rest is named one by one
        if (others.empty()) {
            result.push_back(all);
            std::erase_if(left, of_group);
        } else if (others.size() <= named_apart && 2 * others.size() < static_cast<std::size_t>(count)) {
            result.push_back(tongue().say<Saying::all_but>(in<"what">(all), in<"others">(tongue().all_of(others))));
            std::erase_if(left, of_group);
        }
    }
    for (const VariableId id : left) {
        result.push_back(phrase(label(words_->variable(id))));
    }
    return result;
}

Phrase LeavingComposer::leave_so(SourceId source, const std::vector<proofs::Barrier>& barriers, bool besides) const {
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
    const auto what = in<"what">(tongue().series_of(parts));
    const auto of = in<"source">(name(words_->source(source)));
    return besides ? tongue().say<Saying::leave_so_besides>(of, what)
                   : tongue().say<Saying::leave_so_while_on>(of, what);
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

bool LeavingComposer::may_leave(const Step& step, const proofs::StepReport& report) const {
    return report.safe_to_stop || (stands_as_ever(report.standing) && !report.falling && !keeps_running(step));
}

Phrase LeavingComposer::under_pressure(const std::vector<NodeId>& charged) const {
    const System& system = words_->system();
    constexpr std::size_t few = 3; // more of them, and it is the lines
    std::vector<Phrase> parts;
    for (const NodeId node : charged) {
        PartId part = system[node].part;
        while (part && system[part].parent) {
            part = system[part].parent;
        }
        Phrase name = phrase(label(part ? words_->part(part) : Wording()));
        if (!part || (std::ranges::find(parts, name) == parts.end() && parts.size() == few)) {
            return tongue().say<Saying::break_off_under_pressure>();
        }
        if (std::ranges::find(parts, name) == parts.end()) {
            parts.push_back(std::move(name));
        }
    }
    return tongue().say<Saying::break_off_pressure_at>(in<"what">(tongue().all_of(parts)));
}

Phrase LeavingComposer::break_off(const Step& step, const proofs::StepReport& report) const {
    if (!may_leave(step, report)) {
        return left_on(report);
    }
    Phrase text = !report.safe_to_stop     ? tongue().say<Saying::break_off_in_use>()
                  : report.charged.empty() ? tongue().say<Saying::break_off>()
                                           : under_pressure(report.charged);
    if (report.may_freeze) {
        append(text, phrase(" ", tongue().say<Saying::not_yet_frost_safe>()));
    }
    if (report.spoilt) {
        append(text, phrase(" ", tongue().say<Saying::not_fit_to_drink>()));
    }
    return text;
}

template <class So>
std::uint32_t LeavingComposer::until_step(const proofs::StepReport& report, const So& so) const {
    const auto end = std::ranges::find_if(
        done_by_all_, [&](const proofs::StepReport* later) { return later->number > report.number && !so(*later); });
    return end == done_by_all_.end() ? 0 : (*end)->number;
}

std::uint32_t LeavingComposer::off_in(const proofs::StepReport& report, SourceId source) const {
    return until_step(report, [&](const proofs::StepReport& later) {
        return std::ranges::find(later.running, source) != later.running.end();
    });
}

Phrase LeavingComposer::left_on(const proofs::StepReport& report) const {
    const auto step = [&](std::uint32_t number) {
        return in<"step">(plain(tongue().say<Saying::step_number>(in<"number">(tongue().number(number)))));
    };
    if (report.running.empty()) {
        const std::uint32_t until = until_step(report, [](const proofs::StepReport& later) { return later.falling; });
        return until == 0 ? tongue().say<Saying::do_not_leave_running_out>()
                          : tongue().say<Saying::stay_until>(step(until));
    }
    Phrase text;
    std::vector<SourceId> left = report.running;
    while (!left.empty()) {
        // Those that go off in the same step are told of together.
        const std::uint32_t until = off_in(report, left.front());
        std::vector<Phrase> sources;
        std::erase_if(left, [&](SourceId source) {
            const bool alike = off_in(report, source) == until;
            if (alike) {
                sources.push_back(phrase(label(words_->source(source))));
            }
            return alike;
        });
        const auto all = in<"sources">(tongue().all_of(sources));
        append(text, text.empty() ? "" : " ");
        append(text, until == 0 ? tongue().say<Saying::do_not_leave_on>(all)
                                : tongue().say<Saying::stays_on_until>(all, step(until)));
    }
    return text;
}

bool LeavingComposer::is_out_of_reach(const proofs::Barrier& barrier, const proofs::StepReport& report) const {
    const System& system = words_->system();
    const std::vector<WorkPlace> places = words_->places(barrier.variable);
    const bool capped = system[barrier.variable].kind == VariableKind::end && (barrier.values & ~ValueSet{3}) == 0;
    if (capped && !places.empty() && std::ranges::none_of(places, [&](const WorkPlace& place) {
            return std::ranges::find(report.zones, place.zone) != report.zones.end();
        })) {
        return true;
    }
    return !places.empty() && std::ranges::all_of(places, [&](const WorkPlace& place) {
        return std::ranges::any_of(place.covers, [&](VariableId cover) {
            return cover.value < report.standing.size() && report.standing[cover.value] == 1; // shut, and no other way
        });
    });
}

void LeavingComposer::add_leave_so(SheetStep& sheet, const proofs::StepReport& report,
                                   const std::vector<Wording>& conditions, bool for_all) {
    const System& system = words_->system();
    const auto has = [](const std::vector<SourceId>& sources, SourceId source) {
        return std::ranges::find(sources, source) != sources.end();
    };
    for (const proofs::HeldBack& held : report.held_back) {
        const bool on_before = has(running_before_, held.source);
        if (on_before && !has(report.running, held.source)) {
            continue; // the step turns it off
        }
        const Switches switches = switched_by(system, system[held.source].on);
        MovedSinceOn moved(switches, on_before || switches.empty()); // what nothing switches is on all the while
        moved.statements(report.step->statements);
        std::vector<proofs::Barrier> barriers;
        std::ranges::copy_if(held.barriers, std::back_inserter(barriers), [&](const proofs::Barrier& barrier) {
            return !moved.moved(barrier.variable) && !is_out_of_reach(barrier, report);
        });
        std::vector<Left>& left = left_[held.source.value];
        const auto is_known = [&](const proofs::Barrier& barrier) {
            return std::ranges::any_of(left, [&](const Left& each) {
                return each.barrier == barrier && std::ranges::all_of(each.conditions, [&](const Wording& condition) {
                           return std::ranges::find(conditions, condition) != conditions.end();
                       });
            });
        };
        const std::size_t all = barriers.size();
        std::erase_if(barriers, is_known);
        if (barriers.empty()) {
            continue;
        }
        Line line{LineKind::leave_so};
        line.text = leave_so(held.source, barriers, barriers.size() < all);
        if (const PartId part = system[held.source].part) {
            line.condition = only_where(*words_, system[part].exists, conditions);
            line.applies = line.condition.empty() ? Applies() : Applies::under(system, system[part].exists);
        }
        if (on_before || !insert_before_switch(sheet.lines, switches, line)) {
            sheet.lines.insert(sheet.lines.begin(), std::move(line));
        }
        for (const proofs::Barrier& barrier : held.barriers) { // what the step moves, it puts so itself
            if (for_all) {
                left.push_back({barrier, conditions});
            }
        }
    }
}

void LeavingComposer::add_to(SheetStep& sheet, const proofs::StepReport& report, const std::vector<Wording>& conditions,
                             bool for_all) {
    const Step& step = *report.step;
    if (!stands_as_ever(report.standing) || keeps_running(step)) { // else all is as in use, and nobody has to be told
        add_leave_so(sheet, report, conditions, for_all);
    }
    running_before_ = report.running;
    to_stay_by_.clear();
    if (!may_leave(step, report)) {
        std::ranges::copy_if(report.running, std::back_inserter(to_stay_by_),
                             [&](SourceId source) { return off_in(report, source) != 0; });
    }
    Phrase text = break_off(step, report);
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
