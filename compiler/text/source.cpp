#include "text/source.h"

#include "text/utf8.h"

#include <algorithm>

namespace curbstop::text {

Span join(Span first, Span second) {
    return {first.source, std::min(first.begin, second.begin), std::max(first.end, second.end)};
}

Source make_source(std::string path, std::string text) {
    Source source{std::move(path), std::move(text), {0}};
    for (std::size_t at = source.text.find('\n'); at != std::string::npos; at = source.text.find('\n', at + 1)) {
        source.line_starts.push_back(static_cast<std::uint32_t>(at + 1));
    }
    return source;
}

std::uint32_t Source::line_at(std::uint32_t offset) const {
    const auto after = std::upper_bound(line_starts.begin(), line_starts.end(), offset);
    return static_cast<std::uint32_t>(after - line_starts.begin());
}

std::uint32_t Source::line_start(std::uint32_t number) const {
    if (number == 0 || number > line_count()) {
        return static_cast<std::uint32_t>(text.size());
    }
    return line_starts[number - 1];
}

std::string_view Source::line(std::uint32_t number) const {
    if (number == 0 || number > line_count()) {
        return {};
    }
    const std::uint32_t begin = line_start(number);
    std::string_view found = std::string_view(text).substr(begin, line_start(number + 1) - begin);
    if (found.ends_with('\n')) {
        found.remove_suffix(1);
    }
    if (found.ends_with('\r')) {
        found.remove_suffix(1);
    }
    return found;
}

Position Source::position(std::uint32_t offset) const {
    const auto end = static_cast<std::uint32_t>(text.size());
    offset = std::min(offset, end);
    const std::uint32_t number = line_at(offset);
    const std::uint32_t begin = line_start(number);
    const auto before = count_code_points(std::string_view(text).substr(begin, offset - begin));
    return {number, static_cast<std::uint32_t>(before + 1)};
}

std::uint32_t Source::offset(Position position) const {
    const std::string_view whole = line(position.line);
    std::size_t at = 0;
    for (std::uint32_t column = 1; column < position.column && at < whole.size(); ++column) {
        at += decode_utf8(whole, at).length;
    }
    return line_start(position.line) + static_cast<std::uint32_t>(at);
}

SourceId SourceSet::add(std::string path, std::string text) {
    sources_.push_back(make_source(std::move(path), std::move(text)));
    return {static_cast<std::uint32_t>(sources_.size() - 1)};
}

std::optional<SourceId> SourceSet::find(std::string_view path) const {
    for (std::uint32_t index = 0; index < size(); ++index) {
        if (sources_[index].path == path) {
            return SourceId{index};
        }
    }
    return std::nullopt;
}

std::string_view SourceSet::text(Span span) const {
    if (!span.source.valid()) {
        return {};
    }
    const std::string_view whole = (*this)[span.source].text;
    const std::size_t begin = std::min<std::size_t>(span.begin, whole.size());
    const std::size_t end = std::clamp<std::size_t>(span.end, begin, whole.size());
    return whole.substr(begin, end - begin);
}

} // namespace curbstop::text
