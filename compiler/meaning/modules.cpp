#include "meaning/modules.h"

#include <fmt/format.h>

#include "syntax/parse.h"
#include "text/nearest.h"

namespace curbstop::meaning {

std::optional<syntax::Node> Table::add(std::string_view name, syntax::Node node) {
    const auto [place, is_new] = by_name_.emplace(name, in_order_.size());
    if (!is_new) {
        return in_order_[place->second];
    }
    names_.push_back(name);
    in_order_.push_back(node);
    return std::nullopt;
}

std::optional<syntax::Node> Table::find(std::string_view name) const {
    const auto found = by_name_.find(name);
    if (found == by_name_.end()) {
        return std::nullopt;
    }
    return in_order_[found->second];
}

std::optional<std::string_view> Table::nearest(std::string_view written) const {
    return text::nearest(written, names_);
}

std::string_view declared_name(syntax::Node declaration) {
    const auto name = declaration.find(Syntax::name_);
    return name ? name->text() : std::string_view{};
}

std::string doc_of(syntax::Node declaration) {
    std::string doc;
    for (const syntax::Node child : declaration.children()) {
        if (!child.is(Syntax::doc_)) {
            break;
        }
        std::string_view line = child.text();
        line.remove_prefix(std::min<std::size_t>(2, line.size()));
        while (!line.empty() && (line.front() == ' ' || line.front() == '\t')) {
            line.remove_prefix(1);
        }
        while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) {
            line.remove_suffix(1);
        }
        if (!doc.empty()) {
            doc += '\n';
        }
        doc += line;
    }
    return doc;
}

Language language_of(const syntax::Tree& tree) {
    if (tree.language == 0) {
        return Language::english;
    }
    return language_from_code(syntax::Node(tree, tree.language).child(0).text()).value_or(Language::english);
}

Text text_of(syntax::Node string) {
    Text text(string.unquoted(), language_of(string.tree()));
    for (const syntax::Node translation : string.children()) {
        if (const auto language = language_from_code(translation.child(0).text())) {
            text.others.push_back({*language, translation.child(1).unquoted()});
        }
    }
    return text;
}

Text text_of_name(syntax::Node name) {
    return {std::string(name.text()), language_of(name.tree())};
}

Text label_of(syntax::Node declaration) {
    if (const auto label = declaration.find(Syntax::label_)) {
        return text_of(label->child(0));
    }
    return {std::string(declared_name(declaration)), language_of(declaration.tree())};
}

namespace {

class Reader {
  public:
    Reader(text::SourceSet& sources, const ModuleFinder& find_module, text::DiagnosticSink& sink)
        : sources_(sources)
        , find_module_(find_module)
        , sink_(sink) {}

    void read(text::SourceId source) {
        open_.push_back(source);
        seen_.push_back(source);
        declarations_.trees.push_back(syntax::parse(sources_, source, sink_));
        const syntax::Tree& tree = declarations_.trees.back();
        if (!tree.nodes.empty()) {
            for (const syntax::Node declaration : tree.root().children()) {
                declare(declaration);
            }
        }
        open_.pop_back();
    }

    Declarations take() { return std::move(declarations_); }

  private:
    void declare(syntax::Node declaration) {
        switch (declaration.kind()) {
        case Syntax::language_:
            language(declaration);
            return;
        case Syntax::use_:
            use(declaration);
            return;
        case Syntax::fluid_:
            add(declarations_.fluids, "fluid", declaration);
            return;
        case Syntax::pipe_:
            add(declarations_.pipes, "pipe", declaration);
            return;
        case Syntax::group_:
            add(declarations_.groups, "group", declaration);
            return;
        case Syntax::kind_:
            add(declarations_.kinds, "kind", declaration);
            return;
        case Syntax::system_:
            add(declarations_.systems, "system", declaration);
            return;
        case Syntax::lineup_:
            add(declarations_.lineups, "line-up", declaration);
            return;
        case Syntax::procedure_:
            add(declarations_.procedures, "procedure", declaration);
            return;
        case Syntax::fragment_:
            add(declarations_.fragments, "fragment", declaration);
            return;
        case Syntax::season_:
            declarations_.seasons.push_back(declaration);
            return;
        default:
            return; // doc comments that belong to nothing
        }
    }

    void add(Table& table, std::string_view sort, syntax::Node declaration) {
        const auto name = declaration.find(Syntax::name_);
        if (!name) {
            return; // the parser has said so
        }
        if (const auto earlier = table.add(name->text(), declaration)) {
            const auto earlier_name = earlier->find(Syntax::name_);
            sink_.add({.slug = "name-taken",
                       .span = name->span(),
                       .message = fmt::format("there is a {} `{}` already", sort, name->text()),
                       .labels = {{earlier_name->span(), "declared here"}}});
        }
    }

    void language(syntax::Node declaration) {
        const syntax::Node first(declaration.tree(), declaration.tree().language);
        if (first != declaration) {
            sink_.add({.slug = "language-twice",
                       .span = declaration.span(),
                       .message = "the language of this file is said twice",
                       .labels = {{first.span(), "here first"}}});
        }
    }

    void use(syntax::Node use) {
        const syntax::Node name = use.child(0);
        const FoundModule found = find_module_(name.text(), use.tree().source, name.span());
        if (!found.source) {
            if (!found.reported) {
                sink_.add({.slug = "missing-module",
                           .span = name.span(),
                           .message = fmt::format("there is no module `{}`", name.text()),
                           .notes = {fmt::format("looked for `{}.curb` beside this file and in the standard library",
                                                 name.text())}});
            }
            return;
        }
        if (std::ranges::find(open_, *found.source) != open_.end()) {
            sink_.add({.slug = "module-circle",
                       .span = name.span(),
                       .message = open_.back() == *found.source
                                      ? fmt::format("module `{}` uses itself", name.text())
                                      : fmt::format("modules use each other in a circle: `{}` is still being read",
                                                    name.text()),
                       .remedies = {"move what both need into a module of its own"}});
            return;
        }
        if (std::ranges::find(seen_, *found.source) != seen_.end()) {
            return;
        }
        if (seen_.size() >= max_modules) {
            sink_.add({.slug = "too-many-modules",
                       .span = name.span(),
                       .message = fmt::format("more than {} modules are used", max_modules)});
            return;
        }
        read(*found.source);
    }

    text::SourceSet& sources_;
    const ModuleFinder& find_module_;
    text::DiagnosticSink& sink_;
    Declarations declarations_;
    std::vector<text::SourceId> open_; // modules being read, outermost first
    std::vector<text::SourceId> seen_;
};

} // namespace

Declarations read_declarations(text::SourceSet& sources, text::SourceId root, const ModuleFinder& find_module,
                               text::DiagnosticSink& sink) {
    Reader reader(sources, find_module, sink);
    reader.read(root);
    return reader.take();
}

} // namespace curbstop::meaning
