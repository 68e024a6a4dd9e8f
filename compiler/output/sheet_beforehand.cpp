#include "output/sheet_beforehand.h"

#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_switches.h"
#include "output/sheet_walk.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace curbstop::output {

using namespace meaning;

namespace {

/// One way in which something is put, and when.
struct Moves {
    std::uint32_t value = 0;
    std::vector<std::uint32_t> steps;
};

/// Per variable, each way in which steps put it, in the order in which it first comes.
class MoveList {
  public:
    MoveList(const System& system, const Procedure& procedure)
        : by_variable_(system.variables.size()) {
        each_statement(procedure, [this](const auto& statement, const Circumstances& here) { add(statement, here); });
    }
    [[nodiscard]] const std::vector<Moves>& of(VariableId id) const { return by_variable_[id.value]; }

  private:
    void add(const SetStatement& s, const Circumstances& here) {
        for (const Setting& setting : s.settings) {
            add(setting, here.step);
        }
    }
    void add(const HoldStatement& s, const Circumstances& here) { add(s.setting, here.step); }
    template <class Other>
    void add(const Other&, const Circumstances&) {} // moves nothing that switches

    void add(const Setting& setting, std::uint32_t step) {
        std::vector<Moves>& moves = by_variable_[setting.variable.value];
        auto known = std::ranges::find(moves, setting.value, &Moves::value);
        if (known == moves.end()) {
            known = moves.insert(moves.end(), {setting.value, {}});
        }
        if (known->steps.empty() || known->steps.back() != step) {
            known->steps.push_back(step);
        }
    }

    std::vector<std::vector<Moves>> by_variable_;
};

Phrase switch_name(const Words& words, const Switch& each) {
    const System& system = words.system();
    const Tongue& tongue = words.tongue();
    const PartId id = system[each.variable].part;
    const Phrase name = phrase(label(words.variable(each.variable)));
    Phrase beside;
    if (id) {
        const Wording kind = words.told(system[id].kind_label);
        beside = kind.empty() || kind == words.part(id) ? Phrase() : phrase(kind);
    }
    std::vector<Phrase> fed;
    for (const SourceId source : each.feeds) {
        const PartId part = system[source].part;
        const Phrase what = phrase(label(part ? words.part(part) : words.source(source)));
        if (std::ranges::find(fed, what) == fed.end()) {
            fed.push_back(what);
        }
    }
    if (!fed.empty()) {
        append(beside, beside.empty() ? "" : ", ");
        append(beside, tongue.say<Saying::power_feeds>(in<"what">(tongue.all_of(fed))));
    }
    return beside.empty() ? name : tongue.say<Saying::standing>(in<"what">(name), in<"how">(beside));
}

Phrase in_steps(const Tongue& tongue, const Phrase& how, const std::vector<std::uint32_t>& steps) {
    std::vector<Phrase> numbers;
    for (const std::uint32_t step : steps) {
        numbers.push_back(phrase(tongue.number(step)));
    }
    // Of which number the word is: the count stands in no place of the sentence.
    return tongue.say_of<Saying::put_in_steps>(steps.size(), in<"how">(how), in<"steps">(tongue.all_of(numbers)));
}

InfoCard power_card(const Words& words, const Procedure& procedure) {
    const Tongue& tongue = words.tongue();
    InfoCard card{tongue.text(Saying::power_and_gas), {}, {}, {}};
    const MoveList moves(words.system(), procedure);
    std::vector<Phrase> unmoved;
    for (const Switch& each : switches(words.system())) {
        if (moves.of(each.variable).empty()) {
            unmoved.push_back(phrase(label(words.variable(each.variable))));
            continue;
        }
        Phrase line = switch_name(words, each);
        const Wording condition = only_where(words, words.system()[each.variable].exists, {});
        if (!condition.empty()) {
            line = tongue.say<Saying::clause_condition>(in<"what">(line), in<"condition">(condition));
        }
        std::vector<Phrase> ways;
        for (const Moves& way : moves.of(each.variable)) {
            ways.push_back(in_steps(tongue, phrase(label(words.value(each.variable, way.value))), way.steps));
        }
        card.lines.push_back(tongue.say<Saying::switched>(in<"what">(line), in<"ways">(tongue.series_of(ways))));
    }
    for (const Switch& each : switches(words.system())) {
        const std::vector<WorkPlace> places = words.places(each.variable);
        if (places.size() > 1 && !moves.of(each.variable).empty()) {
            std::vector<Phrase> all;
            for (const WorkPlace& place : places) {
                all.push_back(phrase(words.place(place)));
            }
            card.lines.push_back(tongue.say<Saying::power_at_either>(in<"what">(label(words.variable(each.variable))),
                                                                     in<"places">(tongue.one_of(all))));
        }
    }
    if (!unmoved.empty()) {
        card.lines.push_back(tongue.say<Saying::no_step_moves>(in<"what">(tongue.one_of(unmoved))));
    }
    if (!card.lines.empty()) {
        card.after.push_back(tongue.say<Saying::only_switched>());
    }
    return card;
}

/// What the author's waits and rates say of the time, in minutes, where nobody gets round it.
struct KnownTime {
    double waits = 0;
    std::map<std::uint32_t, double> running; ///< per step that is done in every case; of those before a step, at 0
};

class Clock {
  public:
    Clock(const quantities::Quantities& quantities, KnownTime& time)
        : quantities_(&quantities)
        , time_(&time) {}

