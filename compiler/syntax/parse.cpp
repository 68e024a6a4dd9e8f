#include "syntax/parse.h"

#include "syntax/grammar/procedures.hpp"
#include "syntax/lexer.h"
#include "syntax/parser.h"

#include <tao/pegtl.hpp>

#include <utility>

namespace curbstop::syntax {

bool starts_item(Place place, TokenKind kind) {
    switch (place) {
    case Place::file:
        return grammar::declaration::starts(kind);
    case Place::fluid:
        return grammar::fluid_item::starts(kind);
    case Place::pipe:
        return grammar::pipe_item::starts(kind);
    case Place::kind:
        return grammar::kind_item::starts(kind);
    case Place::chamber:
        return grammar::chamber_item::starts(kind);
    case Place::ways:
        return grammar::way::starts(kind);
    case Place::settings:
        return grammar::settings_item::starts(kind);
    case Place::system:
        return grammar::system_item::starts(kind);
    case Place::lineup:
        return grammar::lineup_entry::starts(kind);
    case Place::procedure:
        return grammar::procedure_item::starts(kind);
    case Place::stage:
        return grammar::stage_item::starts(kind);
    case Place::step:
        return grammar::statement::starts(kind);
    case Place::season:
        return grammar::ensures::starts(kind);
    }
    return false;
}

Tree parse(const text::SourceSet& sources, text::SourceId source, text::DiagnosticSink& sink) {
    Report report(source, sink);
    const text::Source& text = sources[source];
    Lexed lexed = lex(text, report);

    Tree tree;
    tree.source = source;
    tree.text = &text;
    tree.nodes.reserve(lexed.tokens.size() * 2);
    if (lexed.too_deep) {
        tree.nodes.push_back({NodeKind::file_, 0, static_cast<std::uint32_t>(lexed.tokens.size() - 1), 1});
    } else {
        Parser parser(text, lexed, tree.nodes, report);
        tao::pegtl::memory_input<tao::pegtl::tracking_mode::lazy, tao::pegtl::eol::lf, const char*> in(
            lexed.kinds.data(), lexed.kinds.data() + lexed.kinds.size(), "");
        parser.open(Place::file, 0);
        tao::pegtl::parse<grammar::file>(in, parser);
    }
    tree.tokens = std::move(lexed.tokens);
    if (const auto language = tree.nodes.empty() ? std::nullopt : tree.root().find(NodeKind::language_)) {
        tree.language = language->index(); // asked for with every text
    }
    return tree;
}

} // namespace curbstop::syntax
