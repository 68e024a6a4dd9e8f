#include "meaning/context.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "text/nearest.h"

namespace curbstop::meaning {

const Scope::Binding* Scope::find(std::string_view name) const {
    for (auto binding = bindings.rbegin(); binding != bindings.rend(); ++binding) {
        if (binding->name == name) {
            return &*binding;
        }
    }
    return nullptr;
}

void Context::complain(std::string_view slug, text::Span where, std::string message, const Scope* scope,
                       std::vector<std::string> notes, std::vector<std::string> remedies,
                       std::vector<text::Label> labels) {
    if (scope != nullptr) {
        labels.insert(labels.end(), scope->trail.begin(), scope->trail.end());
    }
    for (const text::Diagnostic& earlier : sink.diagnostics()) {
        // A kind or fragment used many times is wrong once.
        if (earlier.slug == slug && earlier.span == where && earlier.message == message) {
            return;
        }
    }
    sink.add({.slug = slug,
              .span = where,
              .message = std::move(message),
              .labels = std::move(labels),
              .notes = std::move(notes),
              .remedies = std::move(remedies)});
}

std::string dotted(syntax::Node ref) {
    if (!ref.is(Syntax::ref_)) {
        return std::string(ref.text());
    }
    std::string text;
    for (const syntax::Node name : ref.children()) {
        if (!text.empty()) {
            text += '.';
        }
        text += name.text();
    }
    return text;
}

std::string as_written(syntax::Node node) {
    std::string written;
    bool space = false;
    bool comment = false;
    bool quoted = false;
    for (const char c : node.text()) {
        if (comment) {
            comment = c != '\n';
            continue;
        }
        if (!quoted && c == '#') {
            comment = true;
            space = true;
            continue;
        }
        if (c == '"') {
            quoted = !quoted;
        }
        if (!quoted && (c == ' ' || c == '\t' || c == '\n' || c == '\r')) {
            space = true;
            continue;
        }
        if (space && !written.empty()) {
            written += ' ';
        }
        space = false;
        written += c;
    }
    return written;
}

const Thing* Context::resolve(syntax::Node ref, const Scope& scope) {
    const std::string written = dotted(ref);
    const std::size_t dot = written.find('.');
    const std::string_view first = std::string_view(written).substr(0, dot);
    std::string full;
    if (const Scope::Binding* binding = scope.find(first)) {
        if (!binding->thing) {
            return nullptr; // an optional part that was not given: the caller has asked before
        }
        if (dot == std::string::npos) {
            made_.push_back(*binding->thing);
            return &made_.back();
        }
        full = binding->thing->name + written.substr(dot);
    } else {
        full = scope.prefix.empty() ? written : scope.prefix + "." + written;
    }
    if (const Thing* found = names.find(full)) {
        return found;
    }
    const BehindGiven behind = behind_given(full);
    if (behind.left_out) {
        complain("unknown-name", ref.span(), fmt::format("no part was given as `{}`", behind.name), &scope);
        return nullptr;
    }
    if (const Thing* found = names.find(behind.name)) {
        return found;
    }
    full = behind.name;
    if (broken.contains(full.substr(0, full.find('.')))) {
        return nullptr; // its kind was complained about
    }
    // Say which piece of the dotted name is at fault.
    std::string known = full.starts_with(scope.prefix + ".") ? scope.prefix : "";
    std::size_t begin = known.empty() ? 0 : known.size() + 1;
    while (true) {
        const std::size_t end = full.find('.', begin);
        const std::string here = full.substr(0, end);
        if (names.find(here) == nullptr || end == std::string::npos) {
            const std::string piece = full.substr(begin, end == std::string::npos ? end : end - begin);
            const auto meant = names.nearest(known, piece);
            std::vector<std::string> remedies;
            if (meant) {
                remedies.push_back(fmt::format("did you mean `{}`?", *meant));
            }
            std::vector<std::string> notes;
            std::string message;
            const Thing* owner = known.empty() ? nullptr : names.find(known);
            if (owner == nullptr) {
                message = fmt::format("there is no `{}` in this system", piece);
            } else {
                message = fmt::format("`{}` has no `{}`", owner->label, piece);
                const std::vector<std::string> has = names.below(known);
                if (!has.empty()) {
                    notes.push_back(fmt::format("it has `{}`", fmt::join(has, "`, `")));
                }
            }
            complain("unknown-name", ref.span(), std::move(message), &scope, std::move(notes), std::move(remedies));
            return nullptr;
        }
        known = here;
        begin = end + 1;
    }
}

Context::BehindGiven Context::behind_given(std::string name) const {
    // From the first piece on, whatever is a given of the part named so far becomes the part that was given.
    for (std::size_t end = name.find('.'); end != std::string::npos;) {
        end = name.find('.', end + 1);
        const auto given = given_parts.find(name.substr(0, end));
        if (given == given_parts.end()) {
            continue;
        }
        if (!given->second) {
            return {given->first, true};
        }
        const std::string rest = end == std::string::npos ? "" : name.substr(end);
        end = rest.empty() ? end : given->second->name.size();
        name = given->second->name + rest;
    }
    return {std::move(name), false};
}

bool Context::is_left_out(syntax::Node ref, const Scope& scope) const {
    if (!ref.is(Syntax::ref_)) {
        return false;
    }
    const Scope::Binding* binding = scope.find(ref.child(0).text());
    if (binding == nullptr || binding->quantity) {
        return false;
    }
    const std::string written = dotted(ref);
    const std::size_t dot = written.find('.');
    return !binding->thing ||
           (dot != std::string::npos && behind_given(binding->thing->name + written.substr(dot)).left_out);
}

void Context::wrong_sort(syntax::Node ref, const Thing& thing, std::string_view needed, const Scope& scope) {
    complain("wrong-sort", ref.span(),
             fmt::format("`{}` is {}, but here {} is needed", dotted(ref), sort_name(thing.sort), needed), &scope);
}

void Context::mention(VariableId variable) {
    if (system.mentioned.size() <= variable.value) {
        system.mentioned.resize(variable.value + 1);
    }
    system.mentioned[variable.value] = true;
}

std::optional<VariableId> Context::variable(syntax::Node ref, const Scope& scope) {
    const Thing* thing = resolve(ref, scope);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->variable.valid()) {
        mention(thing->variable);
        return thing->variable;
    }
    if (thing->sort == Sort::part) {
        std::vector<std::string> remedies;
        const Part& part = system[thing->part];
        for (const VariableId dial : part.dials) {
            remedies.push_back(fmt::format("its dial is `{}`", system[dial].name));
        }
        for (const std::string& inner : names.below(thing->name)) {
            const Thing* below = names.find(thing->name + "." + inner);
            if (below->sort == Sort::part && below->variable.valid()) {
                remedies.push_back(fmt::format("its part `{}` can be moved", below->name));
            }
        }
        complain("one-position", ref.span(), fmt::format("`{}` has only one way to stand", thing->label), &scope,
                 {fmt::format("its kind `{}` declares no positions", part.kind_name)}, std::move(remedies));
        return std::nullopt;
    }
    wrong_sort(ref, *thing, "something that can be moved", scope);
    return std::nullopt;
}

