#include "meaning/build.h"

#include <algorithm>
#include <bit>

#include <fmt/format.h>

#include "meaning/context.h"
#include "meaning/dial_settings.h"
#include "meaning/expression_builder.h"
#include "meaning/procedure_builder.h"
#include "meaning/system_builder.h"
#include "meaning/translations.h"

namespace curbstop::meaning {

namespace {

// A fluid's table: fractions from nothing to pure, rising; the stronger, the lower it freezes.
void check_strength(Context& context, const Fluid& fluid, const Fluid::Strength& point, syntax::Node written) {
    const Rational none(0);
    const Rational pure(1);
    if (!(none < point.concentration.value) || pure < point.concentration.value) {
        context.complain("bad-strength", written.span(), "a strength lies above 0 % and at most at 100 %");
        return;
    }
    const auto is_warm = [&](const std::optional<Quantity>& told) { return told && !(told->value < none); };
    if (is_warm(point.freezes) || is_warm(point.bursts)) {
        context.complain("bad-strength", written.span(),
                         "water alone freezes at 0 degC; of what is thinned with it the points lie below that");
        return;
    }
    for (const Fluid::Strength& earlier : fluid.strengths) {
        const bool rises = earlier.concentration.value < point.concentration.value;
        const bool falls = (!earlier.freezes || !point.freezes || point.freezes->value < earlier.freezes->value) &&
                           (!earlier.bursts || !point.bursts || point.bursts->value < earlier.bursts->value);
        if (!rises || !falls) {
            context.complain("bad-strength", written.span(),
                             "the strengths of a fluid rise from line to line, and what freezes or bursts falls");
            return;
        }
    }
}

// What a fluid bursts at is no warmer than what it freezes at: on the straight line between the points of its table,
// from water on. Beyond them nothing is known.
void check_burst_points(Context& context, const Fluid& fluid,
                        const std::vector<std::pair<std::size_t, syntax::Node>>& written) {
    for (const auto& [index, node] : written) {
        const Fluid::Strength& point = fluid.strengths[index];
        double below = 0;
        double at_below = 0;
        for (const Fluid::Strength& known : fluid.strengths) {
            if (!known.freezes || !point.bursts) {
                continue;
            }
            const double here = known.concentration.value.to_double();
            const double at_here = known.freezes->value.to_double();
            const double strength = point.concentration.value.to_double();
            if (below < strength && strength <= here &&
                point.bursts->value.to_double() >
                    at_below + (at_here - at_below) * (strength - below) / (here - below) + 1e-9) {
                context.complain("bad-strength", node.span(),
                                 "nothing bursts a pipe before it freezes: at this strength it still runs");
            }
            below = here;
            at_below = at_here;
        }
    }
}

// How strong and how long: fractions from nothing to pure, rising; what is stronger must not stand as long.
void check_disinfection(Context& context, const Fluid& fluid, const Fluid::Disinfection& point, syntax::Node written) {
    const auto complain = [&](std::string message) {
        context.complain("bad-disinfection", written.span(), std::move(message));
    };
    const Rational none(0);
    if (fluid.gas) {
        return complain("a gas does not disinfect a pipe by standing in it: only a liquid wets it everywhere");
    }
    if (!(none < point.concentration.value) || Rational(1) < point.concentration.value) {
        return complain("a strength that disinfects lies above 0 % and at most at 100 %");
    }
    if (!(none < point.time.value)) {
        return complain("nothing disinfects at once: say how long it must stand");
    }
    for (const Fluid::Disinfection& earlier : fluid.disinfects) {
        if (earlier.concentration.value == point.concentration.value) {
            return complain("this strength is given twice");
        }
        if (point.concentration.value < earlier.concentration.value || !(point.time.value < earlier.time.value)) {
            return complain("the strengths that disinfect rise from line to line, and their times fall");
        }
    }
}

void add_fluids(Context& context) {
    for (const syntax::Node node : context.declarations.fluids.in_order()) {
        Fluid fluid{{std::string(declared_name(node)), label_of(node), doc_of(node), node.span()}};
        std::vector<std::pair<syntax::Node, Fluid::Disinfection>> disinfections;
        std::vector<std::pair<std::size_t, syntax::Node>> bursting; // what stands later in the table may be between
        for (const syntax::Node item : node.children()) {
            switch (item.kind()) {
            case Syntax::category_:
                // EN 1717 knows five.
                fluid.category = static_cast<int>(context.count(item.child(0), 5).value_or(5));
                break;
            case Syntax::gas_:
                fluid.gas = true;
                break;
            case Syntax::shows_:
                fluid.shows = text_of(item.child(0));
                break;
            case Syntax::strength_: {
                const auto concentration = context.quantity(item.child(0), Dimension::concentration);
                if (!concentration) {
                    break;
                }
                Fluid::Strength strength{*concentration, {}, {}};
                if (const auto freezes = item.find(Syntax::freezes_)) {
                    strength.freezes = context.quantity(freezes->child(0), Dimension::temperature);
                }
                if (const auto bursts = item.find(Syntax::bursts_)) {
                    strength.bursts = context.quantity(bursts->child(0), Dimension::temperature);
                }
                check_strength(context, fluid, strength, item);
                if (strength.bursts) {
                    bursting.emplace_back(fluid.strengths.size(), item);
                }
                fluid.strengths.push_back(strength);
                break;
            }
            case Syntax::signal_:
                if (const auto signal = signal_from_name(item.child(0).text())) {
                    fluid.warnings.push_back({*signal, text_of(item.child(1))});
                }
                break;
            case Syntax::disinfects_: {
                const auto concentration = context.quantity(item.child(0), Dimension::concentration);
                const auto time = context.quantity(item.child(1), Dimension::time);
                if (concentration && time) {
                    disinfections.emplace_back(item, Fluid::Disinfection{*concentration, *time});
                }
                break;
            }
            default:
                break;
            }
        }
        check_burst_points(context, fluid, bursting);
        for (const auto& [written, disinfection] : disinfections) { // `gas` may stand behind them
            check_disinfection(context, fluid, disinfection, written);
            fluid.disinfects.push_back(disinfection);
        }
        if (context.system.fluids.size() == most_fluids) {
            context.complain("too-many-fluids", node.span(),
                             fmt::format("more than {} fluids are declared, with all that are used", most_fluids));
            return;
        }
        context.fluids.emplace(declared_name(node), FluidId(context.system.fluids.size()));
        context.system.fluids.push_back(std::move(fluid));
    }
}

void add_groups(Context& context) {
    for (const syntax::Node node : context.declarations.groups.in_order()) {
        if (declared_name(node) == "covers") {
            context.complain("name-taken", node.find(Syntax::name_)->span(),
                             "`covers` is always the group of all covers");
            continue;
        }
        context.groups.emplace(declared_name(node), GroupId(context.system.groups.size()));
        context.system.groups.push_back(
            {{std::string(declared_name(node)), label_of(node), doc_of(node), node.span()}, {}});
    }
}

// `on SYSTEM` of a line-up, procedure or season.
bool is_on_system(Context& context, syntax::Node node) {
    const auto on = node.find(Syntax::on_system_);
    if (!on) {
        return true;
    }
    const syntax::Node name = on->child(0);
    if (name.text() == context.system.name) {
        return true;
    }
    const auto meant = context.declarations.systems.nearest(name.text());
    context.complain("unknown-name", name.span(), fmt::format("there is no system `{}`", name.text()), nullptr, {},
                     meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
    return false;
}

void put_entry(Lineup& lineup, Lineup::Entry entry) {
    const auto earlier = std::ranges::find(lineup.entries, entry.variable, &Lineup::Entry::variable);
    if (earlier != lineup.entries.end()) {
        *earlier = entry;
    } else {
        lineup.entries.push_back(entry);
    }
}

void add_lineups(Context& context) {
    const Scope top;
    for (const syntax::Node node : context.declarations.lineups.in_order()) {
        if (!is_on_system(context, node)) {
            continue;
        }
        Lineup lineup{{std::string(declared_name(node)), label_of(node), doc_of(node), node.span()}, {}};
        if (const auto like = node.find(Syntax::like_)) {
            const auto found = context.lineups.find(like->child(0).text());
            if (found == context.lineups.end()) {
                context.complain("unknown-name", like->child(0).span(),
                                 context.declarations.lineups.find(like->child(0).text())
                                     ? fmt::format("line-up `{}` must be declared above the one that is like it",
                                                   like->child(0).text())
                                     : fmt::format("there is no line-up `{}`", like->child(0).text()));
            } else {
                lineup.entries = context.system[found->second].entries;
            }
        }
        std::vector<VariableId> written;
        for (const syntax::Node item : node.children()) {
            if (!item.is(Syntax::lineup_entry_)) {
                continue;
            }
            for (const VariableId variable : subjects_from(context, item.child(0), top)) {
                const auto values = values_from(context, variable, item.child(1), top);
                if (!values) {
                    continue;
                }
                if (!item.child(0).is(Syntax::all_of_) && std::ranges::find(written, variable) != written.end()) {
                    context.complain(
                        "name-taken", item.span(),
                        fmt::format("`{}` stands in this line-up already", context.system[variable].label));
                }
                if (!item.child(0).is(Syntax::all_of_)) {
                    written.push_back(variable);
                } else if (std::ranges::find(written, variable) != written.end()) {
                    continue; // what is written for the part itself wins over its group
                }
                put_entry(lineup, {variable, *values, item.span()});
                // A coupling is said once, for either end.
                const Variable& stands = context.system[variable];
                if (stands.kind == VariableKind::end && std::popcount(*values) == 1) {
                    const NodeId partner = stands.values[static_cast<std::size_t>(std::countr_zero(*values))].partner;
                    if (partner.valid() && context.system[partner].end.valid()) {
                        const VariableId other = context.system[partner].end;
                        const Variable& other_stands = context.system[other];
                        for (std::size_t i = 0; i < other_stands.values.size(); ++i) {
                            if (other_stands.values[i].partner.valid() &&
                                context.system[other_stands.values[i].partner].end == variable) {
                                put_entry(lineup, {other, ValueSet{1} << i, item.span()});
                                context.mention(other);
                            }
                        }
                    }
                }
            }
        }
        if (const auto for_use = node.find(Syntax::for_use_)) {
            if (context.system.use.valid()) {
                context.complain("two-for-use", for_use->span(), "another line-up is the one for use already", nullptr,
                                 {}, {}, {{context.system[context.system.use].span, "this one"}});
            } else {
                context.system.use = LineupId(context.system.lineups.size());
                lineup.for_use = true;
            }
        }
        context.lineups.emplace(declared_name(node), LineupId(context.system.lineups.size()));
        context.system.lineups.push_back(std::move(lineup));
    }
}

void add_seasons(Context& context, ProcedureBuilder& builder) {
    for (const syntax::Node node : context.declarations.seasons) {
        if (!is_on_system(context, node)) {
            continue;
        }
        Season season{{"", label_of(node), "", node.span()}, {}, {}, {}};
        bool first = true;
        for (const syntax::Node item : node.children()) {
            if (item.is(Syntax::name_)) {
                const auto found = context.procedures.find(item.text());
                if (found == context.procedures.end()) {
                    const auto meant = context.declarations.procedures.nearest(item.text());
                    context.complain("unknown-name", item.span(),
                                     fmt::format("there is no procedure `{}`", item.text()), nullptr, {},
                                     meant ? std::vector{fmt::format("did you mean `{}`?", *meant)}
                                           : std::vector<std::string>{});
                } else {
                    (first ? season.first : season.second) = found->second;
                }
                first = false;
            } else if (item.is(Syntax::ensures_)) {
                if (auto made = builder.contract(item, Scope{})) {
                    season.ensures.push_back(std::move(*made));
                }
            }
        }
        context.model.seasons.push_back(std::move(season));
    }
}

} // namespace

std::optional<Model> build(text::SourceSet& sources, text::SourceId root, const ModuleFinder& find_module,
                           text::DiagnosticSink& sink) {
    const Declarations declarations = read_declarations(sources, root, find_module, sink);
    if (sink.has_errors()) {
        return std::nullopt; // what could not be read would only be missed again wherever it is named
    }
    Model model;
    Context context(sources, declarations, sink, model);
    add_fluids(context);
    add_groups(context);

    const std::vector<syntax::Node>& systems = declarations.systems.in_order();
    if (systems.empty()) {
        sink.add({.slug = "no-system",
                  .span = {root, 0, 0},
                  .message = "this file and the modules it uses declare no system",
                  .notes = {"a module of kinds is checked through a file that declares a system and uses it"}});
        return std::nullopt;
    }
    if (systems.size() > 1) {
        context.complain("several-systems", systems[1].find(Syntax::name_)->span(), "one file describes one system",
                         nullptr, {}, {"put each system into a file of its own; what they share goes into a module"},
                         {{systems[0].find(Syntax::name_)->span(), "the first one"}});
    }
    SystemBuilder(context, systems.front()).build();
    check_translations(declarations, model.system.languages, sink);
    add_lineups(context);
    ProcedureBuilder builder(context);
    for (const syntax::Node node : declarations.procedures.in_order()) {
        if (is_on_system(context, node)) {
            model.procedures.push_back(builder.build(node));
            context.procedures.emplace(declared_name(node), ProcedureId(model.procedures.size() - 1));
        }
    }
    add_seasons(context, builder);
    add_dial_settings(context);
    model.system.mentioned.resize(model.system.variables.size());
    if (sink.has_errors()) {
        return std::nullopt;
    }
    return model;
}

} // namespace curbstop::meaning
