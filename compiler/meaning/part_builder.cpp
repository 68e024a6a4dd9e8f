// Parts from kinds: variables, ports, chambers, inner parts. What joins them comes later (way_builder.cpp).
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "meaning/expression_builder.h"
#include "meaning/system_builder.h"
#include "text/nearest.h"

namespace curbstop::meaning {

const KindInfo* SystemBuilder::kind_info(syntax::Node name) {
    const std::string_view text = name.text();
    if (const auto known = kinds_.find(text); known != kinds_.end()) {
        return &known->second;
    }
    if (const auto declaration = context_.declarations.kinds.find(text)) {
        return &kinds_.emplace(text, KindInfo(*declaration)).first->second;
    }
    const auto meant = context_.declarations.kinds.nearest(text);
    context_.complain("unknown-name", name.span(), fmt::format("there is no kind `{}`", text), nullptr, {},
                      meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
    return nullptr;
}

void SystemBuilder::instantiate(PartDraft draft) {
    const KindInfo* kind = kind_info(draft.kind_name);
    if (kind == nullptr) {
        context_.broken.insert(draft.name.substr(0, draft.name.find('.')));
        return;
    }
    if (std::ranges::find(kind_stack_, kind->name) != kind_stack_.end() || kind_stack_.size() >= max_assembly_depth) {
        context_.complain("kind-circle", draft.kind_name.span(),
                          kind_stack_.size() >= max_assembly_depth
                              ? fmt::format("assemblies are nested more than {} deep", max_assembly_depth)
                              : fmt::format("kind `{}` contains itself: {} > {}", kind->name,
                                            fmt::join(kind_stack_, " > "), kind->name));
        return;
    }
    if (system_.parts.size() >= max_parts) {
        context_.complain("too-many-parts", draft.span, fmt::format("the system has more than {} parts", max_parts));
        return;
    }
    const PartId id(system_.parts.size());
    Part part{{draft.name, draft.label, draft.doc, draft.span}, std::string(kind->name), kind->label};
    if (draft.outer != SIZE_MAX) {
        part.parent = instances_[draft.outer].part;
    }
    part.places = draft.places;
    part.exists = draft.exists;
    part.height = draft.height;
    part.photos = draft.photos;
    part.sight_glass = kind->sight_glass;
    if (kind->may_run_dry) {
        part.may_run_dry = context_.positive_quantity(*kind->may_run_dry, Dimension::time);
    }
    if (kind->rated) {
        part.rated = context_.positive_quantity(*kind->rated, Dimension::pressure);
    }
    if (draft.settings) {
        if (const auto rated = draft.settings->find(Syntax::rated_)) {
            part.rated = context_.positive_quantity(rated->child(0), Dimension::pressure);
        }
    }
    system_.parts.push_back(std::move(part));
    instances_.push_back({id, kind, Scope{draft.name, {}, {}}, draft.outer, draft.settings, draft.over});
    const std::size_t index = instances_.size() - 1;
    Instance& instance = instances_.back();
    for (const syntax::Node group : kind->groups) {
        const auto found = context_.groups.find(group.text());
        if (found == context_.groups.end()) {
            const auto meant = context_.declarations.groups.nearest(group.text());
            context_.complain(
                "unknown-name", group.span(), fmt::format("there is no group `{}`", group.text()), nullptr, {},
                meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        } else {
            system_.groups[found->second.value].parts.push_back(id);
            system_.parts[id.value].groups.push_back(found->second);
        }
    }
    read_givens(instance);
    if (kind->body) {
        system_.parts[id.value].body = volume_of(instance, *kind->body, true);
    }
    if (draft.settings && kind->body) {
        if (const auto held = draft.settings->find(Syntax::setting_holds_)) {
            if (const auto fluid = context_.fluid(held->child(0))) {
                system_.parts[id.value].holds = *fluid;
            }
        }
    }
    add_position_variable(instance);
    add_name({.sort = Sort::part,
              .part = id,
              .variable = system_[id].variable,
              .name = draft.name,
              .label = draft.label,
              .span = draft.span});
    add_dials(instance);
    for (const syntax::Node port : kind->ports) {
        const std::string name = fmt::format("{}.{}", draft.name, declared_name(port));
        const Text label = kind->ports.size() == 1 && kind->ends.empty()
                               ? draft.label
                               : composed(draft.label, " (", label_of(port), ")");
        Node node{{name, label, "", port.span()}, meaning::NodeKind::port, id};
        node.height = draft.height;
        const NodeId node_id = add_node(std::move(node));
        system_.parts[id.value].nodes.push_back(node_id);
        add_name({.sort = Sort::port, .part = id, .node = node_id, .name = name, .label = label, .span = port.span()});
    }
    for (const syntax::Node end : kind->ends) {
        const Text label = composed(draft.label, " (", label_of(end), ")");
        add_end(end, fmt::format("{}.{}", draft.name, declared_name(end)), label, id, draft.exists, draft.height);
    }
    add_chambers(instance);

    kind_stack_.push_back(kind->name);
    for (const syntax::Node inner : kind->inner_parts) {
        const std::string inner_name = fmt::format("{}.{}", draft.name, inner.child(0).text());
        PartDraft below{.name = inner_name,
                        .label = composed(draft.label, ": ", label_of(inner)),
                        .doc = "",
                        .kind_name = inner.child(1),
                        .span = draft.span,
                        .settings = inner.find(Syntax::settings_),
                        .over = std::nullopt,
                        .places = draft.places,
                        .exists = draft.exists,
                        .height = draft.height,
                        .outer = index};
        instantiate(std::move(below));
    }
    kind_stack_.pop_back();
}

Scope SystemBuilder::outer_scope(const Instance& instance) const {
    return instance.outer == SIZE_MAX ? Scope{} : instances_[instance.outer].scope;
}

std::optional<syntax::Node> SystemBuilder::setting(const Instance& instance, std::string_view name) const {
    if (instance.settings) {
        for (const syntax::Node item : instance.settings->children()) {
            if (item.is(Syntax::setting_) && item.child(0).text() == name) {
                return item.child(1);
            }
        }
    }
    return std::nullopt;
}

void SystemBuilder::read_givens(Instance& instance) {
    const Part& part = system_[instance.part];
    // Only temperatures go below zero.
    const auto given_quantity = [&](syntax::Node node, Dimension dimension) {
        return dimension == Dimension::temperature ? context_.quantity(node, dimension)
                                                   : context_.positive_quantity(node, dimension);
    };
    std::vector<std::string_view> given_names;
    for (const syntax::Node given : instance.kind->givens) {
        const std::string_view name = given.child(0).text();
        given_names.push_back(name);
        const syntax::Node type = given.child(1);
        const auto written = setting(instance, name);
        const auto dimension = dimension_from_name(type.text());
        const auto by_default = given.find(Syntax::default_value_);
        // A default that cannot be is wrong even where this part does without it.
        const auto default_quantity =
            dimension && by_default ? given_quantity(by_default->child(0), *dimension) : std::nullopt;
        Scope::Binding binding{name, std::nullopt, std::nullopt};
        if (!dimension) {
            kind_info(type); // complains about a kind that is not there; the part itself is bound later
        } else if (written && written->is(Syntax::ref_)) {
            const Scope outer = outer_scope(instance);
            const Scope::Binding* passed_on = outer.find(dotted(*written));
            if (passed_on != nullptr && passed_on->quantity && passed_on->quantity->dimension == *dimension) {
                binding.quantity = passed_on->quantity;
            } else {
                context_.complain("wrong-sort", written->span(),
                                  fmt::format("`{}` of `{}` is a quantity ({})", name, part.label, type.text()));
            }
        } else if (written) {
            binding.quantity = given_quantity(*written, *dimension);
        } else if (by_default) {
            binding.quantity = default_quantity;
        } else {
            context_.complain("missing-given", part.span,
                              fmt::format("`{}` needs to be told its `{}`", part.label, name), nullptr,
                              {fmt::format("kind `{}` has no default for it", instance.kind->name)},
                              {fmt::format("write `{{ {} … }}` after the part", name)});
        }
        instance.scope.bindings.push_back(std::move(binding));
    }
    if (!instance.settings) {
        return;
    }
    for (const syntax::Node item : instance.settings->children()) {
        if (item.is(Syntax::setting_) && std::ranges::find(given_names, item.child(0).text()) == given_names.end()) {
            const auto meant = text::nearest(item.child(0).text(), given_names);
            context_.complain(
                "unknown-given", item.child(0).span(),
                fmt::format("kind `{}` has no `{}` to be set", instance.kind->name, item.child(0).text()), nullptr,
                given_names.empty() ? std::vector<std::string>{}
                                    : std::vector{fmt::format("it has `{}`", fmt::join(given_names, "`, `"))},
                meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        }
    }
}

void SystemBuilder::add_position_variable(Instance& instance) {
    const KindInfo& kind = *instance.kind;
    const Part part = system_[instance.part];
    if (instance.settings) {
        for (const syntax::Node item : instance.settings->children()) {
            if (item.is(Syntax::position_label_) && !kind.position(item.child(0).text())) {
                context_.complain("unknown-position", item.child(0).span(),
                                  fmt::format("kind `{}` has no position `{}`", kind.name, item.child(0).text()));
            }
        }
    }
    if (kind.positions.empty()) {
        return;
    }
    Variable variable{{part.name, part.label, part.doc, part.span}, VariableKind::position, instance.part};
    variable.exists = part.exists;
    for (const syntax::Node position : kind.positions) {
        const syntax::Node name = position.child(0);
        Text label = label_of(position);
        if (!position.has(Syntax::label_)) {
            std::replace(label.begin(), label.end(), '_', ' ');
        }
        const auto to_do_of = [](syntax::Node node) {
            const auto found = node.find(Syntax::to_do_);
            return found ? text_of(found->child(0)) : Text();
        };
        Text to_do = to_do_of(position);
        if (instance.settings) {
            for (const syntax::Node item : instance.settings->children()) {
                if (item.is(Syntax::position_label_) && item.child(0).text() == name.text()) {
                    label = text_of(item.child(1));
                    to_do = to_do_of(item); // what the kind says need not be so of what is written here
                }
            }
        }
        for (const Value& earlier : variable.values) {
            if (earlier.name == name.text()) {
                context_.complain("name-taken", name.span(),
                                  fmt::format("there is a position `{}` already", name.text()));
            }
        }
        variable.values.push_back({{std::string(name.text()), label, "", name.span()}, {}, {}, to_do});
    }
    if (variable.values.size() > max_values) {
        context_.complain("too-many-values", kind.positions[max_values].span(),
                          fmt::format("a part can have at most {} positions", max_values));
        variable.values.resize(max_values);
    }
    const auto position_index = [&](syntax::Node name) -> std::optional<std::uint32_t> {
        if (const auto index = kind.position(name.text())) {
            return index;
        }
        context_.complain("unknown-position", name.span(),
                          fmt::format("kind `{}` has no position `{}`", kind.name, name.text()));
        return std::nullopt;
    };
    if (kind.springs_back) {
        variable.springs_back = position_index(*kind.springs_back);
    }
    for (const syntax::Node way : kind.each_way) {
        if (const auto index = position_index(way)) {
            variable.each_way.push_back(*index);
        }
    }
    system_.parts[instance.part.value].variable = add_variable(std::move(variable));
}

void SystemBuilder::add_dials(Instance& instance) {
    const Part part = system_[instance.part];
    for (const syntax::Node dial : instance.kind->dials) {
        const std::string name = fmt::format("{}.{}", part.name, declared_name(dial));
        const Text label = composed(part.label, ": ", label_of(dial));
        std::vector<syntax::Node> range;
        for (const syntax::Node child : dial.children()) {
            if (child.is(Syntax::quantity_)) {
                range.push_back(child);
            }
        }
        if (range.size() != 2) {
            continue;
        }
        const auto least = context_.positive_quantity(range[0], Dimension::pressure, true);
        const auto most = context_.positive_quantity(range[1], Dimension::pressure, true);
        if (!least || !most) {
            continue;
        }
        if (!(least->value < most->value)) {
            context_.complain("empty-range", range[1].span(), "a dial goes from a smaller to a greater setting");
            continue;
        }
        Variable variable{{name, label, "", dial.span()}, VariableKind::dial, instance.part};
        variable.exists = part.exists;
        // An unknown setting is as bad as the greatest: value 0 stands for both. Value 1 is the least setting.
        variable.values.push_back({{"greatest", std::string(range[1].text()), "", range[1].span()}, *most});
        variable.values.push_back({{"least", std::string(range[0].text()), "", range[0].span()}, *least});
        const VariableId id = add_variable(std::move(variable));
        system_.parts[instance.part.value].dials.push_back(id);
        add_name({.sort = Sort::dial,
                  .part = instance.part,
                  .variable = id,
                  .name = name,
                  .label = label,
                  .span = dial.span()});
    }
}

std::optional<Quantity> SystemBuilder::volume_of(const Instance& instance, syntax::Node written, bool zero_allowed) {
    if (written.is(Syntax::quantity_)) {
        return context_.positive_quantity(written, Dimension::volume, zero_allowed);
    }
    const Scope::Binding* given = instance.scope.find(written.text());
    if (given == nullptr) {
        context_.complain("unknown-name", written.span(),
                          fmt::format("kind `{}` is not given `{}`", instance.kind->name, written.text()));
        return std::nullopt;
    }
    if (given->quantity && given->quantity->dimension != Dimension::volume) {
        context_.complain("wrong-dimension", written.span(), fmt::format("`{}` is no volume", written.text()));
        return std::nullopt;
    }
    return given->quantity;
}

void SystemBuilder::add_chambers(Instance& instance) {
    const Part part = system_[instance.part];
    for (const syntax::Node item : instance.kind->chambers) {
        const std::string name = fmt::format("{}.{}", part.name, declared_name(item));
        const Text label = item.has(Syntax::label_) ? composed(part.label, ": ", label_of(item)) : part.label;
        const ChamberId id(system_.chambers.size());
        Node node{{name, label, "", item.span()}, meaning::NodeKind::chamber, instance.part, id};
        node.height = part.height;
        const NodeId node_id = add_node(std::move(node));
        system_.parts[instance.part.value].nodes.push_back(node_id);
        Chamber chamber{{name, label, doc_of(item), item.span()}, node_id, instance.part};
        if (const auto holds = item.find(Syntax::holds_)) {
            chamber.volume = volume_of(instance, holds->child(0), false);
            if (const auto of = holds->find(Syntax::of_fluid_)) {
                if (const auto fluid = context_.fluid(of->child(0))) {
                    chamber.fluid = *fluid;
                }
            }
        }
        if (instance.settings) {
            if (const auto held = instance.settings->find(Syntax::setting_holds_)) {
                if (const auto fluid = context_.fluid(held->child(0))) {
                    chamber.fluid = *fluid;
                }
            }
        }
        if (instance.kind->cools) {
            chamber.cools_in = context_.positive_quantity(*instance.kind->cools, Dimension::time);
        }
        system_.chambers.push_back(std::move(chamber));
        add_name({.sort = Sort::chamber,
                  .part = instance.part,
                  .node = node_id,
                  .chamber = id,
                  .name = name,
                  .label = label,
                  .span = item.span()});
    }
}

} // namespace curbstop::meaning
