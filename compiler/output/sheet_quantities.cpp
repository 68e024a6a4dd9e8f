#include "output/sheet_quantities.h"

#include "output/gear.h"
#include "output/quantity_words.h"
#include "quantities/amounts.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace curbstop::output {

using namespace meaning;
using quantities::FlowAmount;
using quantities::Supply;

namespace {

/// More places than this are counted; the table at the end names them.
constexpr std::size_t most_named = 12;

std::string percent(const Tongue& tongue, double part) {
    return tongue.measured(fmt::format("{:.4g}", part * 100), "%");
}

std::vector<Phrase> pocket_labels(const Words& words, const std::vector<quantities::PocketVolume>& pockets) {
    std::vector<Phrase> names;
    for (const quantities::PocketVolume& pocket : pockets) {
        names.push_back(phrase(label(pocket_words(words, pocket))));
    }
    return names;
}

void add_options(const Words& words, const Supply& supply, std::vector<Phrase>& lines) {
    const Tongue& tongue = words.tongue();
    for (const auto& each : supply.options) {
        const auto option = in<"option">(label(words.named(words.system()[each.option])));
        const auto amount = in<"amount">(volume_words(std::min(each.with, each.without), tongue));
        if (each.without < each.with) {
            lines.push_back(each.without > 0 ? tongue.say<Saying::without_option_amount>(option, amount)
                                             : tongue.say<Saying::without_option_none>(option));
        } else {
            lines.push_back(each.with > 0 ? tongue.say<Saying::with_option_amount>(option, amount)
                                          : tongue.say<Saying::with_option_none>(option));
        }
    }
}

void add_dilution(const Tongue& tongue, const Supply& supply, std::vector<Phrase>& lines) {
    lines.push_back(tongue.say<Saying::supply_least>(in<"blown">(volume_words(supply.blown_first, tongue)),
                                                     in<"full">(volume_words(supply.not_blown, tongue))));
    const auto at = [&](double strength, const std::optional<double>& point) {
        const auto how_strong = in<"strength">(percent(tongue, strength));
        return point ? tongue.say<Saying::freezes_at>(how_strong, in<"temperature">(temperature_words(*point, tongue)))
                     : tongue.say<Saying::beyond_table>(how_strong);
    };
    lines.push_back(tongue.say<Saying::supply_strength>(
        in<"as_brought">(at(supply.dilution->strength, supply.dilution->freezes)),
        in<"thinned">(at(supply.dilution->thinned, supply.dilution->thinned_freezes))));
}

InfoCard supply_card(const Words& words, const Supply& supply) {
    const Tongue& tongue = words.tongue();
    InfoCard card;
    card.heading = words.fluid(supply.fluid);
    card.lines.push_back(tongue.say<Saying::supply_needs>(in<"amount">(volume_words(supply.needs, tongue))));
    add_options(words, supply, card.lines);
    if (supply.dilution) {
        add_dilution(tongue, supply, card.lines);
    }
    if (!supply.runs_out_at.empty()) {
        std::vector<Phrase> outlets;
        for (const OutletId outlet : supply.runs_out_at) {
            const Phrase one = phrase(label(words.outlet(outlet)));
            if (std::ranges::find(outlets, one) == outlets.end()) {
                outlets.push_back(one);
            }
        }
        card.lines.push_back(tongue.say<Saying::runs_out_at>(in<"places">(tongue.all_of(outlets))));
    }
    if (!supply.stays_in.empty()) {
        const Phrase where = supply.stays_in.size() > most_named
                                 ? tongue.say_of<Saying::many_places>(supply.stays_in.size())
                                 : tongue.all_of(pocket_labels(words, supply.stays_in));
        card.lines.push_back(
            tongue.say<Saying::may_stand_in>(in<"places">(where), in<"amount">(volume_words(supply.stays, tongue))));
    }
    if (!supply.runs_into.empty()) {
        card.lines.push_back(
            tongue.say<Saying::may_have_run_into>(in<"places">(tongue.all_of(pocket_labels(words, supply.runs_into)))));
    }
    return card;
}

Phrase dose_words(const Words& words, const quantities::Dose& dose) {
    const Tongue& tongue = words.tongue();
    const auto amount = in<"amount">(volume_words(dose.volume, tongue));
    const auto strength = in<"strength">(tongue.measured(fmt::format("{:.4g}", dose.concentration * 1e6), "mg/L"));
    const auto time = in<"time">(tongue.measured(fmt::format("{:g}", dose.hours.value_or(0)), "h"));
    if (!dose.chamber) {
        return dose.hours ? tongue.say<Saying::dose_each_standing>(amount, strength, time)
                          : tongue.say<Saying::dose_each>(amount, strength);
    }
    const auto chamber = in<"chamber">(label(words.chamber(dose.chamber)));
    return dose.hours ? tongue.say<Saying::dose_of_standing>(chamber, amount, strength, time)
                      : tongue.say<Saying::dose_of>(chamber, amount, strength);
}

InfoCard dose_card(const Words& words, const quantities::Dose& dose) {
    const Tongue& tongue = words.tongue();
    InfoCard card;
    card.heading = plain(tongue.say<Saying::bleach_for>(in<"fluid">(words.fluid(dose.fluid))));
    card.lines.push_back(dose_words(words, dose));
    card.table.columns = {tongue.text(Saying::dose_on_the_label), tongue.text(Saying::dose_millilitres),
                          tongue.text(Saying::dose_fluid_ounces)};
    for (const auto& row : dose.rows) {
        const double floz = row.bleach / to_double(*make_quantity(Rational(1), Unit::floz), Unit::m3);
        card.table.rows.push_back({percent(tongue, row.strength),
                                   tongue.number(fmt::format("{:.0f}", std::ceil(row.bleach * 1e6 - 1e-6))),
                                   tongue.number(fmt::format("{:.1f}", std::ceil(floz * 10 - 1e-6) / 10))});
    }
    card.after.push_back(tongue.say<Saying::dose_estimate>());
    card.after.push_back(tongue.say<Saying::dose_bleach>());
    if (dose.flushing > 0) {
        card.after.push_back(tongue.say<Saying::dose_flushing>(in<"amount">(volume_words(dose.flushing, tongue))));
    }
    return card;
}

} // namespace

