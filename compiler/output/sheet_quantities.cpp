#include "output/sheet_quantities.h"

#include "meaning/quantity_text.h"
#include "output/clean_text.h"
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

std::string whole(const Quantity& quantity, UnitSystem system) {
    return format_quantity(quantity, system);
}

// "less than a minute", "about 4 minutes", "3 to 7 minutes": whole minutes, up.
std::string minutes_words(double least, std::optional<double> most) {
    const auto up = [](double minutes) { return static_cast<std::uint64_t>(std::ceil(minutes - 1e-9)); };
    const std::uint64_t from = up(least);
    const std::uint64_t to = most ? std::max(up(*most), from) : from;
    if (to <= 1) {
        return to == 0 || most.value_or(least) < 0.75 ? "less than a minute" : "about a minute";
    }
    return from == to || from == 0 ? fmt::format("{} {} minutes", from == to ? "about" : "up to", to)
                                   : fmt::format("{} to {} minutes", from, to);
}

std::string percent(double part) {
    return fmt::format("{:.4g} %", part * 100);
}

void add_options(const Words& words, const Supply& supply, std::vector<Phrase>& lines) {
    for (const auto& each : supply.options) {
        const Piece option = label(label_of(words.system()[each.option]));
        const auto say = [&](const char* which, double volume) {
            lines.push_back(
                phrase(which, option, ": ", volume > 0 ? volume_words(volume) + " or more." : std::string("none.")));
        };
        each.without < each.with ? say("Without ", each.without) : say("With ", each.with);
    }
}

InfoCard supply_card(const Words& words, const Supply& supply) {
    InfoCard card;
    card.heading = words.fluid(supply.fluid);
    card.lines.push_back(phrase("Worked out, as the steps say it: ", volume_words(supply.needs),
                                " or more. Nothing is counted for what is spilt or squeezes into dead ends."));
    add_options(words, supply, card.lines);
    if (supply.dilution) {
        card.lines.push_back(
            phrase("Were no more drawn than has to come: ", volume_words(supply.blown_first),
                   " where the lines were blown out or drained first, ", volume_words(supply.not_blown),
                   " where water stands in them: it mixes at the front and is run off (an estimate)."));
        const auto at = [&](double strength, const std::optional<double>& point) {
            return percent(strength) + (point ? " freezes at " + temperature_words(*point)
                                              : std::string(" is beyond its table: measure where it freezes"));
        };
        card.lines.push_back(phrase("As brought, ", at(supply.dilution->strength, supply.dilution->freezes),
                                    ". Blowing out and draining leave up to a tenth of water; thinned by that, ",
                                    at(supply.dilution->thinned, supply.dilution->thinned_freezes), " (an estimate)."));
    }
    if (!supply.runs_out_at.empty()) {
        std::vector<Phrase> outlets;
        for (const OutletId outlet : supply.runs_out_at) {
            const Phrase one = phrase(label(words.outlet(outlet)));
            if (std::ranges::find(outlets, one) == outlets.end()) {
                outlets.push_back(one);
            }
        }
        card.lines.push_back(phrase("It runs out at ", joined(outlets, "and"), "."));
    }
    if (!supply.stays_in.empty()) {
        std::vector<Phrase> names;
        for (const quantities::PocketVolume& pocket : supply.stays_in) {
            names.push_back(phrase(label(one_line(pocket.label))));
        }
        Phrase where =
            names.size() > most_named
                ? phrase(std::to_string(names.size()) + " places (the table of volumes at the end marks them)")
                : joined(names, "and");
        card.lines.push_back(phrase("At the end it may stand in ", std::move(where), ", which hold ",
                                    volume_words(supply.stays), " in all."));
    }
    if (!supply.runs_into.empty()) {
        std::vector<Phrase> names;
        for (const quantities::PocketVolume& pocket : supply.runs_into) {
            names.push_back(phrase(label(one_line(pocket.label))));
        }
        card.lines.push_back(phrase("Some of it may have run into ", joined(names, "and"), "."));
    }
    return card;
}

InfoCard dose_card(const Words& words, const quantities::Dose& dose) {
    InfoCard card;
    card.heading = "Bleach for " + words.fluid(dose.fluid);
    const std::string strength = fmt::format("{:.4g} mg/L", dose.concentration * 1e6);
    Phrase what = dose.chamber
                      ? phrase("To bring ", label(words.chamber(dose.chamber)), ", ", volume_words(dose.volume))
                      : phrase("To bring each " + volume_words(dose.volume) + " of water");
    append(what, " full of water, to " + strength +
                     (dose.hours ? fmt::format(", which is to stand for {:g} h", *dose.hours) : std::string()) + ":");
    card.lines.push_back(std::move(what));
    card.table.columns = {"On the label", "mL", "fl oz (US)"};
    for (const auto& row : dose.rows) {
        const double floz = row.bleach / to_double(*make_quantity(Rational(1), Unit::floz), Unit::m3);
        card.table.rows.push_back({percent(row.strength), fmt::format("{:.0f}", std::ceil(row.bleach * 1e6 - 1e-6)),
                                   fmt::format("{:.1f}", std::ceil(floz * 10 - 1e-6) / 10)});
    }
    card.after.push_back(phrase("An estimate: bleach = water x concentration / strength (Maine CDC, Disinfection "
                                "Equations). Water left in the pipes thins it and old bleach is weaker: go by the test "
                                "strips, and add where they show less."));
    card.after.push_back(
        phrase("Household bleach without scent or thickener. It burns eyes and skin; never mix it with "
               "anything but water. What else applies, local rules say."));
    if (dose.flushing > 0) {
        card.after.push_back(phrase("Flushing afterwards takes " + volume_words(dose.flushing) + " of water or more."));
    }
    return card;
}

