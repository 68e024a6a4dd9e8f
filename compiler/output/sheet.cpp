#include "output/sheet.h"

#include "output/clean_text.h"
#include "output/crew.h"
#include "output/limits.h"
#include "output/quantity_words.h"
#include "output/sheet_aftercare.h"
#include "output/sheet_beforehand.h"
#include "output/sheet_brief.h"
#include "output/sheet_leaving.h"
#include "output/sheet_lines.h"
#include "output/sheet_once.h"
#include "output/sheet_pocket.h"
#include "output/sheet_preparation.h"
#include "output/sheet_quantities.h"
#include "output/sheet_standing.h"
#include "output/sheet_walk.h"
#include "output/step_places.h"
#include "output/whereabouts.h"
#include "output/words.h"

#include <algorithm>
#include <optional>
#include <unordered_map>

namespace curbstop::output {

using namespace meaning;

namespace {

/// A walk of more places than this is told by its places alone: nobody reads sixty arrows.
constexpr std::size_t longest_walk_in_full = 12;

/// Goes through the stages in the order of the sheet: numbers the steps, says where to go.
class Composer {
  public:
    Composer(const Words& words, const Procedure& procedure, const proofs::ProcedureReport& report,
             const quantities::Quantities& quantities)
        : words_(&words)
        , quantities_(&quantities)
        , hot_moves_(report.hot_moves ? &*report.hot_moves : nullptr)
        , leaving_(words, procedure, report)
        , crew_(words) {
        for (const proofs::StepReport& step : report.steps) {
            reports_.emplace(step.step, &step);
        }
    }

    [[nodiscard]] SheetStage stage(const Stage& stage) {
        SheetStage result;
        result.label = words_->told_or(stage.label, Saying::stage_without_name);
        meanings_.clear();
        cautions_.clear();
        const auto add = [&](const std::vector<Contract>& contracts, bool requires_, std::vector<Line>& to) {
            const LineComposer lines(*words_, {}, {}, quantities_, {nullptr, hot_moves_, waited_in_});
            for (const Contract& contract : contracts) {
                const std::vector<Line> composed = lines.contract_lines(contract.expression, requires_);
                to.insert(to.end(), composed.begin(), composed.end());
            }
        };
        add(stage.requires_, true, result.opening);
        result.blocks = blocks(stage.items);
        add(stage.ensures, false, result.closing);
        return result;
    }

    [[nodiscard]] std::uint32_t steps() const { return steps_; }
    [[nodiscard]] const std::vector<ZoneId>& walk() const { return walk_; }
    [[nodiscard]] const std::vector<std::uint32_t>& helper_steps() const { return helper_steps_; }
    [[nodiscard]] const std::vector<std::uint32_t>& third_steps() const { return third_steps_; }

  private:
    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }

    [[nodiscard]] std::vector<Block> blocks(const StageItems& items) {
        std::vector<Block> result;
        for (const StageItem& item : items) {
            std::visit([&](const auto& each) { add(each, result); }, item.what);
        }
        join_alike(result);
        return result;
    }

    /// Steps one after the other that hang on the same options stand in one box, however the author grouped them.
    static void join_alike(std::vector<Block>& blocks) {
        for (std::size_t i = 1; i < blocks.size();) {
            Block& before = blocks[i - 1];
            Block& block = blocks[i];
            if (before.kind != BlockKind::conditional || block.kind != BlockKind::conditional ||
                before.heading != block.heading) {
                ++i;
                continue;
            }
            std::ranges::move(block.blocks, std::back_inserter(before.blocks));
            blocks.erase(blocks.begin() + static_cast<std::ptrdiff_t>(i));
        }
    }

