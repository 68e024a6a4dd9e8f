#include "output/quantity_words.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include <array>
#include <utility>

#include <fmt/format.h>

namespace curbstop::output {

using meaning::Dimension;
using meaning::Quantity;

std::string quantity_in(const Quantity& quantity, meaning::UnitSystem system, const Tongue& tongue) {
    const std::string written = meaning::format_quantity(quantity, system);
    const std::size_t space = std::min(written.find(' '), written.size());
    const std::string unit = space < written.size() ? written.substr(space + 1) : std::string();
    const bool days = quantity.dimension == Dimension::time && unit == meaning::unit_info(meaning::Unit::d).symbol;
    return tongue.measured(std::string_view(written).substr(0, space), days ? tongue.text(Saying::day) : unit);
}

namespace {

struct Mark {
    double number;
    meaning::Unit unit;
    double ounces() const { return unit == meaning::Unit::floz ? number : number * 128; }
};

/// The mark on a jug with US measures, on the side asked for; nothing for a figure that stays as it is: the author's
/// own short one, and what is less than the smallest mark.
std::optional<Mark> mark_of(const Quantity& quantity, Towards side) {
    using meaning::Unit;
    constexpr double half_a_gallon = 64; // fl oz
    const double ounces = to_double(quantity, Unit::floz);
    const bool small = ounces < half_a_gallon;
    const double number = small ? ounces : to_double(quantity, Unit::gal);
    const auto is_short = [](double value) { return std::abs(value * 100 - std::round(value * 100)) < 1e-6; };
    const double step = small ? (number < 8 ? 0.5 : 1) : number < 5 ? 0.25 : number < 20 ? 0.5 : 1;
    if (is_short(number) || number < step) {
        return std::nullopt;
    }
    const double marks = number / step;
    const double rounded = (side == Towards::more   ? std::ceil(marks - 1e-9)
                            : side == Towards::less ? std::floor(marks + 1e-9)
                                                    : std::round(marks)) *
                           step;
    return Mark{rounded, small ? Unit::floz : Unit::gal};
}

std::string both_systems(const Quantity& quantity, const std::optional<Mark>& mark, const Tongue& tongue) {
    std::string metric = quantity_in(quantity, meaning::UnitSystem::metric, tongue);
    const std::string us = mark ? tongue.measured(fmt::format("{:g}", mark->number), unit_info(mark->unit).symbol)
                                : quantity_in(quantity, meaning::UnitSystem::us, tongue);
    return metric == us ? metric : metric + " (" + us + ")";
}

} // namespace

std::string quantity_words(const Quantity& quantity, const Tongue& tongue, Towards side) {
    return both_systems(
        quantity, quantity.dimension == Dimension::volume ? mark_of(quantity, side) : std::optional<Mark>(), tongue);
}

Range range_words(const Quantity& least, const Quantity& most, const Tongue& tongue) {
    if (least.dimension != Dimension::volume) {
        return {quantity_words(least, tongue), quantity_words(most, tongue)};
    }
    const double from = to_double(least, meaning::Unit::floz);
    const double to = to_double(most, meaning::Unit::floz);
    std::optional<Mark> lower = mark_of(least, Towards::more);
    std::optional<Mark> upper = mark_of(most, Towards::less);
    const auto leave_room = [&] { return (lower ? lower->ounces() : from) < (upper ? upper->ounces() : to); };
    if (!leave_room()) { // by the ounce
        lower = Mark{std::ceil(from - 1e-9), meaning::Unit::floz};
        upper = Mark{std::floor(to + 1e-9), meaning::Unit::floz};
    }
    if (!leave_room()) {
        lower = upper = std::nullopt;
    }
    return {both_systems(least, lower, tongue), both_systems(most, upper, tongue)};
}

Phrase bounds_words(Dimension dimension, const std::optional<Quantity>& least, const std::optional<Quantity>& most,
                    const Tongue& tongue) {
    if (least && most) {
        const Range range = range_words(*least, *most, tongue);
        return tongue.say<Saying::reading_between>(in<"least">(range.least), in<"most">(range.most));
    }
    if (!least && !most) {
        return {};
    }
    const auto quantity = in<"quantity">(least ? quantity_words(*least, tongue, Towards::more)
                                               : quantity_words(*most, tongue, Towards::less));
    if (dimension == Dimension::temperature) {
        return least ? tongue.say<Saying::reading_or_warmer>(quantity)
                     : tongue.say<Saying::reading_or_colder>(quantity);
    }
    return least ? tongue.say<Saying::reading_or_more>(quantity) : tongue.say<Saying::reading_or_less>(quantity);
}

namespace {

/// The unit of the same size in which others measure.
std::optional<meaning::Unit> counterpart(meaning::Unit unit) {
    using meaning::Unit;
    constexpr std::array pairs{
        std::pair{Unit::mL, Unit::floz},
        std::pair{Unit::L, Unit::gal},
        std::pair{Unit::bar, Unit::psi},
        std::pair{Unit::degC, Unit::degF},
        std::pair{Unit::m, Unit::ft},
        std::pair{Unit::kg, Unit::lb},
        std::pair{Unit::L_per_min, Unit::gal_per_min},
    };
    for (const auto& [metric, us] : pairs) {
        if (unit == metric || unit == us) {
            return unit == metric ? us : metric;
        }
    }
    return std::nullopt;
}

std::optional<meaning::Unit> usual_unit(Dimension dimension) {
    using meaning::Unit;
    switch (dimension) {
    case Dimension::length:
        return Unit::m;
    case Dimension::volume:
        return Unit::L;
    case Dimension::pressure:
        return Unit::bar;
    case Dimension::temperature:
        return Unit::degC;
    case Dimension::time:
        return Unit::min;
    case Dimension::flow:
        return Unit::L_per_min;
    case Dimension::concentration:
        return Unit::mg_per_L;
    case Dimension::mass:
        return Unit::kg;
    case Dimension::power:
        return Unit::W;
    case Dimension::count:
        return std::nullopt;
    }
    return std::nullopt;
}

} // namespace

std::vector<meaning::Unit> record_units(Dimension dimension, std::optional<meaning::Unit> written) {
    const auto first = written ? written : usual_unit(dimension);
    if (!first) {
        return {};
    }
    std::vector<meaning::Unit> units{*first};
    if (const auto other = counterpart(*first)) {
        units.push_back(*other);
    } else if (!written && dimension == Dimension::concentration) {
        units.push_back(meaning::Unit::percent);
    }
    return units;
}

std::string record_unit(const meaning::RecordStatement& record, const Tongue& tongue) {
    if (record.kind != meaning::RecordKind::measured) {
        return std::string(
            tongue.text(record.kind == meaning::RecordKind::date ? Saying::date_letters : Saying::clock_letters));
    }
    std::vector<Phrase> names;
    for (const meaning::Unit unit : record_units(record.dimension, record.unit)) {
        names.push_back(phrase(std::string(meaning::unit_info(unit).symbol)));
    }
    return names.empty() ? std::string() : std::string(plain(tongue.one_of(names)));
}

std::optional<Quantity> sum(const std::vector<Quantity>& quantities) {
    std::optional<Quantity> total;
    for (const Quantity& quantity : quantities) {
        if (!total) {
            total = quantity;
            continue;
        }
        const auto value = meaning::add(total->value, quantity.value);
        if (!value || total->dimension != quantity.dimension) {
            return std::nullopt;
        }
        total->value = *value;
    }
    return total;
}

std::optional<Quantity> times(const Quantity& quantity, std::uint64_t count) {
    const auto value = meaning::multiply(quantity.value, meaning::Rational(static_cast<std::int64_t>(count)));
    return value ? std::optional(Quantity{quantity.dimension, *value}) : std::nullopt;
}

} // namespace curbstop::output
