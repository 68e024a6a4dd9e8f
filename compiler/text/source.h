// Source texts and places in them: the one way in which the rest of the compiler says "here".
// Must not know: the language, files, terminals.
#pragma once

#include <compare>
#include <cstdint>
#include <deque>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::text {

/// Index of a source in its SourceSet. The default is "no source": a message that belongs to no file.
struct SourceId {
    std::uint32_t index = std::numeric_limits<std::uint32_t>::max();

    [[nodiscard]] bool valid() const { return index != std::numeric_limits<std::uint32_t>::max(); }
    auto operator<=>(const SourceId&) const = default;
};

/// A half-open range of bytes in a source. `begin == end` is a place between two bytes, the end of the text included.
struct Span {
    SourceId source;
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    auto operator<=>(const Span&) const = default;
};

/// The smallest span that holds both. Both must be of the same source.
[[nodiscard]] Span join(Span first, Span second);

/// Line and column as people count them: from 1. A column is a Unicode code point (a tab is one column).
struct Position {
    std::uint32_t line = 1;
    std::uint32_t column = 1;

    auto operator<=>(const Position&) const = default;
};

/// A text with the path by which messages name it. Lines end with "\n" or "\r\n"; what follows the last line end is a
/// line too, even when it is empty.
struct Source {
    std::string path;
    std::string text;
    std::vector<std::uint32_t> line_starts; ///< byte offset of each line; never empty, the first is 0

    /// Number of lines, at least 1.
    [[nodiscard]] std::uint32_t line_count() const { return static_cast<std::uint32_t>(line_starts.size()); }
    /// The 1-based line that holds `offset`; an offset beyond the end counts as the end.
    [[nodiscard]] std::uint32_t line_at(std::uint32_t offset) const;
    /// The text of a 1-based line without its line end; empty when there is no such line.
    [[nodiscard]] std::string_view line(std::uint32_t number) const;
    /// Byte offset at which a 1-based line starts; the length of the text when there is no such line.
    [[nodiscard]] std::uint32_t line_start(std::uint32_t number) const;
    /// Line and column of a byte offset; an offset beyond the end counts as the end.
    [[nodiscard]] Position position(std::uint32_t offset) const;
    /// Byte offset of a position; what lies beyond the end of its line or text counts as that end.
    [[nodiscard]] std::uint32_t offset(Position position) const;
};

/// Builds the line index. `text` is at most 4 GiB (max_source_bytes is far below).
[[nodiscard]] Source make_source(std::string path, std::string text);

/// Owns sources. References, and views of their text, stay valid as long as the set lives.
class SourceSet {
  public:
    SourceId add(std::string path, std::string text);
    /// `id` must have come from this set's `add`.
    [[nodiscard]] const Source& operator[](SourceId id) const { return sources_[id.index]; }
    [[nodiscard]] std::uint32_t size() const { return static_cast<std::uint32_t>(sources_.size()); }
    [[nodiscard]] std::optional<SourceId> find(std::string_view path) const;
    /// The bytes of a span; empty for a span without a source.
    [[nodiscard]] std::string_view text(Span span) const;
    /// Where a span begins. The span must have a source.
    [[nodiscard]] Position position(Span span) const { return (*this)[span.source].position(span.begin); }

  private:
    std::deque<Source> sources_; // a deque never moves what it holds
};

} // namespace curbstop::text
