#include "meaning/system_builder.h"

#include <algorithm>

#include <fmt/format.h>

#include "meaning/expression_builder.h"
#include "meaning/photo_builder.h"

namespace curbstop::meaning {

SystemBuilder::SystemBuilder(Context& context, syntax::Node declaration)
    : context_(context)
    , system_(context.system)
    , declaration_(declaration) {}

void SystemBuilder::build() {
    system_.name = declared_name(declaration_);
    system_.label = label_of(declaration_);
    system_.doc = doc_of(declaration_);
    system_.span = declaration_.span();
    read_languages();

    // Names first: what is declared may be used above its declaration. Options and zones before what refers to them.
    for (const Syntax kind : {Syntax::option_, Syntax::zone_, Syntax::cover_, Syntax::place_, Syntax::vessel_}) {
        if (kind == Syntax::place_) {
            const NodeId ground =
                add_node({{"ground", "the ground", "", declaration_.span()}, meaning::NodeKind::place});
            system_.places.push_back({{"ground", "the ground", "", declaration_.span()}, ground, {}, {}});
            add_name({.sort = Sort::place,
                      .node = ground,
                      .name = "ground",
                      .label = "the ground",
                      .span = declaration_.span()});
        }
        for (const syntax::Node item : declaration_.children()) {
            if (item.is(kind)) {
                name_item(item);
            }
        }
    }
    for (const syntax::Node item : declaration_.children()) {
        if (item.is(Syntax::end_) || item.is(Syntax::tee_) || item.is(Syntax::part_)) {
            name_item(item);
        }
    }
    name_walks();
    fill_end_values();

    for (Instance& instance : instances_) {
        bind_given_parts(instance);
    }
    for (Instance& instance : instances_) {
        join(instance);
    }
    join_runs();
    add_end_ways();
    add_fill_outlets();
    for (const syntax::Node item : declaration_.children()) {
        if (item.is(Syntax::may_move_)) {
            for (const syntax::Node ref : item.children()) {
                if (const auto variable = context_.variable(ref, Scope{});
                    variable && system_[*variable].part.valid()) {
                    system_.may_move_while_stored.push_back(system_[*variable].part);
                }
            }
        }
    }
    collect_ratings();
    check_tees();
    system_.mentioned.resize(system_.variables.size());
}

void SystemBuilder::read_languages() {
    for (const syntax::Node item : declaration_.children()) {
        if (!item.is(Syntax::languages_)) {
            continue;
        }
        for (const syntax::Node word : item.children()) {
            const Language language = language_from_code(word.text()).value_or(Language::english);
            if (contains(system_.languages, language)) {
                context_.complain("language-twice", word.span(),
                                  fmt::format("{} is in the list already", english_name(language)));
            }
            system_.languages = static_cast<Languages>(system_.languages | just(language));
        }
    }
}

void SystemBuilder::name_item(syntax::Node item) {
    switch (item.kind()) {
    case Syntax::option_: {
        const OptionId id(system_.options.size());
        system_.options.push_back({{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()}});
        add_name({.sort = Sort::option,
                  .option = id,
                  .name = system_[id].name,
                  .label = system_[id].label,
                  .span = item.span()});
        break;
    }
    case Syntax::zone_:
        name_zone(item);
        break;
    case Syntax::cover_:
        name_cover(item);
        break;
    case Syntax::vessel_:
        name_vessel(item);
        break;
    case Syntax::place_:
        name_place(item);
        break;
    case Syntax::end_:
        name_free_end(item);
        break;
    case Syntax::tee_:
        for (const syntax::Node name : item.children()) {
            if (!name.is(Syntax::name_)) {
                continue;
            }
            const std::string text(name.text());
            const NodeId id = add_node({{text, text, "", name.span()}, meaning::NodeKind::tee});
            add_name({.sort = Sort::tee, .node = id, .name = text, .label = text, .span = name.span()});
        }
        break;
    case Syntax::part_:
        name_part(item);
        break;
    default:
        break;
    }
}

void SystemBuilder::add_name(Thing thing) {
    const text::Span span = thing.span;
    const std::string name = thing.name;
    if (const Thing* earlier = context_.names.add(std::move(thing))) {
        context_.complain("name-taken", span, fmt::format("`{}` is the name of something else already", name), nullptr,
                          {}, {}, {{earlier->span, fmt::format("{} of that name", sort_name(earlier->sort))}});
    }
}

NodeId SystemBuilder::add_node(Node node) {
    system_.nodes.push_back(std::move(node));
    return NodeId(system_.nodes.size() - 1);
}

VariableId SystemBuilder::add_variable(Variable variable) {
    system_.variables.push_back(std::move(variable));
    return VariableId(system_.variables.size() - 1);
}

void SystemBuilder::name_zone(syntax::Node item) {
    Zone zone{{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()}, {}};
    if (const auto height = item.find(Syntax::height_)) {
        zone.height = context_.quantity(height->child(0), Dimension::length);
    }
    const ZoneId id(system_.zones.size());
    system_.zones.push_back(zone);
    add_name({.sort = Sort::zone, .zone = id, .name = zone.name, .label = zone.label, .span = item.span()});
}

void SystemBuilder::name_cover(syntax::Node item) {
    Variable variable{{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()},
                      VariableKind::cover};
    variable.values = {{{"shut", "shut", "", item.span()}}, {{"open", "open", "", item.span()}}};
    const std::string name = variable.name;
    const Text label = variable.label;
    const VariableId id = add_variable(std::move(variable));
    Cover cover{{name, label, doc_of(item), item.span()}, id, {}};
    std::vector<WorkPlace> places = work_places(item);
    if (!places.empty()) {
        cover.place = places.front();
    }
    if (const auto behind = item.find(Syntax::behind_)) { // `cover … at zone behind a, b` without a zone's own `behind`
        for (const syntax::Node over : behind->children()) {
            if (const auto above = context_.variable(over, Scope{})) {
                cover.place.covers.push_back(*above);
            }
        }
    }
    system_.covers.push_back(cover);
    add_name({.sort = Sort::cover, .variable = id, .name = name, .label = label, .span = item.span()});
}

std::vector<Chamber::Acceptance> SystemBuilder::acceptances(syntax::Node item) {
    std::vector<Chamber::Acceptance> accepts;
    for (const syntax::Node child : item.children()) {
        std::optional<Chamber::Acceptance::Grade> grade;
        switch (child.kind()) {
        case Syntax::accepts_:
            grade = Chamber::Acceptance::Grade::holds;
            break;
        case Syntax::mixed_:
            grade = Chamber::Acceptance::Grade::mixed;
            break;
        case Syntax::traces_:
            grade = Chamber::Acceptance::Grade::traces;
            break;
        default:
            break;
        }
        if (grade) {
            for (const syntax::Node name : child.children()) {
                if (const auto fluid = context_.fluid(name)) {
                    accepts.push_back({*fluid, *grade});
                }
            }
        }
    }
    return accepts;
}

void SystemBuilder::name_vessel(syntax::Node item) {
    const Named named{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()};
    const ChamberId chamber_id(system_.chambers.size());
    const NodeId node = add_node({named, meaning::NodeKind::vessel, {}, chamber_id});
    Variable whereabouts{named, VariableKind::vessel};
    whereabouts.values = {{{"away", "put away", "", item.span()}}};
    whereabouts.at_start = 0;
    const VariableId variable = add_variable(std::move(whereabouts));
    Chamber chamber{named, node};
    chamber.vessel = true;
    chamber.whereabouts = variable;
    chamber.vented = Expressions::always();
    if (const auto volume = item.find(Syntax::quantity_)) {
        chamber.volume = context_.positive_quantity(*volume, Dimension::volume);
    }
    chamber.accepts = acceptances(item);
    if (const auto filled = item.find(Syntax::filled_)) {
        if (const auto fluid = context_.fluid(filled->child(0))) {
            chamber.fluid = *fluid;
        }
        if (const auto strength = filled->find(Syntax::quantity_)) {
            chamber.strength = context_.quantity(*strength, Dimension::concentration);
        }
        check_filling(chamber, *filled);
    }
    system_.chambers.push_back(std::move(chamber));
    add_name({.sort = Sort::vessel,
              .variable = variable,
              .node = node,
              .chamber = chamber_id,
              .name = named.name,
              .label = named.label,
              .span = item.span()});
}

// How strong a fluid is decides when it freezes; the table of its kind must reach so far.
void SystemBuilder::check_filling(const Chamber& vessel, syntax::Node filled) {
    if (!vessel.fluid.valid()) {
        return;
    }
    const Fluid& fluid = system_[vessel.fluid];
    const auto last = std::ranges::find_if(fluid.strengths.rbegin(), fluid.strengths.rend(),
                                           [](const Fluid::Strength& point) { return point.freezes.has_value(); });
    const bool freezes = last != fluid.strengths.rend();
    if (!vessel.strength) {
        if (freezes && !filled.has(Syntax::quantity_)) {
            context_.complain(
                "missing-strength", filled.span(),
                fmt::format("how strong the {} in `{}` is decides when it freezes", fluid.label, vessel.label), nullptr,
                {}, {fmt::format("write it behind: `filled with {} at 40 %`", fluid.name)});
        }
        return;
    }
    const text::Span written = filled.find(Syntax::quantity_)->span();
    if (vessel.strength->value == Rational(0)) {
        context_.complain("bad-strength", written, fmt::format("there is no {} in what is 0 % strong", fluid.label));
    } else if (freezes && vessel.strength->value > last->concentration.value) {
        context_.complain("bad-strength", written, fmt::format("the table of {} ends below that", fluid.label), nullptr,
                          {"nothing is guessed beyond a table"}, {}, {{fluid.span, "its strengths are given here"}});
    }
}

void SystemBuilder::name_place(syntax::Node item) {
    const Named named{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()};
    const NodeId node = add_node({named, meaning::NodeKind::place});
    Place place{named, node, {}, acceptances(item)};
    const std::vector<WorkPlace> where = work_places(item);
    if (!where.empty()) {
        place.zone = where.front().zone;
        system_.nodes[node.value].height = system_[place.zone].height;
    }
    system_.places.push_back(std::move(place));
    add_name({.sort = Sort::place, .node = node, .name = named.name, .label = named.label, .span = item.span()});
}

void SystemBuilder::name_free_end(syntax::Node item) {
    const std::vector<WorkPlace> places = work_places(item);
    std::optional<Quantity> height;
    if (!places.empty()) {
        height = system_[places.front().zone].height;
    }
    // A free end is worked somewhere: it gets a part of its own, with nothing but the end.
    Part part{{std::string(declared_name(item)), label_of(item), doc_of(item), item.span()}, "", ""};
    part.places = places;
    part.height = height;
    const PartId id(system_.parts.size());
    part.below = NodeId(0);
    system_.parts.push_back(std::move(part));
    add_end(item, std::string(declared_name(item)), label_of(item), id, Expressions::always(), height);
}

void SystemBuilder::add_end(syntax::Node item, std::string name, Text label, PartId part, ExpressionId exists,
                            std::optional<Quantity> height) {
    Variable variable{{name, label, doc_of(item), item.span()}, VariableKind::end, part};
    variable.values.push_back({{"open", "open", "", item.span()}});
    if (item.has(Syntax::with_cap_)) {
        variable.values.push_back({{"capped", "capped", "", item.span()}});
    }
    variable.exists = exists;
    const VariableId variable_id = add_variable(std::move(variable));
    Node node{{name, label, "", item.span()}, meaning::NodeKind::end, part};
    node.end = variable_id;
    node.height = height;
    const NodeId node_id = add_node(std::move(node));
    system_.parts[part.value].nodes.push_back(node_id);
    const auto fits = item.find(Syntax::fits_);
    ends_.push_back({variable_id, fits ? fits->child(0).text() : std::string_view{}, item.has(Syntax::with_cap_),
                     item.has(Syntax::may_dip_)});
    add_name({.sort = Sort::end,
              .part = part,
              .variable = variable_id,
              .node = node_id,
              .name = std::move(name),
              .label = std::move(label),
              .span = item.span()});
}

std::vector<WorkPlace> SystemBuilder::work_places(syntax::Node item) {
    std::vector<WorkPlace> places;
    const auto at = item.find(Syntax::at_places_);
    if (!at) {
        return places;
    }
    for (const syntax::Node at_place : at->children()) {
        WorkPlace place;
        if (const auto zone = context_.zone(at_place.child(0))) {
            place.zone = *zone;
        }
        if (const auto behind = at_place.find(Syntax::behind_)) {
            for (const syntax::Node name : behind->children()) {
                const Thing* cover = context_.resolve(name, Scope{});
                if (cover != nullptr && cover->sort != Sort::cover) {
                    context_.wrong_sort(name, *cover, "a cover", Scope{});
                } else if (cover != nullptr) {
                    place.covers.push_back(cover->variable);
                }
            }
        }
        if (place.zone.valid()) {
            places.push_back(std::move(place));
        }
    }
    return places;
}

ExpressionId SystemBuilder::existence(syntax::Node item) {
    ExpressionId exists = Expressions::always();
    for (const syntax::Node child : item.children()) {
        if (child.is(Syntax::only_with_) || child.is(Syntax::without_)) {
            if (const auto option = context_.option(child.child(0))) {
                const ExpressionId taken = system_.expressions.option(*option);
                exists = system_.expressions.both(
                    exists, child.is(Syntax::only_with_) ? taken : system_.expressions.negate(taken));
            }
        }
    }
    return exists;
}

void SystemBuilder::name_part(syntax::Node item) {
    std::vector<syntax::Node> leaves;
    for (const syntax::Node child : item.children()) {
        if (child.is(Syntax::name_)) {
            leaves.push_back(child);
        }
    }
    if (leaves.size() < 2) {
        return; // the parser has said so
    }
    PartDraft draft{.name = std::string(leaves[0].text()),
                    .label = label_of(item),
                    .doc = doc_of(item),
                    .kind_name = leaves[1],
                    .span = leaves[0].span(),
                    .settings = item.find(Syntax::settings_),
                    .over = item.find(Syntax::over_),
                    .places = work_places(item),
                    .exists = existence(item),
                    .height = {},
                    .outer = SIZE_MAX};
    if (draft.places.empty() && !item.has(Syntax::at_places_)) {
        context_.complain("no-place", leaves[0].span(),
                          fmt::format("where is `{}`? a part stands at a zone", leaves[0].text()), nullptr, {},
                          {fmt::format("write `part {} : {} at ZONE`", leaves[0].text(), leaves[1].text())});
    }
    if (const auto height = item.find(Syntax::height_)) {
        draft.height = context_.quantity(height->child(0), Dimension::length);
    } else if (!draft.places.empty()) {
        draft.height = system_[draft.places.front().zone].height;
    }
    for (const syntax::Node child : item.children()) {
        if (child.is(Syntax::photo_)) {
            const Text words = child.child_count() > 1 ? text_of(child.child(1)) : Text();
            if (const auto photo = photo_from(context_, system_, child, words)) {
                draft.photos.push_back(*photo);
            }
        }
    }
    instantiate(std::move(draft));
}

void SystemBuilder::name_walks() {
    for (const syntax::Node item : declaration_.children()) {
        if (!item.is(Syntax::walk_)) {
            continue;
        }
        const auto a = context_.zone(item.child(0));
        const auto b = context_.zone(item.child(1));
        const auto length = context_.positive_quantity(item.child(2), Dimension::length);
        if (a && b && length) {
            system_.walks.push_back({*a, *b, *length});
        }
    }
}

void SystemBuilder::fill_end_values() {
    for (const EndFit& end : ends_) {
        Variable& variable = system_.variables[end.variable.value];
        const auto add = [&](const Named& partner, NodeId node, std::string_view how, std::string_view label) {
            variable.values.push_back({{fmt::format("{} {}", how, partner.name),
                                        composed("", std::string(label) + " ", partner.label), "", partner.span},
                                       {},
                                       node});
        };
        for (std::size_t i = 0; i < system_.nodes.size(); ++i) {
            const Node& node = system_.nodes[i];
            if (node.kind == meaning::NodeKind::end && node.end != end.variable) {
                const auto other = std::ranges::find(ends_, node.end, &EndFit::variable);
                if (other != ends_.end() && other->fits == end.fits) {
                    add(node, NodeId(i), "to", "coupled to");
                }
            } else if (end.dips && node.kind == meaning::NodeKind::vessel) {
                add(node, NodeId(i), "in", "dipped in");
            }
        }
        if (variable.values.size() > max_values) {
            context_.complain("too-many-values", variable.span,
                              fmt::format("`{}` could stand in more than {} ways", variable.label, max_values));
            variable.values.resize(max_values);
        }
    }
}

} // namespace curbstop::meaning
