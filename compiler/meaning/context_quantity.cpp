// Quantities out of the syntax: units known, dimensions right, values possible.
#include <fmt/format.h>

#include "meaning/context.h"
#include "text/nearest.h"

namespace curbstop::meaning {

namespace {

std::string units_of(Dimension dimension) {
    std::string names;
    for (const UnitInfo& unit : all_units()) {
        if (unit.dimension == dimension && !unit.name.empty()) {
            names += fmt::format("{}`{}`", names.empty() ? "" : ", ", unit.name);
        }
    }
    return names;
}

// Absolute zero: below it there is no temperature. Exact by definition of the degree Celsius.
constexpr Rational absolute_zero = *Rational::ratio(-27315, 100);

} // namespace

std::optional<Unit> Context::unit(syntax::Node node, Dimension dimension, std::string_view of) {
    const auto found = unit_from_name(node.text());
    const bool fits = found && dimension != Dimension::count && unit_info(*found).dimension == dimension;
    if (!fits) {
        const std::string known = units_of(dimension);
        complain(found ? "wrong-dimension" : "unknown-unit", node.span(),
                 found ? fmt::format("`{}` is no unit of {}", node.text(), of)
                       : fmt::format("there is no unit `{}`", node.text()),
                 nullptr,
                 {known.empty() ? fmt::format("{} has no unit", of) : fmt::format("units of {}: {}", of, known)});
        return std::nullopt;
    }
    return found;
}

std::optional<Quantity> Context::quantity(syntax::Node node, Dimension dimension) {
    if (!node.is(Syntax::quantity_)) {
        complain("wrong-dimension", node.span(),
                 fmt::format("a quantity is needed here ({})", dimension_name(dimension)));
        return std::nullopt;
    }
    const syntax::Node number = node.child(0);
    const auto unit_node = node.find(Syntax::unit_);
    const auto parsed = parse_number(number.text());
    if (const auto* error = std::get_if<NumberError>(&parsed)) {
        complain("number-too-long", number.span(),
                 *error == NumberError::too_long ? fmt::format("this number has more than {} digits", max_digits)
                                                 : fmt::format("`{}` is no number", number.text()));
        return std::nullopt;
    }
    const std::string_view unit_name = unit_node ? unit_node->text() : std::string_view{};
    const auto unit = unit_from_name(unit_name);
    if (!unit) {
        std::vector<std::string_view> names;
        for (const UnitInfo& info : all_units()) {
            names.push_back(info.name);
        }
        const auto meant = text::nearest(unit_name, names);
        complain("unknown-unit", unit_node ? unit_node->span() : node.span(),
                 fmt::format("there is no unit `{}`", unit_name), nullptr,
                 {fmt::format("units of {}: {}", dimension_name(dimension), units_of(dimension))},
                 meant && !meant->empty() ? std::vector{fmt::format("did you mean `{}`?", *meant)}
                                          : std::vector<std::string>{});
        return std::nullopt;
    }
    const UnitInfo& info = unit_info(*unit);
    if (info.dimension != dimension) {
        if (unit_name.empty()) {
            complain("missing-unit", node.span(), fmt::format("`{}` needs a unit", number.text()), nullptr,
                     {fmt::format("units of {}: {}", dimension_name(dimension), units_of(dimension))});
        } else {
            complain("wrong-dimension", node.span(),
                     fmt::format("`{}` is a {}, but here a {} is needed", as_written(node),
                                 dimension_name(info.dimension), dimension_name(dimension)),
                     nullptr,
                     {dimension == Dimension::count
                          ? std::string("a count is a number alone")
                          : fmt::format("units of {}: {}", dimension_name(dimension), units_of(dimension))});
        }
        return std::nullopt;
    }
    const auto made = make_quantity(std::get<Rational>(parsed), *unit);
    if (!made) {
        complain("number-too-long", number.span(), "this number is too great to be converted exactly");
        return std::nullopt;
    }
    if (dimension == Dimension::temperature && made->value < absolute_zero) {
        complain("impossible-quantity", node.span(),
                 fmt::format("`{}` is below absolute zero (-273.15 degC)", as_written(node)));
        return std::nullopt;
    }
    if (dimension == Dimension::concentration && (made->value < Rational(0) || Rational(1) < made->value)) {
        complain("impossible-quantity", node.span(),
                 fmt::format("`{}`: a concentration is between 0 % and 100 %", as_written(node)));
        return std::nullopt;
    }
    return made;
}

std::optional<Quantity> Context::positive_quantity(syntax::Node node, Dimension dimension, bool zero_allowed) {
    const auto made = quantity(node, dimension);
    if (!made) {
        return std::nullopt;
    }
    if (made->value < Rational(0) || (!zero_allowed && made->value == Rational(0))) {
        complain("impossible-quantity", node.span(),
                 fmt::format("`{}`: this {} {}", as_written(node), dimension_name(dimension),
                             zero_allowed ? "cannot be less than zero" : "must be greater than zero"));
        return std::nullopt;
    }
    return made;
}

std::optional<std::uint32_t> Context::count(syntax::Node number, std::uint32_t most) {
    const auto parsed = parse_number(number.text());
    if (const auto* value = std::get_if<Rational>(&parsed)) {
        const double as_double = to_double(Quantity{Dimension::count, *value}, Unit::one);
        const auto whole = static_cast<std::uint32_t>(as_double);
        if (as_double >= 1 && as_double <= most && *value == Rational(static_cast<std::int64_t>(whole))) {
            return whole;
        }
    }
    complain("impossible-quantity", number.span(),
             fmt::format("`{}`: a whole number from 1 to {} is needed", number.text(), most));
    return std::nullopt;
}

} // namespace curbstop::meaning
