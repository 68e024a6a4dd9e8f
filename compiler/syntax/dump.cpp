#include "syntax/dump.h"

namespace curbstop::syntax {

namespace {

bool is_leaf(Node node) {
    const NodeKind kind = node.kind();
    if (kind == NodeKind::string_) {
        return node.child_count() == 0;
    }
    return kind == NodeKind::name_ || kind == NodeKind::number_ || kind == NodeKind::unit_ || kind == NodeKind::doc_ ||
           kind == NodeKind::word_;
}

void write(std::string& out, Node node, int level, int levels) {
    if (is_leaf(node)) {
        // Names are what most leaves are; their text says enough.
        if (node.kind() == NodeKind::doc_ || node.kind() == NodeKind::word_) {
            out += node_kind_name(node.kind());
            out += ':';
        }
        out += node.text();
        return;
    }
    out += '(';
    out += node_kind_name(node.kind());
    if (node.is(NodeKind::string_)) {
        out += " \"" + node.unquoted() + "\"";
    }
    for (const Node child : node.children()) {
        if (level < levels) {
            out += '\n';
            out.append(static_cast<std::size_t>(level + 1) * 2, ' ');
        } else {
            out += ' ';
        }
        write(out, child, level + 1, levels);
    }
    out += ')';
}

} // namespace

std::string dump(Node node) {
    return dump(node, 0);
}

std::string dump(Node node, int levels) {
    std::string out;
    write(out, node, 0, levels);
    return out;
}

} // namespace curbstop::syntax
