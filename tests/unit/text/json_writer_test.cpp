#include "text/json_writer.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace curbstop::text;
using namespace std::string_view_literals;

namespace {

template <class Value>
std::string written(const Value& value) {
    JsonWriter json;
    json.value(value);
    return json.take();
}

} // namespace

TEST_CASE("objects and arrays are indented, empty ones are not") {
    JsonWriter json;
    json.begin_object();
    json.member("name", "tap");
    json.key("positions").begin_array().value("open").value("shut").end_array();
    json.key("none").begin_array().end_array();
    json.key("nothing").begin_object().end_object();
    json.key("inner").begin_object().member("yes", true).member("count", 3).end_object();
    json.key("gone").null();
    json.end_object();
    CHECK(json.take() == R"({
  "name": "tap",
  "positions": [
    "open",
    "shut"
  ],
  "none": [],
  "nothing": {},
  "inner": {
    "yes": true,
    "count": 3
  },
  "gone": null
}
)");
}

TEST_CASE("arrays of objects") {
    JsonWriter json;
    json.begin_array();
    json.begin_object().member("a", 1).end_object();
    json.begin_object().end_object();
    json.begin_array().end_array();
    json.value(2);
    json.end_array();
    CHECK(json.take() == "[\n  {\n    \"a\": 1\n  },\n  {},\n  [],\n  2\n]\n");
}

TEST_CASE("strings are escaped") {
    CHECK(written("\"\\/\b\f\n\r\t"sv) == "\"\\\"\\\\/\\u0008\\u000c\\n\\r\\t\"\n");
    CHECK(written("a\0b"sv) == "\"a\\u0000b\"\n");
    CHECK(written("\x1b\x7f\u009b"sv) == "\"\\u001b\\u007f\\u009b\"\n");
    CHECK(written("\u202e\u2028"sv) == "\"\\u202e\\u2028\"\n");
    CHECK(written("\u00e4\U0001F4A7"sv) == "\"\u00e4\U0001F4A7\"\n");
    CHECK(written("a\xFF"sv) == "\"a\uFFFD\"\n"); // RFC 8259, section 8.1: JSON is UTF-8
    JsonWriter json;
    json.begin_object().member("a\"b", 1).end_object();
    CHECK(json.take() == "{\n  \"a\\\"b\": 1\n}\n");
}

TEST_CASE("numbers are the shortest that read back the same") {
    CHECK(written(0.1) == "0.1\n");
    CHECK(written(1.0) == "1\n");
    CHECK(written(-0.0) == "0\n");
    CHECK(written(100000.0) == "100000\n");
    CHECK(written(0.1 + 0.2) == "0.30000000000000004\n");
    CHECK(written(1e300) == "1e+300\n");
    CHECK(written(std::nan("")) == "null\n");
    CHECK(written(std::numeric_limits<double>::infinity()) == "null\n");
    CHECK(written(std::numeric_limits<std::int64_t>::min()) == "-9223372036854775808\n");
    CHECK(written(std::numeric_limits<std::uint64_t>::max()) == "18446744073709551615\n");
    CHECK(written(true) == "true\n");
}

TEST_CASE("a writer can be used again") {
    JsonWriter json;
    json.begin_array().value(1).end_array();
    const std::string first = json.take();
    json.begin_array().value(1).end_array();
    CHECK(json.take() == first);
}
