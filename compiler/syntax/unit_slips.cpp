#include "syntax/unit_slips.h"

#include "syntax/token_kind.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace curbstop::syntax {

namespace {

struct UnitSlip {
    std::string_view written; ///< in lower case
    std::string_view meant;
};

constexpr auto unit_slips = std::to_array<UnitSlip>({
    {"in", "inch"},
    {"inches", "inch"},
    {"foot", "ft"},
    {"feet", "ft"},
    {"metre", "m"},
    {"metres", "m"},
    {"meter", "m"},
    {"meters", "m"},
    {"centimetres", "cm"},
    {"centimeters", "cm"},
    {"millimetres", "mm"},
    {"millimeters", "mm"},
    {"l", "L"},
    {"litre", "L"},
    {"litres", "L"},
    {"liter", "L"},
    {"liters", "L"},
    {"ml", "mL"},
    {"cl", "cL"},
    {"dl", "dL"},
    {"gallon", "gal"},
    {"gallons", "gal"},
    {"oz_fl", "floz"},
    {"hour", "h"},
    {"hours", "h"},
    {"hr", "h"},
    {"hrs", "h"},
    {"minute", "min"},
    {"minutes", "min"},
    {"mins", "min"},
    {"second", "s"},
    {"seconds", "s"},
    {"sec", "s"},
    {"secs", "s"},
    {"day", "d"},
    {"days", "d"},
    {"c", "degC"},
    {"celsius", "degC"},
    {"f", "degF"},
    {"fahrenheit", "degF"},
    {"percent", "%"},
    {"gpm", "gal/min"},
    {"lpm", "L/min"},
    {"l/min", "L/min"},
    {"l/hour", "L/h"},
    {"l/h", "L/h"},
    {"l/s", "L/s"},
    {"l/minute", "L/min"},
    {"gallons/min", "gal/min"},
    {"mg/l", "mg/L"},
    {"bars", "bar"},
    {"kilos", "kg"},
    {"kilograms", "kg"},
    {"grams", "g"},
    {"pounds", "lb"},
    {"lbs", "lb"},
    {"watts", "W"},
    {"psig", "psi"},
    {"mtr", "m"},
    {"mtrs", "m"},
});

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    return result;
}

} // namespace

std::optional<std::string_view> meant_unit(std::string_view written) {
    const std::string small = lower(written);
    const auto slip = std::ranges::find(unit_slips, small, &UnitSlip::written);
    if (slip != unit_slips.end()) {
        return slip->meant;
    }
    for (const std::string_view unit : units()) {
        if (unit != written && lower(unit) == small) {
            return unit;
        }
    }
    return std::nullopt;
}

} // namespace curbstop::syntax