    void operator()(const WaitStatement& s, const Circumstances& here) const {
        if (!here.optional) {
            time_->waits += to_double(s.time, Unit::min);
        }
    }
    void operator()(const FlowStatement& s, const Circumstances& here) const {
        const quantities::FlowAmount* amount = quantities_->of(s.flow);
        if (!here.optional) {
            time_->running[here.step] += amount == nullptr ? 0 : amount->least_minutes.value_or(0);
        }
    }
    template <class Other>
    void operator()(const Other&, const Circumstances& here) const {
        if (!here.optional && here.step != 0) {
            time_->running[here.step]; // nobody says how long it takes
        }
    }

  private:
    const quantities::Quantities* quantities_;
    KnownTime* time_;
};

// Whole minutes, down: it is said to be the least.
std::string hours_words(const Tongue& tongue, double minutes) {
    const auto whole = static_cast<std::uint64_t>(std::floor(minutes + 1e-9));
    const auto part = [&](std::uint64_t count, Unit unit) {
        return tongue.measured(std::to_string(count), unit_info(unit).symbol);
    };
    if (whole < 60) {
        return part(whole, Unit::min);
    }
    const std::string hours = part(whole / 60, Unit::h);
    return whole % 60 == 0 ? hours : hours + " " + part(whole % 60, Unit::min);
}

InfoCard time_card(const Words& words, const Procedure& procedure, const quantities::Quantities& quantities,
                   const Extent& extent) {
    const Tongue& tongue = words.tongue();
    KnownTime time;
    each_statement(procedure, Clock(quantities, time));
    InfoCard card{tongue.text(Saying::time_it_takes), {}, {}, {}};
    bool some_optional = false;
    each_statement(procedure,
                   [&](const auto&, const Circumstances& here) { some_optional = some_optional || here.optional; });
    const Phrase in_all = tongue.say_of<Saying::steps_in_all>(extent.steps);
    card.lines.push_back(some_optional ? tongue.say<Saying::steps_some_optional>(in<"steps">(in_all)) : in_all);
    constexpr double a_minute = 1; // for what hands do in a step: common practice, no source
    double running = 0;
    for (const auto& [step, minutes] : time.running) {
        running += minutes;
    }
    std::vector<Phrase> parts{tongue.say_of<Saying::time_of_steps>(time.running.size())};
    if (running >= 1) {
        parts.push_back(tongue.say<Saying::time_of_running>(in<"time">(hours_words(tongue, running))));
    }
    if (time.waits >= 1) {
        parts.push_back(tongue.say<Saying::time_of_waits>(in<"time">(hours_words(tongue, time.waits))));
    }
    const double least = a_minute * static_cast<double>(time.running.size()) + running + time.waits;
    card.lines.push_back(tongue.say<Saying::time_in_all>(in<"time">(label(hours_words(tongue, least))),
                                                         in<"what">(tongue.all_of(parts))));
    card.lines.push_back(extent.walks == 0 ? tongue.say<Saying::time_besides>()
                                           : tongue.say_of<Saying::time_besides_walks>(extent.walks));
    return card;
}

bool moves_water(const Procedure& procedure) {
    bool found = false;
    each_statement(procedure, [&](const auto& statement, const Circumstances&) {
        using Each = std::decay_t<decltype(statement)>;
        found = found || std::is_same_v<Each, FlowStatement> || std::is_same_v<Each, KeepStatement> ||
                std::is_same_v<Each, PourStatement> || std::is_same_v<Each, PressuriseStatement>;
    });
    return found;
}

InfoCard weather_card(const Words& words, const Procedure& procedure) {
    const Tongue& tongue = words.tongue();
    InfoCard card{tongue.text(Saying::weather), {}, {}, {}};
    if (moves_water(procedure)) {
        card.lines.push_back(tongue.say<Saying::work_above_freezing>());
    }
    for (const Contract& contract : procedure.ensures) {
        for (const ExpressionId piece : words.conjuncts(contract.expression)) {
            const Expression& promised = words.system()[piece];
            if (promised.kind == ExpressionKind::frost_safe) {
                card.lines.push_back(tongue.say<Saying::may_freeze_down_to>(
                    in<"temperature">(label(quantity_words(promised.quantity, tongue)))));
            }
        }
    }
    return card;
}

} // namespace

std::vector<InfoCard> beforehand_cards(const Words& words, const Procedure& procedure,
                                       const quantities::Quantities& quantities, const Extent& extent) {
    std::vector<InfoCard> cards{power_card(words, procedure), time_card(words, procedure, quantities, extent),
                                weather_card(words, procedure)};
    std::erase_if(cards, [](const InfoCard& card) { return card.lines.empty(); });
    return cards;
}

} // namespace curbstop::output
