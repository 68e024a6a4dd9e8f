#include "output/quantity_words.h"

#include "meaning/quantity_text.h"

#include <array>

namespace curbstop::output {

using meaning::Dimension;
using meaning::Quantity;

std::string quantity_words(const Quantity& quantity) {
    const std::string metric = meaning::format_quantity(quantity, meaning::UnitSystem::metric);
    const std::string us = meaning::format_quantity(quantity, meaning::UnitSystem::us);
    return metric == us ? metric : metric + " (" + us + ")";
}

std::string_view record_unit(Dimension dimension) {
    switch (dimension) {
    case Dimension::length:
        return "m or ft";
    case Dimension::volume:
        return "L or gal";
    case Dimension::pressure:
        return "bar or psi";
    case Dimension::temperature:
        return "°C or °F";
    case Dimension::time:
        return "min";
    case Dimension::flow:
        return "L/min or gal/min";
    case Dimension::concentration:
        return "% or mg/L";
    case Dimension::mass:
        return "kg or lb";
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
    static constexpr std::array concentrations{Unit::percent, Unit::mg_per_L};
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
