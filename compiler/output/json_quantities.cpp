// What was worked out: volumes, what is brought, minutes, trips, dilution, bleach.
#include "output/json_parts.h"
#include "quantities/quantities.h"

#include <cmath>

namespace curbstop::output {

using namespace meaning;

namespace {

// A number that was reckoned, in a unit of the Unified Code for Units of Measure. Rounded to what it can mean, so that
// the last digits of a double are no difference between two machines.
void number(text::JsonWriter& json, std::string_view key, std::optional<double> value, double times, double steps,
            std::string_view ucum) {
    json.key(key);
    if (!value) {
        json.null();
        return;
    }
    json.begin_object().member("value", std::round(*value * times * steps) / steps).member("unit", ucum).end_object();
}
void litres(text::JsonWriter& json, std::string_view key, std::optional<double> cubic_metres) {
    number(json, key, cubic_metres, 1000, 1e6, "L");
}
void percent(text::JsonWriter& json, std::string_view key, std::optional<double> part) {
    number(json, key, part, 100, 1e6, "%");
}
void celsius(text::JsonWriter& json, std::string_view key, std::optional<double> degrees) {
    number(json, key, degrees, 1, 100, "Cel");
}
void minutes(text::JsonWriter& json, std::string_view key, std::optional<double> value) {
    number(json, key, value, 1, 1000, "min");
}

std::string_view name_of(quantities::PocketKind kind) {
    switch (kind) {
    case quantities::PocketKind::pipe:
        return "pipe";
    case quantities::PocketKind::chamber:
        return "chamber";
    case quantities::PocketKind::body:
        return "body";
    case quantities::PocketKind::vessel:
        return "vessel";
    }
    return {};
}

// `index`: of the run, chamber or part.
void pocket(text::JsonWriter& json, const quantities::PocketVolume& pocket) {
    json.begin_object().member("label", pocket.label).member("kind", name_of(pocket.kind));
    json.member("index", pocket.index).member("open", pocket.open);
    litres(json, "volume", pocket.volume);
    json.end_object();
}

void pockets(text::JsonWriter& json, std::string_view key, const std::vector<quantities::PocketVolume>& all) {
    json.key(key).begin_array();
    for (const quantities::PocketVolume& each : all) {
        pocket(json, each);
    }
    json.end_array();
}

void flow(const JsonContext& context, const quantities::FlowAmount& amount) {
    text::JsonWriter& json = context.json;
    json.begin_object().member("step", amount.step);
    json_source(context, amount.flow->span);
    litres(json, "needs", amount.needs);
    litres(json, "fills", amount.fill);
    litres(json, "mixes", amount.again);
    litres(json, "most", amount.most);
    json_quantity(json, "rate", amount.rate);
    minutes(json, "least_minutes", amount.least_minutes);
    minutes(json, "most_minutes", amount.most_minutes);
    json.key("trips").begin_array();
    for (const auto& trips : amount.trips) {
        json.begin_object();
        json_ref(json, "vessel", trips.vessel);
        json.member("count", trips.count).end_object();
    }
    json.end_array().end_object();
}

void supply(const JsonContext& context, const quantities::Supply& supply) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_ref(json, "fluid", supply.fluid);
    litres(json, "needs", supply.needs);
    litres(json, "blown_first", supply.blown_first);
    litres(json, "not_blown", supply.not_blown);
    litres(json, "listed", supply.listed);
    json.member("mixed_on_the_spot", supply.mixed_on_the_spot);
    json.key("vessels").begin_array();
    for (const auto& from : supply.vessels) {
        json.begin_object();
        json_ref(json, "vessel", from.vessel);
        litres(json, "needs", from.needs);
        json.end_object();
    }
    json.end_array().key("options").begin_array();
    for (const auto& each : supply.options) {
        json.begin_object();
        json_ref(json, "option", each.option);
        litres(json, "with", each.with);
        litres(json, "without", each.without);
        json.end_object();
    }
    json.end_array().key("dilution");
    if (supply.dilution) {
        json.begin_object();
        percent(json, "strength", supply.dilution->strength);
        celsius(json, "freezes", supply.dilution->freezes);
        percent(json, "thinned", supply.dilution->thinned);
        celsius(json, "thinned_freezes", supply.dilution->thinned_freezes);
        json.end_object();
    } else {
        json.null();
    }
    json_refs(json, "runs_out_at", supply.runs_out_at);
    pockets(json, "stays_in", supply.stays_in);
    pockets(json, "runs_into", supply.runs_into);
    json.end_object();
}

void dose(const JsonContext& context, const quantities::Dose& dose) {
    text::JsonWriter& json = context.json;
    json.begin_object();
    json_ref(json, "fluid", dose.fluid);
    json_ref(json, "chamber", dose.chamber);
    litres(json, "volume", dose.volume);
    number(json, "concentration", dose.concentration, 1e6, 1000, "mg/L");
    number(json, "stands", dose.hours, 1, 1000, "h");
    json.key("bleach").begin_array();
    for (const auto& row : dose.rows) {
        json.begin_object();
        percent(json, "label_strength", row.strength);
        number(json, "volume", row.bleach, 1e6, 1000, "mL");
        json.end_object();
    }
    json.end_array();
    litres(json, "flushing", dose.flushing);
    json.end_object();
}

} // namespace

void json_quantities(const JsonContext& context, const quantities::Quantities& quantities) {
    text::JsonWriter& json = context.json;
    json.key("quantities").begin_object();
    pockets(json, "pockets", quantities.pockets);
    json.key("flows").begin_array();
    for (const quantities::FlowAmount& each : quantities.flows) {
        flow(context, each);
    }
    json.end_array().key("supplies").begin_array();
    for (const quantities::Supply& each : quantities.supplies) {
        supply(context, each);
    }
    json.end_array().key("doses").begin_array();
    for (const quantities::Dose& each : quantities.doses) {
        dose(context, each);
    }
    json.end_array().key("carried").begin_array();
    for (const quantities::Carried& each : quantities.carried) {
        json.begin_object();
        json_ref(json, "vessel", each.vessel);
        json.member("times", each.times).end_object();
    }
    json.end_array().end_object();
}

} // namespace curbstop::output