    void add(const Step& step, std::vector<Block>& result) {
        Block block;
        block.step = compose(step);
        result.push_back(std::move(block));
    }
    void add(const ConditionalSteps& steps, std::vector<Block>& result) {
        const Phrase condition = left_to_ask(*words_, steps.condition, conditions_);
        if (condition.empty()) {
            for (Block& block : blocks(steps.items)) {
                result.push_back(std::move(block));
            }
            return;
        }
        const std::size_t outer = conditions_.size();
        for (const Phrase& part : words_->expressions(steps.condition)) {
            conditions_.push_back(plain(part));
        }
        Phrase heading = tongue().say<Saying::only_where_title>(in<"condition">(plain(condition)));
        result.push_back(box_of_some(BlockKind::conditional, heading, steps.items,
                                     Applies::under(words_->system(), steps.condition)));
        result.back().brief = std::move(heading);
        conditions_.resize(outer);
    }
    void add(const InCaseSteps& steps, std::vector<Block>& result) {
        Phrase heading = tongue().say<Saying::in_case>(in<"what">(label(words_->told(steps.words))));
        conditions_.push_back(plain(heading));
        result.push_back(box_of_some(BlockKind::in_case, std::move(heading), steps.items, Applies::open()));
        result.back().brief = brief_case(*words_, steps);
        conditions_.pop_back();
    }
    void add(const RepeatSteps& steps, std::vector<Block>& result) {
        Phrase heading = tongue().say_of<Saying::repeat_steps>(steps.at_most);
        if (steps.until) {
            heading =
                tongue().say<Saying::repeat_until>(in<"what">(heading), in<"seen">(words_->observation(*steps.until)));
        }
        Block block = box(BlockKind::repeat, std::move(heading), steps.items);
        block.rounds = steps.at_most;
        block.brief = brief_repeat(*words_, steps);
        result.push_back(std::move(block));
    }
    void add(const MeanwhileSteps& steps, std::vector<Block>& result) {
        const LineComposer lines(*words_, {}, conditions_, quantities_);
        Block block = box(BlockKind::meanwhile, tongue().say<Saying::while_this_goes_on>(), steps.items);
        block.brief = brief_meanwhile(*words_, steps, quantities_);
        block.closing = lines.flow_lines(steps.flow); // nothing runs yet where the box begins
        result.push_back(std::move(block));
    }
    /// Of steps that only some readers come to: the others have not been there, nor read what they say.
    [[nodiscard]] Block box_of_some(BlockKind kind, Phrase heading, const StageItems& items, const Applies& applies) {
        const LeavingComposer::BreakOff said = leaving_.said();
        const std::size_t meanings = meanings_.size();
        const std::size_t cautions = cautions_.size();
        reads_if_.push_back(applies.postfix());
        const Whereabouts before = at_;
        at_ = at_.of_those(applies);
        Block block = box(kind, std::move(heading), items);
        block.applies = applies;
        at_.join_others(before, applies);
        leaving_.join_others(said);
        meanings_.resize(meanings);
        reads_if_.pop_back();
        if (kind == BlockKind::in_case) {
            cautions_.resize(cautions);
        }
        return block;
    }
    [[nodiscard]] Block box(BlockKind kind, Phrase heading, const StageItems& items) {
        Block block{kind};
        block.heading = std::move(heading);
        block.blocks = blocks(items);
        return block;
    }

