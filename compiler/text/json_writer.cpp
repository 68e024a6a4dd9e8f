#include "text/json_writer.h"

#include "text/utf8.h"

#include <cassert>
#include <cmath>
#include <fmt/format.h>
#include <iterator>

namespace curbstop::text {

void JsonWriter::line(std::size_t depth) {
    out_.push_back('\n');
    out_.append(2 * depth, ' ');
}

void JsonWriter::before_value() {
    if (after_key_) {
        after_key_ = false;
        return;
    }
    assert((open_.empty() ? out_.empty() : open_.back() == Inside::array) && "a value needs a key in an object");
    if (open_.empty()) {
        return;
    }
    if (!first_) {
        out_.push_back(',');
    }
    line(open_.size());
    first_ = false;
}

void JsonWriter::end(Inside inside, char bracket) {
    assert(!open_.empty() && open_.back() == inside && !after_key_ && "ends what was not begun");
    static_cast<void>(inside);
    open_.pop_back();
    if (!first_) {
        line(open_.size());
    }
    first_ = false;
    out_.push_back(bracket);
}

JsonWriter& JsonWriter::begin_object() {
    before_value();
    out_.push_back('{');
    open_.push_back(Inside::object);
    first_ = true;
    return *this;
}

JsonWriter& JsonWriter::end_object() {
    end(Inside::object, '}');
    return *this;
}

JsonWriter& JsonWriter::begin_array() {
    before_value();
    out_.push_back('[');
    open_.push_back(Inside::array);
    first_ = true;
    return *this;
}

JsonWriter& JsonWriter::end_array() {
    end(Inside::array, ']');
    return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
    assert(!open_.empty() && open_.back() == Inside::object && !after_key_ && "a key belongs in an object");
    if (!first_) {
        out_.push_back(',');
    }
    line(open_.size());
    first_ = false;
    text(name);
    out_.append(": ");
    after_key_ = true;
    return *this;
}

void JsonWriter::text(std::string_view raw) {
    out_.push_back('"');
    for (std::size_t at = 0; at < raw.size();) {
        const CodePoint point = decode_utf8(raw, at);
        switch (point.value) {
        case U'"':
            out_.append("\\\"");
            break;
        case U'\\':
            out_.append("\\\\");
            break;
        case U'\n':
            out_.append("\\n");
            break;
        case U'\r':
            out_.append("\\r");
            break;
        case U'\t':
            out_.append("\\t");
            break;
        default: // not one of our enums: every other character
            // Beyond what RFC 8259 asks, DEL, C1 and direction marks are escaped: JSON gets shown on terminals too.
            if (is_unprintable(point.value) && point.value <= 0xFFFF) {
                fmt::format_to(std::back_inserter(out_), "\\u{:04x}", static_cast<std::uint32_t>(point.value));
            } else if (!point.valid) {
                append_utf8(out_, point.value);
            } else {
                out_.append(raw.substr(at, point.length));
            }
        }
        at += point.length;
    }
    out_.push_back('"');
}

JsonWriter& JsonWriter::value(std::string_view text_value) {
    before_value();
    text(text_value);
    return *this;
}

JsonWriter& JsonWriter::value(bool truth) {
    before_value();
    out_.append(truth ? "true" : "false");
    return *this;
}

JsonWriter& JsonWriter::value(double number) {
    if (!std::isfinite(number)) {
        return null();
    }
    before_value();
    // fmt writes the shortest digits that read back the same, whatever the locale; -0 and 0 are one number here.
    fmt::format_to(std::back_inserter(out_), "{}", number == 0 ? 0.0 : number);
    return *this;
}

JsonWriter& JsonWriter::value(std::int64_t number) {
    before_value();
    fmt::format_to(std::back_inserter(out_), "{}", number);
    return *this;
}

JsonWriter& JsonWriter::value(std::uint64_t number) {
    before_value();
    fmt::format_to(std::back_inserter(out_), "{}", number);
    return *this;
}

JsonWriter& JsonWriter::null() {
    before_value();
    out_.append("null");
    return *this;
}

std::string JsonWriter::take() {
    assert(open_.empty() && !after_key_ && "something was not ended");
    std::string result = std::move(out_);
    result.push_back('\n');
    *this = JsonWriter();
    return result;
}

} // namespace curbstop::text
