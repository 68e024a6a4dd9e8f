#include "output/quantity_words.h"

#include "meaning/quantity_text.h"

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
