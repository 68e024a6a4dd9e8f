#include "syntax/tree.h"

#include <array>

namespace curbstop::syntax {

std::string_view node_kind_name(NodeKind kind) {
    static constexpr auto names = std::to_array<std::string_view>({
#define NODE(name, children) #name,
#include "syntax/node_kinds.def"
#undef NODE
    });
    return names[static_cast<std::size_t>(kind)];
}

Node Tree::root() const {
    return {*this, 0};
}

text::Span Node::span() const {
    const NodeData& node = data();
    const std::vector<Token>& tokens = tree_->tokens;
    const std::uint32_t begin = tokens[node.first_token].begin;
    // A node without tokens (an empty file) stands before the token that it would have held.
    const std::uint32_t end = node.token_end > node.first_token ? tokens[node.token_end - 1].end : begin;
    return {tree_->source, begin, end};
}

std::string_view Node::text() const {
    const text::Span place = span();
    return std::string_view(tree_->text->text).substr(place.begin, place.end - place.begin);
}

std::string Node::unquoted() const {
    if (!is(NodeKind::string_)) {
        return std::string(text());
    }
    const Token& own = tree_->tokens[data().first_token];
    std::string_view written = std::string_view(tree_->text->text).substr(own.begin, own.end - own.begin);
    if (written.size() < 2) {
        return std::string(written);
    }
    written = written.substr(1, written.size() - 2);
    std::string value;
    value.reserve(written.size());
    for (std::size_t i = 0; i < written.size(); ++i) {
        if (written[i] == '\\' && i + 1 < written.size()) {
            ++i;
            value += written[i] == 'n' ? '\n' : written[i];
        } else {
            value += written[i];
        }
    }
    return value;
}

std::optional<Node> Node::find(NodeKind kind) const {
    for (const Node child : children()) {
        if (child.is(kind)) {
            return child;
        }
    }
    return std::nullopt;
}

Node Node::child(std::size_t n) const {
    auto at = children().begin();
    while (n-- > 0) {
        ++at;
    }
    return *at;
}

std::size_t Node::child_count() const {
    std::size_t count = 0;
    for ([[maybe_unused]] const Node child : children()) {
        ++count;
    }
    return count;
}

} // namespace curbstop::syntax
