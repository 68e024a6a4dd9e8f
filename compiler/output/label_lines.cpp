#include "output/label_lines.h"

#include "text/utf8.h"

#include <algorithm>
#include <utility>

namespace curbstop::output {
namespace {

constexpr std::size_t tenths = 10; // of a column, which is as wide as most small letters

/// How wide a letter is, in tenths of a column: capitals and broad letters of a sans-serif face are wider than the rest
/// (advance widths of Liberation Sans, to the next tenth that they do not exceed in bold).
std::size_t width_of(char32_t letter) {
    switch (letter) {
    case U'W':
    case U'@':
        return 18;
    case U'M':
    case U'%':
    case U'm':
        return 16;
    case U'w':
        return 14;
    default:
        return letter >= U'A' && letter <= U'Z' && letter != U'I' && letter != U'J'
                   ? 13
                   : tenths * text::display_width(letter);
    }
}

std::size_t width_of(std::string_view line) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < line.size();) {
        const text::CodePoint point = text::decode_utf8(line, at);
        width += width_of(point.value);
        at += point.length;
    }
    return width;
}

} // namespace

std::vector<std::string> label_lines(std::string_view label, std::size_t columns, std::size_t most_lines) {
    std::vector<std::string> lines;
    std::string line;
    std::size_t width = 0;
    std::size_t keep = 0; // of the line, up to where it may be broken; 0: nowhere
    std::size_t rest = 0; // from where it would go on
    const auto end_line = [&](std::string next) {
        lines.push_back(line);
        line = std::move(next);
        width = width_of(line);
        keep = 0;
    };
    for (std::size_t at = 0; at < label.size();) {
        const text::CodePoint point = text::decode_utf8(label, at);
        const std::string_view letter = label.substr(at, point.length);
        const std::size_t letter_width = width_of(point.value);
        at += point.length;
        if (width + letter_width > columns * tenths) {
            if (point.value == ' ') {
                end_line("");
                continue;
            }
            if (keep > 0) {
                std::string next = line.substr(rest);
                line.erase(keep);
                end_line(std::move(next));
            } else {
                end_line("");
            }
        }
        if (point.value == ' ') {
            keep = line.size();
            rest = keep + 1;
        } else if (point.value == '-' && !line.empty() && line.back() != ' ') { // "Drinking-water"
            keep = rest = line.size() + 1;
        }
        line += letter;
        width += letter_width;
    }
    if (!line.empty() || lines.empty()) {
        lines.push_back(line);
    }
    if (lines.size() > most_lines) {
        lines.resize(most_lines);
        lines.back() += "…";
    }
    return lines;
}

std::size_t widest(const std::vector<std::string>& lines) {
    std::size_t most = 0;
    for (const std::string& line : lines) {
        most = std::max(most, (width_of(line) + tenths - 1) / tenths);
    }
    return most;
}

} // namespace curbstop::output
