// JSON (RFC 8259) written in one pass, the same bytes for the same calls.
// Must not know: what is written.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::text {

/// Writes one value: a scalar, or an object or array and what it holds. Calls must nest properly, and in an object each
/// value follows a key; a debug build asserts both. Indented by two spaces; empty objects and arrays stay on one line.
///
///     JsonWriter json;
///     json.begin_object();
///     json.member("name", "tap");
///     json.key("positions").begin_array().value("open").value("shut").end_array();
///     json.end_object();
class JsonWriter {
  public:
    JsonWriter& begin_object();
    JsonWriter& end_object();
    JsonWriter& begin_array();
    JsonWriter& end_array();
    JsonWriter& key(std::string_view name);

    JsonWriter& value(std::string_view text); ///< bytes that are not UTF-8 are written as U+FFFD
    JsonWriter& value(const char* text) { return value(std::string_view(text)); }
    JsonWriter& value(const std::string& text) { return value(std::string_view(text)); }
    JsonWriter& value(bool truth);
    JsonWriter& value(double number); ///< shortest digits that read back the same; JSON has no infinity: null
    JsonWriter& value(std::int64_t number);
    JsonWriter& value(std::uint64_t number);
    JsonWriter& value(int number) { return value(std::int64_t{number}); }
    JsonWriter& value(unsigned number) { return value(std::uint64_t{number}); }
    JsonWriter& null();

    template <class Value>
    JsonWriter& member(std::string_view name, const Value& v) {
        return key(name).value(v);
    }

    /// What was written, with a line end; the writer is empty afterwards.
    [[nodiscard]] std::string take();

  private:
    enum class Inside : std::uint8_t { object, array };

    void before_value();
    void line(std::size_t depth);
    void end(Inside inside, char bracket);
    void text(std::string_view raw);

    std::string out_;
    std::vector<Inside> open_;
    bool first_ = true; // nothing has been written in the innermost object or array yet
    bool after_key_ = false;
};

} // namespace curbstop::text
