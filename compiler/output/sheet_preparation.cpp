#include "output/sheet_preparation.h"

#include "output/gear.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_quantities.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace curbstop::output {

using namespace meaning;

namespace {

/// Walks all steps and remembers under which options and how often each statement comes.
class Collector {
  public:
    Collector(const Words& words, const quantities::Quantities* quantities)
        : words_(&words)
        , quantities_(quantities) {}

    void items(const StageItems& items) {
        for (const StageItem& item : items) {
            std::visit([this](const auto& each) { visit(each); }, item.what);
        }
    }

    [[nodiscard]] Preparation finish() const;

  private:
    struct Alternative {
        Wording condition;
        Applies applies;

        bool operator==(const Alternative&) const = default;
    };
    struct Wanted {
        Phrase text;
        std::vector<Alternative> alternatives; // never empty, each once
    };
    struct Amount {
        Wording name, condition;
        Applies applies;
        bool fluid = false;
        bool open_amount = false; // some step names no quantity
        std::vector<Quantity> amounts;
    };

    void visit(const Step& step) { statements(step.statements); }
    void visit(const ConditionalSteps& steps) {
        under(steps.condition, [&] { items(steps.items); });
    }
    void visit(const InCaseSteps& steps) {
        in_case([&] { items(steps.items); });
    }
    void visit(const RepeatSteps& steps) {
        times_over(steps.at_most, [&] { items(steps.items); });
    }
    void visit(const MeanwhileSteps& steps) { items(steps.items); }

    void statements(const Statements& all) {
        for (const Statement& statement : all) {
            under(statement.exists, [&] { std::visit([this](const auto& each) { visit(each); }, statement.what); });
        }
    }
    void visit(const HoldStatement& s) { statements(s.body); }
    void visit(const RepeatStatement& s) {
        times_over(s.at_most, [&] { statements(s.body); });
    }
    void visit(const ConditionalStatement& s) {
        under(s.condition, [&] { statements(s.body); });
    }
    void visit(const InCaseStatement& s) {
        in_case([&] { statements(s.body); });
    }
    void visit(const SetStatement& s) {
        for (const Setting& setting : s.settings) {
            const Variable& variable = words_->system()[setting.variable];
            if (variable.kind == VariableKind::cover && setting.value == 1) {
                cover(setting.variable);
            }
        }
    }
    void visit(const WearStatement& s) {
        for (const Phrase& item : words_->labels(s.items)) {
            add_once(wear_, item);
        }
    }
    void visit(const BringStatement& s) {
        if (supply(s.fluid) != nullptr) {
            return; // told once, as it was worked out
        }
        bring(s.fluid ? words_->fluid(s.fluid) : words_->told(s.item), bool(s.fluid), s.amount);
    }
    void visit(const CoupleStatement& s) {
        gear(s.a);
        gear(s.b);
    }
    void visit(const PlaceStatement& s) { vessel(s.chamber); }
    void visit(const DipStatement& s) { vessel(s.vessel); }
    void visit(const PourStatement& s) { vessel(s.vessel); }
    template <class Other>
    void visit(const Other&) {} // asks for nothing beforehand

    template <class Body>
    void under(ExpressionId condition, Body body) {
        const std::size_t outer = conditions_.size();
        const Applies outer_applies = applies_;
        applies_ = Applies::both(applies_, Applies::under(words_->system(), condition));
        if (condition != Expressions::always()) {
            for (const Phrase& part : words_->expressions(condition)) {
                conditions_.push_back(plain(part));
            }
        }
        body();
        conditions_.resize(outer);
        applies_ = outer_applies;
    }
    template <class Body>
    void in_case(Body body) {
        conditions_.emplace_back(tongue().text(Saying::if_it_comes_to_that));
        const Applies outer = applies_;
        applies_ = Applies::both(applies_, Applies::open());
        body();
        conditions_.pop_back();
        applies_ = outer;
    }
    template <class Body>
    void times_over(std::uint32_t at_most, Body body) {
        const std::uint64_t outer = repeats_;
        // Saturates: what is said then is "too much to add up", never a small number.
        repeats_ = at_most > 0 && repeats_ > UINT32_MAX / at_most ? UINT32_MAX : repeats_ * at_most;
        body();
        repeats_ = outer;
    }