    [[nodiscard]] SheetStep compose(const Step& step) {
        SheetStep result;
        result.number = ++steps_;
        result.title = words_->told(step.title);
        if (result.title.empty()) {
            result.title = plain(tongue().say<Saying::step_without_name>(in<"number">(tongue().number(result.number))));
        }
        const auto found = reports_.find(&step);
        const proofs::StepReport* report = found == reports_.end() ? nullptr : found->second;
        StepPlaces places = places_of(*words_, step, at_, placed_);
        std::vector<SourceId> unattended;
        if (report != nullptr) {
            if (places.own.empty()) {
                places = {report->zones, report->zones};
            }
            add_places(places, result);
            unattended = add_report(*report, places, result);
        }
        const Wording only_place = result.zones.size() == 1 ? result.zones.front() : Wording();
        const LineComposer::Known known{&step, hot_moves_, waited_in_, &places.own};
        result.lines = LineComposer(*words_, only_place, conditions_, quantities_, known).lines(step.statements);
        const bool all_do_all = std::ranges::all_of(result.lines, is_always_done);
        if (!places.own.empty()) {
            // Of several places, not everybody need have been at the last.
            at_.are(all_do_all ? std::vector{places.own.back()} : places.own);
        }
        if (report != nullptr) {
            // A step of which all hangs on options is not there for those who have none of them.
            const bool for_all = result.lines.empty() || std::ranges::any_of(result.lines, is_always_done);
            leaving_.add_to(result, *report, conditions_, for_all);
        }
        if (result.helper && !has_helper(result.lines)) {
            result.lines.insert(result.lines.begin(), {LineKind::helper, {}, tongue().say<Saying::second_person>()});
        }
        if (!unattended.empty()) {
            add_who_stays(unattended, result);
        }
        helpers_first(result.lines);
        say_cautions_once(result.lines, result.number, reads_if_, cautions_);
        say_places_once(result.lines, {});
        say_meanings_once(result.lines, meanings_);
        dosed_ = dosed_ || std::ranges::any_of(step.statements, [this](const Statement& each) {
                     const auto* pour = std::get_if<PourStatement>(&each.what);
                     return pour != nullptr && words_->system()[pour->vessel].fluid &&
                            !words_->system()[words_->system()[pour->vessel].fluid].disinfects.empty();
                 });
        result.brief = brief_words(*words_, step, conditions_, quantities_, dosed_);
        if (std::ranges::any_of(step.statements, [](const Statement& each) {
                return std::holds_alternative<WaitStatement>(each.what);
            })) {
            waited_in_ = result.number;
        }
        if (waited_in_ != 0 && looks_whether_cool(step)) {
            waited_in_ = result.number; // in case one had to wait, or whatever else shows it: there it was asked
        }
        return result;
    }

    [[nodiscard]] bool looks_whether_cool(const Step& step) const {
        return std::ranges::any_of(step.statements, [this](const Statement& each) {
            const auto* verify = std::get_if<VerifyStatement>(&each.what);
            return verify != nullptr &&
                   std::ranges::any_of(words_->conjuncts(verify->expression), [this](ExpressionId piece) {
                       return words_->system()[piece].kind == ExpressionKind::cool;
                   });
        });
    }

    [[nodiscard]] static bool is_always_done(const Line& line) {
        return line.applies.always() && line.kind != LineKind::in_case &&
               std::ranges::all_of(line.body, is_always_done);
    }

    void add_places(const StepPlaces& places, SheetStep& step) {
        for (auto zone = places.all.begin(); zone != places.all.end(); ++zone) {
            if (std::find(places.all.begin(), zone, *zone) == zone) {
                step.zones.push_back(words_->zone(*zone));
            }
        }
        if (!places.own.empty() && !at_.surely(places.own.front())) {
            step.go_to = words_->zone(places.own.front());
        }
        for (const ZoneId zone : places.own) {
            if (walk_.empty() || walk_.back() != zone) {
                walk_.push_back(zone);
            }
        }
    }

    /// Returns what was left on and has to be stood by while nobody works near it.
    std::vector<SourceId> add_report(const proofs::StepReport& report, const StepPlaces& places, SheetStep& step) {
        step.helper = report.helper;
        Needs needs = crew_.next(report, places.all, leaving_.to_stay_by());
        step.people = needs.people;
        if (needs.people > 1) {
            helper_steps_.push_back(step.number);
        }
        if (needs.people > 2) {
            third_steps_.push_back(step.number);
        }
        step.judged = true;
        step.safe_to_stop = report.safe_to_stop;
        for (const SourceId source : report.running) {
            step.running.push_back(words_->source(source));
        }
        return std::move(needs.unattended);
    }

    void add_who_stays(const std::vector<SourceId>& unattended, SheetStep& step) {
        std::vector<Phrase> sources;
        for (const SourceId source : unattended) {
            sources.push_back(phrase(label(words_->source(source))));
        }
        const auto all = in<"source">(tongue().all_of(sources));
        step.lines.insert(step.lines.begin(), {LineKind::helper,
                                               {},
                                               step.people > 2 ? tongue().say<Saying::third_person_stays>(all)
                                                               : tongue().say<Saying::second_person_stays>(all)});
    }

