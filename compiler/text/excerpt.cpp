#include "text/excerpt.h"

#include "text/utf8.h"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <vector>

namespace curbstop::text {
namespace {

constexpr std::size_t tab_width = 4;
constexpr std::size_t least_gutter = 5;
constexpr std::size_t least_width = 20;
constexpr std::string_view cut_mark = "…";

/// One character of a line as it is shown.
struct Cell {
    std::size_t offset; // in the line, bytes
    std::size_t width;  // columns
    std::string shown;
};

/// Part of a line around a place, with room for what may be cut away again: a line may be as long as a whole source.
struct Window {
    std::size_t begin;
    std::size_t end;
};

Window window_around(std::string_view line, std::size_t from, std::size_t width) {
    constexpr std::size_t longest_code_point = 4;
    const std::size_t reach = longest_code_point * width;
    Window window{from > reach ? from - reach : 0, std::min(line.size(), from + reach)};
    const auto inside_code_point = [line](std::size_t at) {
        return at > 0 && at < line.size() && (static_cast<unsigned char>(line[at]) & 0xC0U) == 0x80U;
    };
    while (inside_code_point(window.begin)) {
        --window.begin;
    }
    while (inside_code_point(window.end)) {
        ++window.end;
    }
    return window;
}

std::vector<Cell> lay_out(std::string_view line, Window window) {
    std::vector<Cell> cells;
    std::size_t column = 0;
    for (std::size_t at = window.begin; at < window.end;) {
        const CodePoint point = decode_utf8(line, at);
        const std::string_view bytes = line.substr(at, point.length);
        Cell cell{at, 0, {}};
        if (point.value == U'\t') {
            cell.width = tab_width - column % tab_width;
            cell.shown.assign(cell.width, ' ');
        } else {
            cell.shown = printable(bytes);
            cell.width = display_width(cell.shown);
        }
        column += cell.width;
        at += point.length;
        cells.push_back(std::move(cell));
    }
    return cells;
}

/// The cells that fit: from the start of the line if the marked text can then still be seen, else from a third of the
/// width before it.
std::pair<std::size_t, std::size_t> choose(const std::vector<Cell>& cells, Window window, std::size_t line_size,
                                           std::size_t from, std::size_t to, std::size_t width) {
    const auto columns = [&cells](std::size_t first, std::size_t last) {
        std::size_t sum = 0;
        for (std::size_t i = first; i < last; ++i) {
            sum += cells[i].width;
        }
        return sum;
    };
    const auto index_of = [&cells](std::size_t offset) {
        return static_cast<std::size_t>(
            std::partition_point(cells.begin(), cells.end(), [offset](const Cell& c) { return c.offset < offset; }) -
            cells.begin());
    };
    const bool whole = window.begin == 0 && window.end == line_size;
    if (whole && columns(0, cells.size()) <= width) {
        return {0, cells.size()};
    }
    const std::size_t marked = index_of(from);
    std::size_t first = 0;
    if (window.begin > 0 || columns(0, index_of(to)) + 1 > width) {
        first = marked;
        for (std::size_t before = 0; first > 0 && before + cells[first - 1].width <= width / 3; --first) {
            before += cells[first - 1].width;
        }
    }
    std::size_t last = first;
    for (std::size_t used = 2; last < cells.size() && used + cells[last].width <= width; ++last) {
        used += cells[last].width;
    }
    return {first, last};
}

/// One line and its underline. `from` and `to` are bytes in the line.
void append_line(std::string& out, const Source& source, std::uint32_t number, std::size_t from, std::size_t to,
                 std::size_t width, std::size_t gutter, char head, Paint paint) {
    const std::string_view line = source.line(number);
    from = std::min(from, line.size());
    to = std::clamp(to, from, line.size());
    const Window window = window_around(line, from, width);
    const std::vector<Cell> cells = lay_out(line, window);
    const auto [first, last] = choose(cells, window, line.size(), from, to, width);

    std::string shown;
    std::size_t before = 0;
    std::size_t under = 0;
    if (first > 0 || window.begin > 0) {
        shown += cut_mark;
        before += 1;
    }
    for (std::size_t i = first; i < last; ++i) {
        shown += cells[i].shown;
        if (cells[i].offset < from) {
            before += cells[i].width;
        } else if (cells[i].offset < to) {
            under += cells[i].width;
        }
    }
    if (last < cells.size() || window.end < line.size()) {
        shown += cut_mark;
    }
    while (shown.ends_with(' ')) {
        shown.pop_back();
    }
    std::string underline(1, head);
    underline.append(under > 1 ? under - 1 : 0, '~');
    fmt::format_to(std::back_inserter(out), "{:>{}} |{}{}\n", number, gutter, shown.empty() ? "" : " ", shown);
    fmt::format_to(std::back_inserter(out), "{:>{}} | {:>{}}{}{}{}\n", "", gutter, "", before, paint.begin, underline,
                   paint.end);
}

} // namespace

std::string excerpt(const Source& source, Span span, std::size_t width, Paint paint) {
    width = std::max(width, least_width);
    const auto size = static_cast<std::uint32_t>(source.text.size());
    const std::uint32_t begin = std::min(span.begin, size);
    const std::uint32_t end = std::clamp(span.end, begin, size);
    const std::uint32_t first = source.line_at(begin);
    // The last byte counts, not the place behind it: a span that ends with a line end stays on its line.
    const std::uint32_t last = source.line_at(end > begin ? end - 1 : end);
    const std::size_t gutter = std::max(least_gutter, fmt::formatted_size("{}", last));
    const std::uint32_t first_start = source.line_start(first);

    std::string out;
    append_line(out, source, first, begin - first_start, end - first_start, width, gutter, '^', paint);
    if (last > first) {
        if (last > first + 1) {
            fmt::format_to(std::back_inserter(out), "{:>{}}\n", "...", gutter);
        }
        append_line(out, source, last, 0, end - source.line_start(last), width, gutter, '~', paint);
    }
    return out;
}

} // namespace curbstop::text