std::optional<NodeId> Context::node(syntax::Node ref, const Scope& scope) {
    const Thing* thing = resolve(ref, scope);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->node.valid()) {
        return thing->node;
    }
    if (thing->sort == Sort::part) {
        const Part& part = system[thing->part];
        std::vector<NodeId> ports;
        for (const NodeId candidate : part.nodes) {
            const meaning::NodeKind kind = system[candidate].kind;
            if (kind == meaning::NodeKind::port || kind == meaning::NodeKind::end) {
                ports.push_back(candidate);
            }
        }
        if (ports.size() == 1) {
            return ports.front();
        }
        std::vector<std::string> port_names;
        for (const NodeId port : ports) {
            port_names.push_back(system[port].name);
        }
        complain("which-port", ref.span(),
                 ports.empty() ? fmt::format("`{}` has no port of its own", thing->label)
                               : fmt::format("`{}` has several ports: say which one", thing->label),
                 &scope, {},
                 port_names.empty() ? std::vector<std::string>{}
                                    : std::vector{fmt::format("write one of `{}`", fmt::join(port_names, "`, `"))});
        return std::nullopt;
    }
    wrong_sort(ref, *thing, "a place in the pipework (a port, a tee, an end or a chamber)", scope);
    return std::nullopt;
}

std::optional<ChamberId> Context::chamber(syntax::Node ref, const Scope& scope) {
    const Thing* thing = resolve(ref, scope);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->chamber.valid()) {
        return thing->chamber;
    }
    if (thing->sort == Sort::part) {
        std::vector<ChamberId> found;
        for (std::size_t i = 0; i < system.chambers.size(); ++i) {
            PartId owner = system.chambers[i].part;
            while (owner.valid() && owner != thing->part) {
                owner = system[owner].parent;
            }
            if (owner.valid()) {
                found.emplace_back(i);
            }
        }
        if (found.size() == 1) {
            return found.front();
        }
        std::vector<std::string> chamber_names;
        for (const ChamberId id : found) {
            chamber_names.push_back(system[id].name);
        }
        complain("which-chamber", ref.span(),
                 found.empty() ? fmt::format("`{}` has no chamber that could hold anything", thing->label)
                               : fmt::format("`{}` has several chambers: say which one", thing->label),
                 &scope, {},
                 found.empty() ? std::vector<std::string>{}
                               : std::vector{fmt::format("write one of `{}`", fmt::join(chamber_names, "`, `"))});
        return std::nullopt;
    }
    wrong_sort(ref, *thing, "a chamber or a vessel", scope);
    return std::nullopt;
}

std::optional<FluidId> Context::fluid(syntax::Node name, const Scope* scope) {
    if (const Scope::Binding* bound = scope == nullptr ? nullptr : scope->find(name.text());
        bound != nullptr && bound->thing) {
        if (bound->thing->sort == Sort::fluid) {
            return bound->thing->fluid;
        }
        wrong_sort(name, *bound->thing, "a fluid", *scope);
        return std::nullopt;
    }
    const auto found = fluids.find(name.text());
    if (found != fluids.end()) {
        return found->second;
    }
    const auto meant = declarations.fluids.nearest(name.text());
    complain("unknown-name", name.span(), fmt::format("there is no fluid `{}`", name.text()), scope, {},
             meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
    return std::nullopt;
}

std::optional<OptionId> Context::option(syntax::Node name) {
    Scope top;
    const Thing* thing = resolve(name, top);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->sort != Sort::option) {
        wrong_sort(name, *thing, "an option", top);
        return std::nullopt;
    }
    return thing->option;
}

std::optional<ZoneId> Context::zone(syntax::Node name) {
    Scope top;
    const Thing* thing = resolve(name, top);
    if (thing == nullptr) {
        return std::nullopt;
    }
    if (thing->sort != Sort::zone) {
        wrong_sort(name, *thing, "a zone", top);
        return std::nullopt;
    }
    return thing->zone;
}

} // namespace curbstop::meaning