    const Words* words_;
    const quantities::Quantities* quantities_;
    const std::vector<proofs::HotMove>* hot_moves_;
    std::unordered_map<const Step*, const proofs::StepReport*> reports_;
    LeavingComposer leaving_;
    bool dosed_ = false; ///< a disinfectant has been poured in: what is clear may hold it
    std::vector<Wording> conditions_;
    Whereabouts at_;
    std::vector<Phrase> meanings_;      ///< of sights, said in this stage
    std::vector<SaidCaution> cautions_; ///< said in full in this stage
    std::vector<std::string> reads_if_; ///< on which options it hangs whether the next step is read (output/applies.h)
    std::vector<ZoneId> walk_;
    std::vector<std::uint32_t> helper_steps_, third_steps_;
    Crew crew_;
    Placed placed_;
    std::uint32_t steps_ = 0;
    std::uint32_t waited_in_ = 0; ///< the last step in which one waits, or looks then whether it is cool
};

void collect_signals(const std::vector<Line>& lines, std::vector<Signal>& found) {
    for (const Line& line : lines) {
        for (const Caution& caution : line.cautions) {
            found.push_back(caution.signal);
        }
        collect_signals(line.body, found);
    }
}

void collect_signals(const std::vector<Block>& blocks, std::vector<Signal>& found) {
    for (const Block& block : blocks) {
        collect_signals(block.opening, found);
        collect_signals(block.step.lines, found);
        collect_signals(block.blocks, found);
    }
}

std::vector<std::uint32_t> steps_that_put(const System& system, const Procedure& procedure, PartId part) {
    std::vector<std::uint32_t> steps;
    const auto add = [&](const Setting& setting, std::uint32_t step) {
        if (setting.variable && system[setting.variable].part == part && step > 0 &&
            (steps.empty() || steps.back() != step)) {
            steps.push_back(step);
        }
    };
    each_statement(procedure, [&](const auto& statement, const Circumstances& here) {
        using Each = std::decay_t<decltype(statement)>;
        if constexpr (std::is_same_v<Each, SetStatement>) {
            for (const Setting& setting : statement.settings) {
                add(setting, here.step);
            }
        } else if constexpr (std::is_same_v<Each, HoldStatement>) {
            add(statement.setting, here.step);
        }
    });
    return steps;
}

/// Whether anything is proved of it only for those who found what a step asks them to find.
bool asks_to_read_or_look(const Procedure& procedure) {
    bool found = false;
    each_statement(procedure, [&](const auto& statement, const Circumstances&) {
        using Each = std::decay_t<decltype(statement)>;
        if constexpr (std::is_same_v<Each, RecordStatement>) {
            found = found || statement.at_least || statement.at_most;
        } else if constexpr (std::is_same_v<Each, FlowStatement> || std::is_same_v<Each, KeepStatement>) {
            found = found || statement.flow.until;
        }
    });
    return found;
}

/// Sorts what the procedure asks for into what is proved of its end and what is not proved.
void add_contracts(const Words& words, const Procedure& procedure, const proofs::ProcedureReport& report,
                   Sheet& sheet) {
    std::vector<std::string> as_written;
    const auto add = [&](const Contract& contract, bool at_end) {
        for (const ExpressionId piece : words.conjuncts(contract.expression)) {
            if (!is_proved(words.system(), piece)) {
                const auto what = in<"what">(words.expression(piece));
                sheet.not_proved.push_back(at_end ? words.tongue().say<Saying::at_the_end>(what)
                                                  : words.tongue().say<Saying::at_the_start>(what));
                as_written.push_back(contract.words);
            } else if (at_end && says_how_things_stand(words.system(), piece)) {
                sheet.stands_as_listed = true;
            } else if (at_end) {
                Phrase result = words.expression(piece);
                if (words.system()[piece].kind == ExpressionKind::frost_safe && asks_to_read_or_look(procedure)) {
                    result = words.tongue().say<Saying::if_read_so>(in<"what">(result));
                }
                sheet.results.push_back(std::move(result));
            }
        }
    };
    for (const Contract& contract : procedure.requires_) {
        add(contract, false);
    }
    for (const Contract& contract : procedure.ensures) {
        add(contract, true);
    }
    // Whatever else the proof says it has not proved, in its own words.
    for (const std::string& each : report.not_proved) {
        if (std::find(as_written.begin(), as_written.end(), each) == as_written.end()) {
            sheet.not_proved.push_back(phrase(one_line(each)));
        }
    }
}

} // namespace