std::optional<Phrase> dose_line(const Words& words, const quantities::Quantities& quantities, FluidId fluid) {
    const auto dose = std::ranges::find(quantities.doses, fluid, &quantities::Dose::fluid);
    if (dose == quantities.doses.end() || dose->rows.empty()) {
        return std::nullopt;
    }
    const Tongue& tongue = words.tongue();
    Phrase text = dose_words(words, *dose);
    std::vector<Phrase> rows;
    for (const auto& row : dose->rows) {
        rows.push_back(tongue.say<Saying::bleach_of>(
            in<"amount">(tongue.measured(fmt::format("{:.0f}", std::ceil(row.bleach * 1e6 - 1e-6)), "mL")),
            in<"strength">(percent(tongue, row.strength))));
    }
    append(text, " ");
    append(text, tongue.one_of(rows));
    append(text, ".");
    return text;
}

std::optional<Phrase> brief_dose(const Words& words, const quantities::Quantities& quantities, FluidId fluid) {
    const auto dose = std::ranges::find(quantities.doses, fluid, &quantities::Dose::fluid);
    if (dose == quantities.doses.end() || dose->rows.empty()) {
        return std::nullopt;
    }
    const Tongue& tongue = words.tongue();
    std::vector<Phrase> rows;
    for (const auto& row : dose->rows) {
        rows.push_back(tongue.say<Saying::brief_dose_row>(
            in<"amount">(tongue.measured(fmt::format("{:.0f}", std::ceil(row.bleach * 1e6 - 1e-6)), "mL")),
            in<"strength">(percent(tongue, row.strength))));
    }
    return tongue.say<Saying::brief_dose>(
        in<"amount">(quantity_in(quantities::rounded_up(dose->volume), UnitSystem::metric, tongue)),
        in<"strength">(tongue.measured(fmt::format("{:.4g}", dose->concentration * 1e6), "mg/L")),
        in<"doses">(tongue.one_of(rows)));
}

std::string minutes_and_seconds(const Tongue& tongue, double time) {
    constexpr std::uint64_t step = 5; // s
    const auto seconds = static_cast<std::uint64_t>(std::round(time * 60 / step)) * step;
    std::string text = seconds < 60 ? std::string() : tongue.measured(std::to_string(seconds / 60), "min");
    if (seconds % 60 != 0) {
        text += (text.empty() ? "" : " ") + tongue.measured(std::to_string(seconds % 60), "s");
    }
    return text;
}

SecondsRange whole_seconds(double least, double greatest) {
    constexpr double few = 20; // from here on nobody stops to the second
    const auto whole = [](double seconds, double of_few) {
        return static_cast<std::uint64_t>(seconds < few ? std::max(1.0, of_few) : std::round(seconds / 5) * 5);
    };
    SecondsRange range;
    range.from = whole(least * 60, std::ceil(least * 60 - 1e-9));
    range.to = std::max(range.from, whole(greatest * 60, std::floor(greatest * 60 + 1e-9)));
    return range;
}

