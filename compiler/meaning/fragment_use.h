// How loops and fragments are written out: the templates that procedure_builder.cpp and statement_builder.cpp share.
// Must not know: what stands inside them.
#pragma once

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "meaning/procedure_builder.h"

namespace curbstop::meaning {

/// What a fragment says about itself, before its body.
inline bool is_fragment_head(syntax::Node child) {
    switch (child.kind()) {
    case Syntax::doc_:
    case Syntax::name_:
    case Syntax::names_:
    case Syntax::fragment_steps_:
        return true;
    default:
        return false;
    }
}

template <typename Body>
void ProcedureBuilder::each_turn(syntax::Node loop, Scope& scope, const Body& body) {
    for (auto& [part, ways] : loop_bindings(loop, scope)) {
        if (!may_write_out(loop)) {
            return;
        }
        Scope inner = scope;
        inner.bindings.push_back(part);
        if (!loop.has(Syntax::each_way_)) {
            body(inner);
            continue;
        }
        for (const Scope::Binding& way : ways) {
            inner.bindings.push_back(way);
            body(inner);
            inner.bindings.pop_back();
        }
    }
}

template <typename Body>
void ProcedureBuilder::inside_fragment(syntax::Node use, Scope& scope, bool steps_wanted, const Body& body) {
    if (!may_write_out(use)) {
        return;
    }
    const syntax::Node name = use.child(0);
    const auto fragment = context_.declarations.fragments.find(name.text());
    if (!fragment) {
        const auto meant = context_.declarations.fragments.nearest(name.text());
        context_.complain("unknown-name", name.span(), fmt::format("there is no fragment `{}`", name.text()), &scope,
                          {},
                          meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        return;
    }
    if (fragment->has(Syntax::fragment_steps_) != steps_wanted) {
        context_.complain("misplaced", name.span(),
                          steps_wanted ? fmt::format("`{}` is a piece of a step: use it inside a step", name.text())
                                       : fmt::format("`{}` is a run of steps: use it between steps", name.text()),
                          &scope, {}, {}, {{fragment->find(Syntax::name_)->span(), "declared here"}});
        return;
    }
    const bool circle = std::ranges::find(fragments_, name.text()) != fragments_.end();
    if (circle || fragments_.size() >= max_fragment_depth) {
        context_.complain("fragment-circle", name.span(),
                          circle ? fmt::format("fragment `{}` uses itself: {} > {}", name.text(),
                                               fmt::join(fragments_, " > "), name.text())
                                 : fmt::format("fragments are used more than {} deep", max_fragment_depth),
                          &scope);
        return;
    }
    std::vector<syntax::Node> parameters;
    if (const auto names = fragment->find(Syntax::names_)) {
        for (const syntax::Node parameter : names->children()) {
            parameters.push_back(parameter);
        }
    }
    const std::size_t arguments = use.child_count() - 1 - (use.has(Syntax::called_) ? 1 : 0);
    if (parameters.size() != arguments) {
        context_.complain("wrong-count", use.span(),
                          fmt::format("`{}` takes {} argument{}, here {}", name.text(), parameters.size(),
                                      parameters.size() == 1 ? "" : "s", arguments),
                          &scope, {}, {}, {{fragment->find(Syntax::name_)->span(), "declared here"}});
        return;
    }
    Scope inner;
    inner.trail = scope.trail;
    inner.trail.push_back({use.span(), fmt::format("written out for `do {}` here", name.text())});
    for (std::size_t i = 0; i < parameters.size(); ++i) {
        const syntax::Node argument = use.child(i + 1);
        Scope::Binding binding{parameters[i].text(), std::nullopt, std::nullopt};
        if (argument.is(Syntax::string_)) {
            binding.thing = Thing{
                .sort = Sort::text, .name = argument.unquoted(), .label = text_of(argument), .span = argument.span()};
        } else if (const auto fluid = context_.fluids.find(argument.text());
                   argument.is(Syntax::ref_) && fluid != context_.fluids.end() &&
                   scope.find(argument.text()) == nullptr && context_.names.find(argument.text()) == nullptr) {
            const Fluid& found = system_[fluid->second];
            binding.thing = Thing{.sort = Sort::fluid,
                                  .fluid = fluid->second,
                                  .name = found.name,
                                  .label = found.label,
                                  .span = found.span};
        } else if (argument.is(Syntax::ref_)) {
            if (const Thing* thing = context_.resolve(argument, scope)) {
                binding.thing = *thing;
            } else {
                return;
            }
        } else {
            context_.complain("wrong-sort", argument.span(), "a fragment is given names and texts, not quantities",
                              &scope);
            return;
        }
        inner.bindings.push_back(std::move(binding));
    }
    fragments_.push_back(name.text());
    body(*fragment, inner);
    fragments_.pop_back();
}

} // namespace curbstop::meaning