Sheet compose_sheet(const Model& model, const Procedure& procedure, const proofs::ProcedureReport& report,
                    SheetInfo info) {
    const Tongue tongue(info.language);
    const Words words(model.system, tongue);
    Sheet sheet;
    sheet.language = info.language;
    sheet.info = std::move(info);
    sheet.system = words.named(model.system);
    sheet.procedure = words.named(procedure);
    sheet.system_name = model.system.name;
    sheet.running_head = shortened(sheet.system) + " – " + shortened(sheet.procedure);
    sheet.running_foot = tongue.text(Saying::foot_of_pages);
    sheet.procedure_name = procedure.name;
    sheet.about = words.told({procedure.doc, procedure.label.language}); // a comment has no translation
    sheet.instants = report.instants;
    sheet.configurations_log2 = report.configurations_log2;
    const quantities::Quantities quantities = quantities::work_out(model.system, procedure, report);
    Composer composer(words, procedure, report, quantities);
    for (const Stage& stage : procedure.stages) {
        sheet.stages.push_back(composer.stage(stage));
    }
    sheet.steps = composer.steps();

    sheet.preparation = collect_preparation(words, procedure, &quantities);
    sheet.quantities = quantity_cards(words, quantities);
    sheet.staying = staying_table(words, quantities);
    const std::vector<ZoneId>& walk = composer.walk();
    const bool long_walk = walk.size() > longest_walk_in_full;
    for (auto zone = walk.begin(); zone != walk.end(); ++zone) {
        if (!long_walk || std::find(walk.begin(), zone, *zone) == zone) {
            sheet.preparation.walk.push_back(words.zone(*zone));
        }
    }
    sheet.preparation.place_changes = walk.empty() ? 0 : static_cast<std::uint32_t>(walk.size() - 1);
    sheet.preparation.cards =
        beforehand_cards(words, procedure, quantities, {sheet.steps, sheet.preparation.place_changes});
    sheet.preparation.walk_length = walk_length(words, composer.walk());
    sheet.preparation.helper_steps = composer.helper_steps();
    sheet.preparation.third_steps = composer.third_steps();
    std::vector<Signal>& signals = sheet.preparation.signals;
    for (const SheetStage& stage : sheet.stages) {
        collect_signals(stage.blocks, signals);
    }
    std::sort(signals.begin(), signals.end());
    signals.erase(std::unique(signals.begin(), signals.end()), signals.end());

    if (procedure.as_left_by) {
        const Procedure& before = model.procedures[procedure.as_left_by->value];
        sheet.as_left_by = words.named(before);
        sheet.as_left_by_name = before.name;
        if (!sheet.info.as_left.empty()) {
            sheet.left = standing_groups(words, sheet.info.as_left, {.tells_covers = true});
        }
    }
    sheet.all_photos = &model.system.photos;
    for (std::size_t i = 0; i < model.system.parts.size(); ++i) {
        for (const PhotoId photo : model.system.parts[i].photos) {
            sheet.photos.push_back({words.part(PartId(i)), photo, words.told(model.system[photo].words),
                                    steps_that_put(model.system, procedure, PartId(i))});
        }
    }
    sheet.before =
        standing_groups(words, required_standing(model.system, procedure), {.pinned_only = true, .tells_covers = true});
    sheet.requirements = other_requirements(words, procedure);
    if (!report.steps.empty()) {
        sheet.after = standing_groups(words, report.steps.back().standing, {});
    }
    add_contracts(words, procedure, report, sheet);
    sheet.tags = tag_sheet(words, model, procedure, report);
    sheet.records = record_sheet(words, procedure);
    sheet.next = next_card(words, model, procedure);
    sheet.pocket = compose_pocket(sheet);
    return sheet;
}

} // namespace curbstop::output
