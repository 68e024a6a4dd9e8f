// The syntax of one file, as a flat tree: what was written and where, nothing of what it means.
// Nodes stand in the order of the text, each before its children, so a walk is a walk over an array.
// Must not know: names, kinds, units, the standard library.
#pragma once

#include <cstdint>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "text/source.h"

namespace curbstop::syntax {

enum class NodeKind : std::uint8_t {
#define NODE(name, children) name##_,
#include "syntax/node_kinds.def"
#undef NODE
};

/// The name of a kind as node_kinds.def writes it.
std::string_view node_kind_name(NodeKind kind);

/// One token: its place in the text. What sort of token it is only the parser needs to know.
struct Token {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
};

struct NodeData {
    NodeKind kind;
    std::uint32_t first_token; ///< index of its first token
    std::uint32_t token_end;   ///< one past its last token
    std::uint32_t subtree_end; ///< index one past its last descendant
};

class Node;

struct Tree {
    text::SourceId source;
    const text::Source* text = nullptr; ///< owned by the SourceSet that outlives the tree
    std::vector<Token> tokens;
    std::vector<NodeData> nodes; ///< nodes[0] is the file; empty only where nothing could be read
    std::uint32_t language = 0;  ///< the first `language` declaration; 0 where there is none

    Node root() const;
};

/// A cursor into a tree, cheap to copy. Valid as long as its tree.
class Node {
  public:
    Node(const Tree& tree, std::uint32_t index)
        : tree_(&tree)
        , index_(index) {}

    NodeKind kind() const { return data().kind; }
    bool is(NodeKind kind) const { return data().kind == kind; }
    const Tree& tree() const { return *tree_; }
    std::uint32_t index() const { return index_; }

    /// The place of the whole node in its source.
    text::Span span() const;
    /// The text as written, quotes included.
    std::string_view text() const;
    /// Of a string: its own value, without translations, with escapes undone. Of anything else: its text.
    std::string unquoted() const;

    class Children;
    Children children() const;
    /// The first child of that kind.
    std::optional<Node> find(NodeKind kind) const;
    bool has(NodeKind kind) const { return find(kind).has_value(); }
    /// The nth child; the grammar guarantees that it is there.
    Node child(std::size_t n) const;
    std::size_t child_count() const;

    friend bool operator==(const Node& a, const Node& b) { return a.tree_ == b.tree_ && a.index_ == b.index_; }

  private:
    const NodeData& data() const { return tree_->nodes[index_]; }
    const Tree* tree_;
    std::uint32_t index_;
};

class Node::Children {
  public:
    class iterator {
      public:
        using value_type = Node;
        using difference_type = std::ptrdiff_t;
        using iterator_category = std::input_iterator_tag;
        iterator(const Tree* tree, std::uint32_t index)
            : tree_(tree)
            , index_(index) {}
        Node operator*() const { return Node(*tree_, index_); }
        iterator& operator++() {
            index_ = tree_->nodes[index_].subtree_end;
            return *this;
        }
        bool operator==(const iterator& other) const { return index_ == other.index_; }

      private:
        const Tree* tree_;
        std::uint32_t index_;
    };
    Children(const Tree& tree, std::uint32_t first, std::uint32_t last)
        : tree_(&tree)
        , first_(first)
        , last_(last) {}
    iterator begin() const { return {tree_, first_}; }
    iterator end() const { return {tree_, last_}; }

  private:
    const Tree* tree_;
    std::uint32_t first_;
    std::uint32_t last_;
};

inline Node::Children Node::children() const {
    return {*tree_, index_ + 1, data().subtree_end};
}

} // namespace curbstop::syntax
