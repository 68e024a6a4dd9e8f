#include "meaning/dial_settings.h"

#include <algorithm>

#include <fmt/format.h>

#include "meaning/quantity_text.h"

namespace curbstop::meaning {

namespace {

std::vector<Rational> compared_pressures(const System& system) {
    std::vector<Rational> pressures;
    for (const Rating& rating : system.ratings) {
        pressures.push_back(rating.limit.value);
    }
    for (const Way& way : system.ways) {
        for (const auto& limit : {way.limits, way.above}) {
            if (limit) {
                pressures.push_back(limit->value);
            }
        }
    }
    for (std::size_t i = 0; i < system.expressions.size(); ++i) {
        const Expression& expression = system.expressions[ExpressionId(i)];
        if (expression.kind == ExpressionKind::pressure_below) {
            pressures.push_back(expression.quantity.value);
        }
    }
    return pressures;
}

} // namespace

void add_dial_settings(Context& context) {
    System& system = context.system;
    const std::vector<Rational> compared = compared_pressures(system);
    for (Variable& dial : system.variables) {
        if (dial.kind != VariableKind::dial) {
            continue;
        }
        const Rational greatest = dial.values[0].setting->value;
        const Rational least = dial.values[1].setting->value;
        std::vector<Rational> marks;
        for (const Value& value : dial.values) {
            marks.push_back(value.setting->value);
        }
        for (const Rational& pressure : compared) {
            if (least < pressure && pressure < greatest) {
                marks.push_back(pressure);
            }
        }
        std::ranges::sort(marks);
        marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
        for (std::size_t i = 0; i < marks.size(); ++i) {
            std::vector<Rational> settings{marks[i]};
            if (i + 1 < marks.size()) {
                const auto sum = add(marks[i], marks[i + 1]);
                const auto middle = sum ? divide(*sum, Rational(2)) : std::nullopt;
                if (middle) {
                    settings.push_back(*middle);
                }
            }
            for (const Rational& setting : settings) {
                const Quantity quantity{Dimension::pressure, setting};
                const bool known = std::ranges::any_of(
                    dial.values, [&](const Value& value) { return value.setting->value == setting; });
                if (known) {
                    continue;
                }
                if (dial.values.size() >= max_values) {
                    context.complain(
                        "too-many-values", dial.span,
                        fmt::format("`{}` would have to be tried at more than {} settings", dial.label, max_values));
                    return;
                }
                dial.values.push_back({{fmt::format("setting {}", dial.values.size()),
                                        format_quantity(quantity, Unit::bar), "", dial.span},
                                       quantity});
            }
        }
    }
}

} // namespace curbstop::meaning
