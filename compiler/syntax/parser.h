// What the grammar's rules write to while they match: the nodes, and the messages.
// Must not know: the grammar.
#pragma once

#include "syntax/lexer.h"
#include "syntax/places.h"
#include "syntax/report.h"
#include "syntax/tree.h"
#include "text/diagnostic.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::syntax {

/// What sort of thing was expected; some slips are known by it.
enum class Sort : std::uint8_t { name, text, quantity, mark, block, claim, other };

/// What a rule needed and did not find.
struct Expected {
    std::string_view what; ///< "the name of the part"
    Sort sort = Sort::other;
    std::string_view example = {}; ///< a short piece of the language, where one helps
};

/// Thrown by a rule that cannot go on; caught by the block around it.
struct SyntaxError {
    std::uint32_t token; ///< where it was noticed
    text::Diagnostic diagnostic;
};

/// A block that is being read.
struct Frame {
    Place place;
    std::uint32_t open; ///< its `{`
};

class Parser {
  public:
    Parser(const text::Source& source, const Lexed& lexed, std::vector<NodeData>& nodes, Report& report);

    std::vector<NodeData>& nodes;

    [[nodiscard]] TokenKind kind(std::uint32_t token) const { return static_cast<TokenKind>(lexed_->kinds[token]); }

    void open(Place place, std::uint32_t brace) { frames_.push_back({place, brace}); }
    void close() { frames_.pop_back(); }

    /// A rule found something else than what it needs at `token`.
    [[noreturn]] void fail(std::uint32_t token, const Expected& expected) const;
    /// No item of the block starts with what stands at `token`.
    [[noreturn]] void fail_item(std::uint32_t token) const;

    /// Whether what stands at `token` shows that the innermost block has lost its `}`. Then it is reported, and the
    /// block counts as closed.
    [[nodiscard]] bool closes_unseen(std::uint32_t token);
    /// The text ends in the innermost block. Said once, however many blocks are open.
    void report_unclosed_at_end(std::uint32_t token);
    /// A `}` that closes nothing, at `token`.
    void report_stray_brace(std::uint32_t token);
    /// Doc comments that no declaration follows.
    void report_stray_doc(std::uint32_t first, std::uint32_t end);

    /// Drops what the failed item at `start` has left in the tree from `node` on, and tells where to go on.
    [[nodiscard]] std::uint32_t recover(SyntaxError& error, std::uint32_t start, std::uint32_t node);

  private:
    [[nodiscard]] text::Span span(std::uint32_t token) const;
    [[nodiscard]] std::string_view written(std::uint32_t token) const;
    [[nodiscard]] bool first_on_line(std::uint32_t token) const;
    /// How far the line of a token is indented, in bytes.
    [[nodiscard]] std::size_t indentation(std::uint32_t token) const;
    /// A word of the file's top level with a name or text after it.
    [[nodiscard]] bool looks_like_declaration(std::uint32_t token) const;
    /// Whether a word starts an item of a block around the innermost one, and none of the innermost.
    [[nodiscard]] bool belongs_around(std::uint32_t token) const;
    /// The `{` that most likely lost its `}`, seen from `token`.
    [[nodiscard]] std::uint32_t suspect_brace(std::uint32_t token) const;
    [[nodiscard]] std::uint32_t next_item(std::uint32_t start, std::uint32_t error) const;
    [[nodiscard]] std::string found(std::uint32_t token) const;
    [[nodiscard]] text::Diagnostic diagnostic(std::string_view slug, std::uint32_t token, std::string message) const;
    /// Adds where the missing thing should have come, if that is on a line before.
    void point_back(text::Diagnostic& diagnostic, std::uint32_t token) const;
    /// Slips that are known by the tokens around, whatever was expected.
    [[nodiscard]] bool explain_neighbours(text::Diagnostic& diagnostic, std::uint32_t token) const;
    /// Something after a number that is no unit. `surely`: nothing but a unit can be meant by a name there.
    [[nodiscard]] bool explain_unit(text::Diagnostic& diagnostic, std::uint32_t token, bool surely) const;
    /// A word at the start of a line that was read as the missing name at the end of the line before.
    [[nodiscard]] bool explain_swallowed(text::Diagnostic& diagnostic, std::uint32_t token) const;
    void explain_item(text::Diagnostic& diagnostic, std::uint32_t token) const;
    [[nodiscard]] Place place() const { return frames_.back().place; }

    const text::Source* source_;
    const Lexed* lexed_;
    Report* report_;
    std::vector<Frame> frames_;
    int lost_braces_ = 0; ///< how many more `{` than `}` are still to be accounted for
    bool unclosed_reported_ = false;
};

} // namespace curbstop::syntax