Phrase time_words(const Tongue& tongue, double least, std::optional<double> most) {
    const double greatest = std::max(most.value_or(least), least);
    if (greatest < 2) {
        const auto [from, to] = whole_seconds(least, greatest);
        return least <= 0   ? tongue.say_of<Saying::up_to_seconds>(to)
               : from == to ? tongue.say_of<Saying::about_seconds>(to)
                            : tongue.say_of<Saying::seconds_between>(to, in<"from">(tongue.number(from)));
    }
    // Of a few minutes a quarter may be what runs over.
    constexpr double few_minutes = 5;
    const auto whole = [](double minutes) { return std::abs(minutes - std::round(minutes)) < 1.0 / 24; };
    if (greatest < few_minutes && !(whole(least) && whole(greatest))) {
        const std::string from = minutes_and_seconds(tongue, least);
        const std::string to = minutes_and_seconds(tongue, greatest);
        return least <= 0   ? tongue.say<Saying::up_to_time>(in<"time">(to))
               : from == to ? tongue.say<Saying::about_time>(in<"time">(to))
                            : tongue.say<Saying::time_between>(in<"from">(from), in<"time">(to));
    }
    const auto up = [](double minutes) { return static_cast<std::uint64_t>(std::ceil(minutes - 1e-9)); };
    const std::uint64_t from = up(least);
    const std::uint64_t to = up(greatest);
    if (from == to) {
        return tongue.say_of<Saying::about_minutes>(to);
    }
    return from == 0 ? tongue.say_of<Saying::up_to_minutes>(to)
                     : tongue.say_of<Saying::minutes_between>(to, in<"from">(tongue.number(from)));
}

Wording pocket_words(const Words& words, const quantities::PocketVolume& pocket) {
    const System& system = words.system();
    switch (pocket.kind) {
    case quantities::PocketKind::pipe: {
        const Run& run = system.runs[pocket.index];
        return plain(words.tongue().say<Saying::pipe_between>(in<"from">(words.told(system[run.from].label)),
                                                              in<"to">(words.told(system[run.to].label))));
    }
    case quantities::PocketKind::chamber:
    case quantities::PocketKind::vessel:
        return words.told(system.chambers[pocket.index].label);
    case quantities::PocketKind::body:
        return words.told(system.parts[pocket.index].label);
    }
    return {};
}

std::string volume_words(double volume, const Tongue& tongue) {
    return quantity_words(quantities::rounded_up(volume), tongue, Towards::more);
}

std::string temperature_words(double celsius, const Tongue& tongue) {
    // Towards warmth, never colder than it is.
    const auto count = static_cast<std::int64_t>(std::ceil(celsius * 10 - 1e-6));
    const auto tenths = Rational::ratio(count, 10);
    if (!tenths) {
        return {};
    }
    // Of what is reckoned, whole degrees Fahrenheit are as much as anybody can know.
    const auto fahrenheit = static_cast<std::int64_t>(std::ceil(static_cast<double>(count) * 0.18 + 32 - 1e-9));
    return quantity_in({Dimension::temperature, *tenths}, UnitSystem::metric, tongue) + " (" +
           tongue.measured(std::to_string(fahrenheit), unit_info(Unit::degF).symbol) + ")";
}

std::optional<Line> estimate_line(const Words& words, const FlowAmount& amount) {
    const Tongue& tongue = words.tongue();
    Phrase text;
    const auto more = [&](Phrase phrase) {
        text = text.empty() ? std::move(phrase) : tongue.say<Saying::list_also>(in<"before">(text), in<"last">(phrase));
    };
    // Where the step says how much is to come, that is the figure; and none is printed that it does not allow.
    const auto printed = [&] { return to_double(quantities::rounded_up(amount.needs), Unit::m3); };
    if (!amount.flow->gravity && !amount.written_least && amount.needs > 1e-6 &&
        (!amount.most || printed() < *amount.most)) {
        const auto much = in<"amount">(volume_words(amount.needs, tongue));
        more(amount.flow->until && amount.flow->until->kind == ObservationKind::full
                 ? tongue.say<Saying::drawn_to_fill_it>(much)
                 : tongue.say<Saying::drawn_to_fill_the_way>(much));
    }
    if (amount.rate && !amount.throttled && (*amount.least_minutes > 0 || amount.most)) {
        more(tongue.say<Saying::at_rate>(in<"what">(time_words(tongue, *amount.least_minutes, amount.most_minutes)),
                                         in<"rate">(quantity_words(*amount.rate, tongue))));
    }
    for (const FlowAmount::Trips& trips : amount.trips) {
        if (trips.count > 1) {
            more(tongue.say_of<Saying::trips_with>(trips.count, in<"vessel">(label(words.chamber(trips.vessel)))));
        }
    }
    if (text.empty()) {
        return std::nullopt;
    }
    append(text, ".");
    Line line{LineKind::estimate};
    line.text = std::move(text);
    return line;
}