    [[nodiscard]] const Tongue& tongue() const { return words_->tongue(); }

    [[nodiscard]] Wording condition() const {
        std::vector<Phrase> distinct;
        for (const Wording& each : conditions_) {
            if (std::find(distinct.begin(), distinct.end(), phrase(each)) == distinct.end()) {
                distinct.push_back(phrase(each));
            }
        }
        return distinct.empty() ? Wording()
                                : plain(tongue().say<Saying::only_where>(in<"condition">(tongue().all_of(distinct))));
    }
    // What is asked for under several conditions is listed once, with all of them; without any, if it ever comes so.
    void add_once(std::vector<Wanted>& list, Phrase text) {
        auto known = std::find_if(list.begin(), list.end(), [&](const Wanted& each) { return each.text == text; });
        if (known == list.end()) {
            known = list.insert(list.end(), Wanted{std::move(text), {}});
        }
        Alternative here{condition(), applies_};
        if (std::find(known->alternatives.begin(), known->alternatives.end(), here) == known->alternatives.end()) {
            known->alternatives.push_back(std::move(here));
        }
    }
    [[nodiscard]] std::vector<BringItem> listed(const std::vector<Wanted>& list) const {
        std::vector<BringItem> items;
        for (const Wanted& each : list) {
            BringItem& item = items.emplace_back(BringItem{each.text, {}, each.alternatives.front().applies});
            for (const Alternative& alternative : each.alternatives) {
                item.condition = item.condition.empty()
                                     ? alternative.condition
                                     : plain(tongue().say<Saying::or_else_only>(in<"first">(item.condition),
                                                                                in<"second">(alternative.condition)));
                item.applies = Applies::either(item.applies, alternative.applies);
                if (alternative.condition.empty()) {
                    item.condition.clear();
                    break;
                }
            }
        }
        return items;
    }
    [[nodiscard]] const quantities::Supply* supply(FluidId fluid) const {
        if (quantities_ == nullptr || !fluid) {
            return nullptr;
        }
        const auto found = std::ranges::find(quantities_->supplies, fluid, &quantities::Supply::fluid);
        return found == quantities_->supplies.end() ? nullptr : &*found;
    }
    void cover(VariableId id) {
        std::vector<Phrase> places;
        for (const WorkPlace& place : words_->places(id)) {
            places.push_back(phrase(words_->place(place)));
        }
        const Wording where = plain(tongue().one_of(places));
        const Piece what = label(words_->variable(id));
        add_once(covers_,
                 where.empty() ? phrase(what) : tongue().say<Saying::standing>(in<"what">(what), in<"how">(where)));
    }
    void gear(VariableId end) {
        if (const PartId id = words_->system()[end].part; is_gear(words_->system(), id)) {
            add_once(gear_, phrase(label(words_->part(id))));
        }
    }
    void vessel(ChamberId id) {
        const Chamber& chamber = words_->system()[id];
        Phrase text = phrase(label(words_->chamber(id)));
        if (chamber.volume) {
            append(text, ", " + quantity_words(*chamber.volume, tongue()));
        }
        if (chamber.fluid) {
            text =
                tongue().say<Saying::clause_filled>(in<"what">(text), in<"fluid">(label(words_->fluid(chamber.fluid))));
        }
        if (chamber.strength) {
            text = tongue().say<Saying::clause_strength_least>(
                in<"what">(text), in<"strength">(quantity_words(*chamber.strength, tongue())));
        }
        if (const quantities::Supply* known = supply(chamber.fluid)) {
            text = known->mixed_on_the_spot ? tongue().say<Saying::clause_mixed_on_the_spot>(in<"what">(text))
                                            : tongue().say<Saying::clause_out_of_supply>(in<"what">(text));
            const auto from = std::ranges::find(known->vessels, id, &proofs::SupplyReport::FromVessel::vessel);
            const double holds = chamber.volume ? to_double(*chamber.volume, Unit::m3) : 0;
            if (from != known->vessels.end() && from->needs < holds * 0.95) { // less than full will do
                text = tongue().say<Saying::clause_or_more>(in<"what">(text),
                                                            in<"amount">(volume_words(from->needs, tongue())));
            }
        }
        add_once(vessels_, std::move(text));
    }
    void bring(Wording name, bool fluid, std::optional<Quantity> amount) {
        const Wording where = condition();
        auto known = std::find_if(amounts_.begin(), amounts_.end(), [&](const Amount& each) {
            return each.name == name && each.condition == where && each.fluid == fluid;
        });
        if (known == amounts_.end()) {
            known = amounts_.insert(amounts_.end(), Amount{std::move(name), where, applies_, fluid, false, {}});
        }
        const auto all = amount ? times(*amount, repeats_) : std::nullopt;
        known->open_amount = known->open_amount || !all;
        if (all) {
            known->amounts.push_back(*all);
        }
    }

