#include "output/label_lines.h"

#include "text/utf8.h"

#include <algorithm>
#include <utility>

namespace curbstop::output {

std::vector<std::string> label_lines(std::string_view label, std::size_t columns, std::size_t most_lines) {
    std::vector<std::string> lines;
    std::string line;
    std::size_t width = 0;
    std::size_t last_space = std::string::npos;
    const auto end_line = [&](std::string rest) {
        lines.push_back(line);
        line = std::move(rest);
        width = text::display_width(line);
        last_space = std::string::npos;
    };
    for (std::size_t at = 0; at < label.size();) {
        const text::CodePoint point = text::decode_utf8(label, at);
        const std::string_view letter = label.substr(at, point.length);
        const std::size_t letter_width = text::display_width(point.value);
        at += point.length;
        if (width + letter_width > columns) {
            if (point.value == ' ') {
                end_line("");
                continue;
            }
            if (last_space != std::string::npos) {
                std::string rest = line.substr(last_space + 1);
                line.erase(last_space);
                end_line(std::move(rest));
            } else {
                end_line("");
            }
        }
        if (point.value == ' ') {
            last_space = line.size();
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
        most = std::max(most, text::display_width(line));
    }
    return most;
}

} // namespace curbstop::output
