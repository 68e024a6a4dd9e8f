#include "output/sheet_beforehand.h"

#include "output/clean_text.h"
#include "output/quantity_words.h"
#include "output/sheet_lines.h"
#include "output/sheet_switches.h"
#include "output/sheet_walk.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

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
    const PartId id = system[each.variable].part;
    Phrase name = phrase(label(words.variable(each.variable)));
    std::vector<Phrase> beside;
    if (id && one_line(system[id].kind_label) != words.part(id) && !one_line(system[id].kind_label).empty()) {
        beside.push_back(phrase(one_line(system[id].kind_label)));
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
        beside.push_back(phrase("feeds ", joined(fed, "and")));
    }
    for (std::size_t i = 0; i < beside.size(); ++i) {
        append(name, i == 0 ? " (" : ", ");
        append(name, beside[i]);
    }
    append(name, beside.empty() ? "" : ")");
    return name;
}

InfoCard power_card(const Words& words, const Procedure& procedure) {
    InfoCard card{"Power and gas", {}, {}, {}};
    const MoveList moves(words.system(), procedure);
    std::vector<Phrase> unmoved;
    for (const Switch& each : switches(words.system())) {
        Phrase line = switch_name(words, each);
        const std::string condition = only_where(words, words.system()[each.variable].exists, {});
        if (!condition.empty()) {
            append(line, ", " + condition);
        }
        if (moves.of(each.variable).empty()) {
            unmoved.push_back(phrase(label(words.variable(each.variable))));
            continue;
        }
        append(line, ": ");
        std::vector<Phrase> ways;
        for (const Moves& way : moves.of(each.variable)) {
            ways.push_back(phrase(label(words.value(each.variable, way.value)), " in ", step_words(way.steps)));
        }
        for (std::size_t i = 0; i < ways.size(); ++i) {
            append(line, i == 0 ? "" : "; ");
            append(line, ways[i]);
        }
        append(line, ".");
        card.lines.push_back(std::move(line));
    }
    if (!unmoved.empty()) {
        card.lines.push_back(phrase("No step moves ", joined(unmoved, "or"), "."));
    }
    if (!card.lines.empty()) {
        card.after.push_back(phrase("The steps only switch them. Wiring and gas pipes are work for licensed people."));
    }
    return card;
}

/// What the author's waits and rates say of the time, in minutes.
struct KnownTime {
    std::vector<Quantity> waits; ///< all of them, as often as they may come
    double least_waits = 0;      ///< those that nobody gets round, each once
    double least_flows = 0;      ///< the same of flows whose rate is known
    std::size_t flows = 0, with_rate = 0;
    bool endless = false; ///< there are more waits than can be added up
};

class Clock {
  public:
    Clock(const quantities::Quantities& quantities, KnownTime& time)
        : quantities_(&quantities)
        , time_(&time) {}

    void operator()(const WaitStatement& s, const Circumstances& here) const {
        if (const auto all = times(s.time, here.times)) {
            time_->waits.push_back(*all);
        } else {
            time_->endless = true;
        }
        if (!here.optional) {
            time_->least_waits += to_double(s.time, Unit::min);
        }
    }
    void operator()(const FlowStatement& s, const Circumstances& here) const {
        if (here.optional) {
            return;
        }
        ++time_->flows;
        const quantities::FlowAmount* amount = quantities_->of(s.flow);
        if (amount != nullptr && amount->least_minutes && amount->needs > 0) {
            ++time_->with_rate;
            time_->least_flows += *amount->least_minutes;
        }
    }
    template <class Other>
    void operator()(const Other&, const Circumstances&) const {} // nobody says how long it takes

  private:
    const quantities::Quantities* quantities_;
    KnownTime* time_;
};

// Whole minutes, down: it is said to be the least.
std::string hours_words(double minutes) {
    const auto whole = static_cast<std::uint64_t>(std::floor(minutes + 1e-9));
    if (whole < 60) {
        return fmt::format("{} min", whole);
    }
    return whole % 60 == 0 ? fmt::format("{} h", whole / 60) : fmt::format("{} h {} min", whole / 60, whole % 60);
}

InfoCard time_card(const System& system, const Procedure& procedure, const quantities::Quantities& quantities,
                   std::uint32_t steps) {
    KnownTime time;
    each_statement(procedure, Clock(quantities, time));
    InfoCard card{"Time", {}, {}, {}};
    bool some_optional = false;
    each_statement(procedure,
                   [&](const auto&, const Circumstances& here) { some_optional = some_optional || here.optional; });
    card.lines.push_back(
        phrase(steps == 1 ? "There is one step." : fmt::format("There are {} steps.", steps),
               some_optional ? " Some are only for some options, or for cases that may not come." : ""));
    const auto waiting = sum(time.waits);
    if (time.endless || (!waiting && !time.waits.empty())) {
        card.lines.push_back(phrase("The waits are too long to be added up."));
    } else if (waiting) {
        card.lines.push_back(phrase("Waiting: ", quantity_words(*waiting), " in all, at most."));
    }
    if (time.with_rate > 0) {
        card.lines.push_back(phrase(fmt::format(
            "Running: {} or more in {} of {} flows and drains, by the rates that are given; of the others nobody says "
            "a rate.",
            time.least_flows < 1 ? "less than a minute" : hours_words(time.least_flows), time.with_rate, time.flows)));
    }
    const double least = time.least_waits + time.least_flows;
    if (least >= 1) {
        // What a flow needs is worked out for the variant in which it needs most.
        card.lines.push_back(phrase("Together at least " + hours_words(least) +
                                    (system.options.empty() ? "" : ", with every option fitted") +
                                    ". What hands and feet take comes on top: nobody has measured it."));
    } else {
        card.lines.push_back(phrase("How long hands and feet take, nobody has measured: no total is given."));
    }
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
    InfoCard card{"Weather", {}, {}, {}};
    if (moves_water(procedure)) {
        card.lines.push_back(
            phrase("Work above freezing, from the first step to the last: what drips in a valve or stands in a hose "
                   "freezes while you work, and a frozen valve does not stand as its lever says (common practice, no "
                   "source)."));
    }
    for (const Contract& contract : procedure.ensures) {
        for (const ExpressionId piece : words.conjuncts(contract.expression)) {
            if (words.system()[piece].kind == ExpressionKind::frost_safe) {
                card.lines.push_back(phrase("Afterwards it may freeze down to ",
                                            label(quantity_words(words.system()[piece].quantity)),
                                            ". Nothing is proved of colder nights."));
            }
        }
    }
    return card;
}

} // namespace

std::string step_words(const std::vector<std::uint32_t>& steps) {
    std::vector<Phrase> numbers;
    for (const std::uint32_t step : steps) {
        numbers.push_back(phrase(std::to_string(step)));
    }
    return (steps.size() == 1 ? "step " : "steps ") + plain(joined(numbers, "and"));
}

std::vector<InfoCard> beforehand_cards(const Words& words, const Procedure& procedure,
                                       const quantities::Quantities& quantities, std::uint32_t steps) {
    std::vector<InfoCard> cards{power_card(words, procedure), time_card(words.system(), procedure, quantities, steps),
                                weather_card(words, procedure)};
    std::erase_if(cards, [](const InfoCard& card) { return card.lines.empty(); });
    return cards;
}

} // namespace curbstop::output