std::string_view kind_word(quantities::PocketKind kind) {
    switch (kind) {
    case quantities::PocketKind::pipe:
        return "pipe";
    case quantities::PocketKind::chamber:
        return "tank or trap";
    case quantities::PocketKind::body:
        return "body";
    case quantities::PocketKind::vessel:
        return "vessel";
    }
    return {};
}

} // namespace

std::string volume_words(double volume) {
    return whole(quantities::rounded_up(volume, false), UnitSystem::metric) + " (" +
           whole(quantities::rounded_up(volume, true), UnitSystem::us) + ")";
}

std::string temperature_words(double celsius) {
    // Towards warmth, never colder than it is.
    const auto tenths = Rational::ratio(static_cast<std::int64_t>(std::ceil(celsius * 10 - 1e-6)), 10);
    return tenths ? quantity_words({Dimension::temperature, *tenths}) : std::string();
}

std::optional<Line> estimate_line(const Words& words, const FlowAmount& amount) {
    Phrase text;
    const auto more = [&](Phrase phrase) {
        append(text, text.empty() ? "" : "; ");
        append(text, phrase);
    };
    const double said = amount.flow->at_least ? to_double(*amount.flow->at_least, Unit::m3) : 0;
    if (!amount.flow->gravity && amount.needs > said + 1e-6) {
        more(phrase(volume_words(amount.needs), " or more is drawn, to fill ",
                    amount.flow->until && amount.flow->until->kind == ObservationKind::full ? "it"
                                                                                            : "what lies on the way"));
    }
    if (amount.rate && (amount.needs > 0 || amount.most)) {
        more(phrase(minutes_words(*amount.least_minutes, amount.most_minutes), " at ", quantity_words(*amount.rate)));
    }
    for (const FlowAmount::Trips& trips : amount.trips) {
        if (trips.count > 1) {
            more(phrase(std::to_string(trips.count) + " trips with ", label(words.chamber(trips.vessel))));
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
    Phrase text;
    if (supply.listed) {
        const auto exact =
            Rational::ratio(std::llround(*supply.listed * 1e9), 1'000'000'000); // of a millilitre's 1000th
        append(text, exact ? quantity_words({Dimension::volume, *exact}) : volume_words(*supply.listed));
        append(text, phrase(" of ", label(words.fluid(supply.fluid))));
    } else {
        append(text, phrase(volume_words(supply.needs), " or more of ", label(words.fluid(supply.fluid))));
    }
    if (supply.dilution) {
        append(text, ", of " + percent(supply.dilution->strength) + " or more");
    }
    if (supply.listed && supply.needs > 0) {
        append(text, "; worked out: " + volume_words(supply.needs) + " or more");
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
    InfoCard carried{"Carried away and emptied", {}, {}, {}};
    for (const quantities::Carried& each : quantities.carried) {
        const std::optional<Quantity>& holds = words.system()[each.vessel].volume;
        carried.lines.push_back(phrase(label(words.chamber(each.vessel)), holds ? ", " + quantity_words(*holds) : "",
                                       each.times == 1 ? ": once." : fmt::format(": {} times at most.", each.times)));
    }
    if (!carried.lines.empty()) {
        cards.push_back(std::move(carried));
    }
    return cards;
}

InfoTable volume_table(const Words& words, const quantities::Quantities& quantities) {
    InfoTable table;
    table.columns = {"What", "Sort", "L", "US gal"};
    std::vector<const Supply*> staying; // one column each
    for (const Supply& supply : quantities.supplies) {
        if (!supply.stays_in.empty()) {
            staying.push_back(&supply);
            table.columns.push_back(words.fluid(supply.fluid) + " at the end");
        }
    }
    for (const quantities::PocketVolume& pocket : quantities.pockets) {
        const double litres = pocket.volume.value_or(0) * 1000;
        const double gallons = pocket.volume.value_or(0) / to_double(*make_quantity(Rational(1), Unit::gal), Unit::m3);
        table.rows.push_back({one_line_or(pocket.label, "Pipe"), std::string(kind_word(pocket.kind)),
                              pocket.volume ? fmt::format("{:.3f}", litres) : "not known",
                              pocket.volume ? fmt::format("{:.4f}", gallons) : ""});
        for (const Supply* supply : staying) {
            const bool here = std::ranges::any_of(supply->stays_in, [&](const quantities::PocketVolume& one) {
                return one.kind == pocket.kind && one.index == pocket.index;
            });
            table.rows.back().push_back(here ? "may be" : "");
        }
    }
    return table;
}

} // namespace curbstop::output