Phrase supply_words(const Words& words, const Supply& supply) {
    const Tongue& tongue = words.tongue();
    const auto fluid = in<"what">(label(words.fluid(supply.fluid)));
    const std::string needs = volume_words(supply.needs, tongue);
    Phrase text;
    if (supply.listed) {
        const auto exact =
            Rational::ratio(std::llround(*supply.listed * 1e9), 1'000'000'000); // of a millilitre's 1000th
        text = tongue.say<Saying::amount_of>(
            in<"amount">(exact ? quantity_words({Dimension::volume, *exact}, tongue, Towards::more)
                               : volume_words(*supply.listed, tongue)),
            fluid);
    } else {
        text = tongue.say<Saying::amount_or_more_of>(in<"amount">(needs), fluid);
    }
    if (supply.dilution) {
        text = tongue.say<Saying::clause_strength>(in<"what">(text),
                                                   in<"strength">(percent(tongue, supply.dilution->strength)));
    }
    if (supply.listed && supply.needs > 0) {
        text = tongue.say<Saying::clause_worked_out>(in<"what">(text), in<"amount">(needs));
    }
    return text;
}

std::vector<InfoCard> quantity_cards(const Words& words, const quantities::Quantities& quantities) {
    std::vector<InfoCard> cards;
    for (const Supply& supply : quantities.supplies) {
        if (!supply.mixed_on_the_spot && supply.needs > 0 && words.system()[supply.fluid].category > 2) {
            cards.push_back(supply_card(words, supply));
        }
    }
    for (const quantities::Dose& dose : quantities.doses) {
        cards.push_back(dose_card(words, dose));
    }
    const Tongue& tongue = words.tongue();
    InfoCard carried{tongue.text(Saying::carried_away), {}, {}, {}};
    for (const quantities::Carried& each : quantities.carried) {
        const std::optional<Quantity>& holds = words.system()[each.vessel].volume;
        const Phrase vessel =
            phrase(label(words.chamber(each.vessel)), holds ? ", " + quantity_words(*holds, tongue) : std::string());
        carried.lines.push_back(tongue.say_of<Saying::carried_times>(each.times, in<"vessel">(vessel)));
    }
    if (!carried.lines.empty()) {
        cards.push_back(std::move(carried));
    }
    return cards;
}

InfoTable staying_table(const Words& words, const quantities::Quantities& quantities) {
    InfoTable table;
    const Tongue& tongue = words.tongue();
    constexpr double worth_a_row = 0.1e-3;    // m3
    constexpr double worth_a_name = 1.0 / 20; // of the liquid in a place; the sheet says so
    struct Held {
        FluidId fluid;
        double most = 0;
    };
    struct Place {
        const quantities::PocketVolume* pocket;
        std::vector<Held> held;
    };
    std::vector<Place> places;
    std::vector<Held> rest;
    bool any_drinking = false; // of the rest
    for (const Supply& supply : quantities.supplies) {
        if (words.system()[supply.fluid].category <= 1) {
            continue; // drinking water is what belongs there
        }
        rest.push_back({supply.fluid, 0});
        for (const quantities::PocketVolume& pocket : supply.stays_in) {
            const double most = pocket.volume.value_or(0) * pocket.share;
            const bool carried_off =
                pocket.kind == quantities::PocketKind::body && is_gear(words.system(), PartId(pocket.index));
            if (pocket.share <= worth_a_name || carried_off) {
                continue;
            }
            if (pocket.kind == quantities::PocketKind::pipe || pocket.volume.value_or(0) < worth_a_row - 1e-9) {
                rest.back().most += most;
                any_drinking = any_drinking || pocket.drinking;
                continue;
            }
            auto place = std::ranges::find_if(places, [&](const Place& each) {
                return each.pocket->kind == pocket.kind && each.pocket->index == pocket.index;
            });
            if (place == places.end()) {
                place = places.insert(places.end(), {&pocket, {}});
            }
            place->held.push_back({supply.fluid, most});
        }
    }
    std::ranges::stable_sort(places,
                             [](const Place& a, const Place& b) { return *a.pocket->volume > *b.pocket->volume; });
    const auto add = [&](const Wording& where, std::vector<Held> held) {
        std::ranges::stable_sort(held, [](const Held& a, const Held& b) { return a.most > b.most; });
        for (const Held& each : held) {
            if (each.most > 0) {
                table.rows.push_back({where, words.fluid(each.fluid), volume_words(each.most, tongue)});
            }
        }
    };
    for (const Place& place : places) {
        add(pocket_words(words, *place.pocket), place.held);
    }
    add(tongue.text(!any_drinking    ? Saying::staying_waste
                    : places.empty() ? Saying::staying_pipes
                                     : Saying::staying_rest),
        rest);
    if (!table.rows.empty()) {
        for (const Saying column : {Saying::volume_where, Saying::volume_what, Saying::volume_at_most}) {
            table.columns.emplace_back(tongue.text(column));
        }
    }
    return table;
}

} // namespace curbstop::output
