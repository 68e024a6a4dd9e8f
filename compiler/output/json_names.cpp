#include "output/json_parts.h"

namespace curbstop::output {

std::string_view json_name(meaning::Signal signal) {
    using enum meaning::Signal;
    switch (signal) {
    case danger:
        return "danger";
    case warning:
        return "warning";
    case caution:
        return "caution";
    case notice:
        return "notice";
    }
    return {};
}

std::string_view json_name(meaning::VariableKind kind) {
    using enum meaning::VariableKind;
    switch (kind) {
    case position:
        return "position";
    case cover:
        return "cover";
    case end:
        return "end";
    case dial:
        return "dial";
    case vessel:
        return "vessel";
    }
    return {};
}

std::string_view json_name(meaning::NodeKind kind) {
    using enum meaning::NodeKind;
    switch (kind) {
    case port:
        return "port";
    case chamber:
        return "chamber";
    case tee:
        return "tee";
    case end:
        return "end";
    case vessel:
        return "vessel";
    case place:
        return "place";
    }
    return {};
}

std::string_view json_name(meaning::Level level) {
    using enum meaning::Level;
    switch (level) {
    case none:
        return "none";
    case low:
        return "low";
    case side:
        return "side";
    case brim:
        return "brim";
    case top:
        return "top";
    }
    return {};
}

std::string_view json_name(meaning::WayKind kind) {
    using enum meaning::WayKind;
    switch (kind) {
    case two_way:
        return "two_way";
    case one_way:
        return "one_way";
    case lift:
        return "lift";
    case fall:
        return "fall";
    case breach:
        return "breach";
    case vent:
        return "vent";
    case open_end:
        return "open_end";
    }
    return {};
}

std::string_view json_name(meaning::SourceKind kind) {
    using enum meaning::SourceKind;
    switch (kind) {
    case supply:
        return "supply";
    case lift:
        return "lift";
    case store:
        return "store";
    case heat:
        return "heat";
    }
    return {};
}

std::string_view json_name(meaning::GuardKind kind) {
    using enum meaning::GuardKind;
    switch (kind) {
    case set:
        return "set";
    case while_standing:
        return "while";
    }
    return {};
}

std::string_view json_name(meaning::ExpressionKind kind) {
    using enum meaning::ExpressionKind;
    switch (kind) {
    case always:
        return "always";
    case never:
        return "never";
    case all:
        return "all";
    case any:
        return "any";
    case negation:
        return "not";
    case stands:
        return "stands";
    case option:
        return "option";
    case branch:
        return "in_case";
    case no_pressure:
        return "no_pressure";
    case pressure_below:
        return "pressure_below";
    case holds:
        return "holds";
    case empty:
        return "empty";
    case reaches_liquid:
        return "reaches_liquid";
    case frost_safe:
        return "frost_safe";
    case drinkable:
        return "drinkable";
    case sanitised:
        return "sanitised";
    case restored:
        return "restored";
    case cool:
        return "cool";
    }
    return {};
}

std::string_view json_name(meaning::ObservationKind kind) {
    using enum meaning::ObservationKind;
    switch (kind) {
    case stops:
        return "stops";
    case only_air:
        return "only_air";
    case shows:
        return "shows";
    case clear:
        return "clear";
    case full:
        return "full";
    case holds_pressure:
        return "holds_pressure";
    case reads_at_least:
        return "reads_at_least";
    }
    return {};
}

std::string_view json_name(meaning::Chamber::Acceptance::Grade grade) {
    using enum meaning::Chamber::Acceptance::Grade;
    switch (grade) {
    case holds:
        return "holds";
    case mixed:
        return "mixed";
    case traces:
        return "traces";
    }
    return {};
}

} // namespace curbstop::output