    const Words* words_;
    const quantities::Quantities* quantities_;
    std::vector<Wording> conditions_;
    Applies applies_; // the same, all together
    std::uint64_t repeats_ = 1;
    std::vector<Wanted> wear_, covers_, vessels_, gear_;
    std::vector<Amount> amounts_;
};

Preparation Collector::finish() const {
    Preparation result;
    result.wear = listed(wear_);
    result.covers = listed(covers_);
    if (quantities_ != nullptr) {
        for (const quantities::Supply& each : quantities_->supplies) {
            if (!each.mixed_on_the_spot) {
                result.bring.push_back({supply_words(*words_, each)});
            }
        }
    }
    for (const Amount& amount : amounts_) {
        Phrase text = phrase(label(amount.name));
        if (const auto total = sum(amount.amounts)) {
            const auto much = in<"amount">(quantity_words(*total, tongue(), Towards::more));
            const auto what = in<"what">(text);
            text = amount.open_amount ? tongue().say<Saying::amount_or_more_of>(much, what)
                                      : tongue().say<Saying::amount_of>(much, what);
        }
        result.bring.push_back({std::move(text), amount.condition, amount.applies});
    }
    for (BringItem& gear : listed(gear_)) {
        result.bring.push_back(std::move(gear));
    }
    for (BringItem& vessel : listed(vessels_)) {
        result.bring.push_back(std::move(vessel));
    }
    for (const Option& option : words_->system().options) {
        result.options.push_back({option.name, words_->named(option)});
    }
    return result;
}

} // namespace

Preparation collect_preparation(const Words& words, const Procedure& procedure,
                                const quantities::Quantities* quantities) {
    Collector collector(words, quantities);
    for (const Stage& stage : procedure.stages) {
        collector.items(stage.items);
    }
    return collector.finish();
}

std::string walk_length(const Words& words, const std::vector<ZoneId>& zones) {
    const System& system = words.system();
    // Bellman and Ford from each zone that is left: zones are few.
    std::vector<Quantity> legs;
    for (std::size_t i = 0; i + 1 < zones.size(); ++i) {
        std::vector<std::optional<Quantity>> reached(system.zones.size());
        reached[zones[i].value] = Quantity{Dimension::length, Rational(0)};
        for (std::size_t round = 0; round < system.zones.size(); ++round) {
            for (const Walk& walk : system.walks) {
                for (const auto& [from, to] : {std::pair(walk.a, walk.b), std::pair(walk.b, walk.a)}) {
                    if (!reached[from.value]) {
                        continue;
                    }
                    const auto there = sum({*reached[from.value], walk.length});
                    if (there && (!reached[to.value] || *there < *reached[to.value])) {
                        reached[to.value] = there;
                    }
                }
            }
        }
        if (!reached[zones[i + 1].value]) {
            return {};
        }
        legs.push_back(*reached[zones[i + 1].value]);
    }
    const auto total = sum(legs);
    if (!total) {
        return {};
    }
    // Nobody walks by the half metre.
    const double metres = to_double(*total, Unit::m);
    const std::int64_t step = metres < 100 ? 1 : 10;
    const auto rounded = make_quantity(Rational(std::llround(metres / static_cast<double>(step)) * step), Unit::m);
    return quantity_words(rounded.value_or(*total), words.tongue(), Towards::more);
}

} // namespace curbstop::output
