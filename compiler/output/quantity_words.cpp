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

/// A volume as a jug with US marks shows it, on the side asked for.
std::string on_a_jug(const Quantity& quantity, const Tongue& tongue, Towards side) {
    using meaning::Unit;
    constexpr double half_a_gallon = 64; // fl oz
    const double ounces = to_double(quantity, Unit::floz);
    const bool small = ounces < half_a_gallon;
    const double number = small ? ounces : to_double(quantity, Unit::gal);
    const auto is_short = [](double value) { return std::abs(value * 100 - std::round(value * 100)) < 1e-6; };
    const double step = small ? (number < 8 ? 0.5 : 1) : number < 5 ? 0.25 : number < 20 ? 0.5 : 1;
    // A figure of the author's own stays as it is, and so does what is less than the smallest mark.
    if (is_short(number) || number < step) {
        return quantity_in(quantity, meaning::UnitSystem::us, tongue);
    }
    const double marks = number / step;
    const double rounded = (side == Towards::more   ? std::ceil(marks - 1e-9)
                            : side == Towards::less ? std::floor(marks + 1e-9)
                                                    : std::round(marks)) *
                           step;
    return tongue.measured(fmt::format("{:g}", rounded), meaning::unit_info(small ? Unit::floz : Unit::gal).symbol);
}

} // namespace

std::string quantity_words(const Quantity& quantity, const Tongue& tongue, Towards side) {
    std::string metric = quantity_in(quantity, meaning::UnitSystem::metric, tongue);
    const std::string us = quantity.dimension == Dimension::volume
                               ? on_a_jug(quantity, tongue, side)
                               : quantity_in(quantity, meaning::UnitSystem::us, tongue);
    return metric == us ? metric : metric + " (" + us + ")";
}

Phrase bounds_words(Dimension dimension, const std::optional<Quantity>& least, const std::optional<Quantity>& most,
                    const Tongue& tongue) {
    if (least && most) {
        return tongue.say<Saying::reading_between>(in<"least">(quantity_words(*least, tongue, Towards::more)),
                                                   in<"most">(quantity_words(*most, tongue, Towards::less)));
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
