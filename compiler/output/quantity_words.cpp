#include "output/quantity_words.h"

#include <algorithm>
#include <cstddef>

#include <array>

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

std::string quantity_words(const Quantity& quantity, const Tongue& tongue) {
    std::string metric = quantity_in(quantity, meaning::UnitSystem::metric, tongue);
    const std::string us = quantity_in(quantity, meaning::UnitSystem::us, tongue);
    return metric == us ? metric : metric + " (" + us + ")";
}

Phrase bounds_words(Dimension dimension, const std::optional<Quantity>& least, const std::optional<Quantity>& most,
                    const Tongue& tongue) {
    if (least && most) {
        return tongue.say<Saying::reading_between>(in<"least">(quantity_words(*least, tongue)),
                                                   in<"most">(quantity_words(*most, tongue)));
    }
    if (!least && !most) {
        return {};
    }
    const auto quantity = in<"quantity">(quantity_words(least ? *least : *most, tongue));
    if (dimension == Dimension::temperature) {
        return least ? tongue.say<Saying::reading_or_warmer>(quantity)
                     : tongue.say<Saying::reading_or_colder>(quantity);
    }
    return least ? tongue.say<Saying::reading_or_more>(quantity) : tongue.say<Saying::reading_or_less>(quantity);
}

std::string record_unit(Dimension dimension, const Tongue& tongue) {
    const auto either = [&](const char* a, const char* b) { return plain(tongue.one_of({phrase(a), phrase(b)})); };
    switch (dimension) {
    case Dimension::length:
        return either("m", "ft");
    case Dimension::volume:
        return either("L", "US gal");
    case Dimension::pressure:
        return either("bar", "psi");
    case Dimension::temperature:
        return either("°C", "°F");
    case Dimension::time:
        return "min";
    case Dimension::flow:
        return either("L/min", "US gal/min");
    case Dimension::concentration:
        return either("mg/L", "%");
    case Dimension::mass:
        return either("kg", "lb");
    case Dimension::power:
        return "W";
    case Dimension::count:
        return "";
    }
    return {};
}

std::span<const meaning::Unit> record_units(Dimension dimension) {
    using meaning::Unit;
    static constexpr std::array lengths{Unit::m, Unit::ft};
    static constexpr std::array volumes{Unit::L, Unit::gal};
    static constexpr std::array pressures{Unit::bar, Unit::psi};
    static constexpr std::array temperatures{Unit::degC, Unit::degF};
    static constexpr std::array times{Unit::min};
    static constexpr std::array flows{Unit::L_per_min, Unit::gal_per_min};
    static constexpr std::array concentrations{Unit::mg_per_L, Unit::percent};
    static constexpr std::array masses{Unit::kg, Unit::lb};
    static constexpr std::array powers{Unit::W};
    switch (dimension) {
    case Dimension::length:
        return lengths;
    case Dimension::volume:
        return volumes;
    case Dimension::pressure:
        return pressures;
    case Dimension::temperature:
        return temperatures;
    case Dimension::time:
        return times;
    case Dimension::flow:
        return flows;
    case Dimension::concentration:
        return concentrations;
    case Dimension::mass:
        return masses;
    case Dimension::power:
        return powers;
    case Dimension::count:
        return {};
    }
    return {};
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
