// Places, limits and syntax messages of the JSON reader. Grammar: RFC 8259.
#include "network/placed_json.hpp"

#include <doctest/doctest.h>

using namespace whichwire;

namespace {

struct Read {
  std::optional<json::Value> value;
  std::vector<Mistake> mistakes;
};

Read read(std::string_view text, const json::Limits& limits = {}) {
  json::Complaints complaints;
  Read out;
  out.value = json::parse(text, 0, complaints, limits);
  out.mistakes = complaints.mistakes({{"file", text}});
  return out;
}

/// The whole message of a text with one mistake.
std::string said(std::string_view text, const json::Limits& limits = {}) {
  const Read got = read(text, limits);
  REQUIRE(got.mistakes.size() == 1);
  return text_of(got.mistakes.front());
}

}  // namespace

TEST_CASE("every key and every value has the place of its first character") {
  const std::string text =
      "{ \"a\": [1, -2.5e1 , \"x\\\"y\",true, null,{}],\n  // note, with: signs\n  \"ü\" /* : */ : { \"c\" : \"\" } }";
  const Read got = read(text);
  REQUIRE(got.mistakes.empty());
  const json::Value& root = *got.value;
  CHECK(root.spot.offset == 0);
  REQUIRE(root.members.size() == 2);
  const json::Member& a = root.members[0];
  CHECK(a.spot.offset == text.find("\"a\""));
  CHECK(a.value.spot.offset == text.find('['));
  REQUIRE(a.value.items.size() == 6);
  CHECK(a.value.items[0].spot.offset == text.find("1,"));
  CHECK(a.value.items[1].spot.offset == text.find("-2.5e1"));
  CHECK(a.value.items[1].number == -25.0);
  CHECK(a.value.items[2].spot.offset == text.find("\"x"));
  CHECK(a.value.items[2].text == "x\"y");
  CHECK(a.value.items[3].spot.offset == text.find("true"));
  CHECK(a.value.items[3].truth);
  CHECK(a.value.items[4].spot.offset == text.find("null"));
  CHECK(a.value.items[5].spot.offset == text.find("{}"));
  const json::Member& u = root.members[1];
  CHECK(u.key == "ü");
  CHECK(u.spot.offset == text.find("\"ü\""));
  CHECK(u.value.spot.offset == text.rfind("{ \"c\""));
  CHECK(u.value.members[0].spot.offset == text.find("\"c\""));
  CHECK(u.value.members[0].value.spot.offset == text.rfind("\"\""));
}

TEST_CASE("a byte order mark before the text is passed over") {
  const Read got = read("\xef\xbb\xbf{\"a\": 1}");
  REQUIRE(got.value);
  CHECK(got.value->spot.offset == 3);
  CHECK(got.value->members[0].spot.offset == 4);
}

TEST_CASE("a key that stands twice is a mistake at the second, and names the line of the first") {
  CHECK(said("{\n \"a\": {\"b\": 1,\n  \"c\": 2,\n  \"b\": 3}}") ==
        "file:4:3: a.b: the key `b` stands twice in one object (the first is in line 2)\n"
        "    \"b\": 3}}\n"
        "    ^\n");
  const Read got = read("{\"b\": 1, \"b\": 2}");
  REQUIRE(got.value);
  REQUIRE(got.value->members.size() == 1);
  CHECK(got.value->members[0].value.number == 1);
}

TEST_CASE("each syntax mistake is told in plain words at its place") {
  CHECK(
      said("{\"a\": 1,}").starts_with("file:1:9: a key in double quotes is expected here; is there a comma too many"));
  CHECK(said("[1,,2]").starts_with("file:1:4: a value is expected here"));
  CHECK(said("{\"a\" 1}").starts_with("file:1:6: a: a colon is expected here"));
  CHECK(said("{\"a\": 1 \"bcd\": 2}").starts_with("file:1:9: a comma or the closing } is expected here"));
  CHECK(said("[1 2]").starts_with("file:1:4: a comma or the closing ] is expected here"));
  CHECK(said("{} x").starts_with("file:1:4: the value ends before this"));
  CHECK(said("{\"a\": tru}").starts_with("file:1:7: a: a value is expected here"));
  CHECK(said("{\"a\": 01}").starts_with("file:1:8: a comma or the closing }"));
  CHECK(said("{\"a\": -}").starts_with("file:1:7: a: this is not a number as JSON writes one"));
  CHECK(said("{\"a\": 1.}").starts_with("file:1:7: a: this is not a number as JSON writes one"));
  CHECK(said("{\"a\": 1e999}").starts_with("file:1:7: a: this number is too large"));
  CHECK(said("{\"a\": \"b\n\"}")
            .starts_with("file:1:7: a: this text is not closed by a double quote before its line ends"));
  CHECK(said("{\"a\": \"b\t\"}").starts_with("file:1:7: a: a tab inside a text is written \\t"));
  CHECK(said("{\"a\": \"\\q\"}").starts_with("file:1:7: a: a backslash inside a text is written \\\\"));
  CHECK(said("{\"a\": \"\\u12g4\"}").starts_with("file:1:7: a: \\u is followed by four hexadecimal digits"));
  CHECK(said("{\"a\": \"\\ud800\"}").starts_with("file:1:7: a: a \\u escape above FFFF"));
  CHECK(said("{ / }").starts_with("file:1:3: a comment begins with // or /*"));
  CHECK(said("[1, expected string literal]").starts_with("file:1:5: a value is expected here"));
}

TEST_CASE("a text that is cut off says which bracket is open") {
  CHECK(said("").starts_with("file:1:1: the text holds nothing to read"));
  CHECK(said("  // only a remark\n").starts_with("file:2:1: the text holds nothing to read"));
  CHECK(said("{\n\"a\": [1, 2")
            .starts_with("file:2:11: a: the text ends here, but the `[` of line 2 is not closed; is it cut off?"));
  CHECK(said("{\n\"a\": \"half").starts_with("file:2:6: a: this text is not closed by a double quote"));
  CHECK(said("{ /* never closed }").starts_with("file:1:3: this comment is not closed by */"));
}

TEST_CASE("bytes and characters that do not belong in a text are named with their place") {
  CHECK(said("{\"a\": \"\xc3\"}").starts_with("file:1:8: the byte `\\xc3` is not UTF-8"));
  CHECK(said("{\"a\": \"\xe0\x80\x80\"}").starts_with("file:1:8: the byte `\\xe0` is not UTF-8"));
  CHECK(said("{\"a\": \"\xed\xa0\x80\"}").starts_with("file:1:8: the byte `\\xed` is not UTF-8"));
  CHECK(said(std::string_view("{}\0 {", 5)).starts_with("file:1:3: the control character `\\x00` does not belong"));
  CHECK(said("{} // \x1b[31m").starts_with("file:1:7: the control character `\\x1b` does not belong"));
  CHECK(said(std::string_view("\xff\xfe{\0}\0", 6)).starts_with("file: the text is UTF-16, not UTF-8"));
}

TEST_CASE("each limit refuses the text and is named in the message") {
  json::Limits limits;
  limits.bytes = 10;
  CHECK(said("[1, 2, 3, 4]", limits) == "file: the text is larger than 10 bytes; it is too large to read\n");
  limits = {};
  limits.depth = 2;
  CHECK(read("[[1]]", limits).mistakes.empty());
  CHECK(said("[[[1]]]", limits).starts_with("file:1:3: brackets are nested deeper than 2 levels"));
  limits = {};
  limits.values = 3;
  CHECK(read("[1, 2]", limits).mistakes.empty());
  CHECK(said("[1, 2, 3]", limits).starts_with("file:1:8: there are more than 3 values"));
  limits = {};
  limits.text_bytes = 3;
  CHECK(read("[\"abc\"]", limits).mistakes.empty());
  CHECK(said("[\"abcd\"]", limits).starts_with("file:1:2: this text is 4 bytes long; at most 3 are read"));
  CHECK(said("{\"abcd\": 1}", limits).starts_with("file:1:2: this text is 4 bytes long; at most 3 are read"));
}

TEST_CASE("mistakes come in the order of the text, and beyond 200 they are counted") {
  std::string text = "[";
  for (int i = 0; i < 250; ++i) text += "{\"a\": 1, \"a\": 2},\n";
  text += "0]";
  const Read got = read(text);
  REQUIRE(got.mistakes.size() == 201);
  CHECK(got.mistakes[0].line == 1);
  CHECK(got.mistakes[199].line == 200);
  CHECK(text_of(got.mistakes[200]) == "file: and 50 more mistakes, which are not listed\n");
}

TEST_CASE("the caret stands under the place in long lines and behind wide and combined characters") {
  CHECK(said("{\"\xe9\x9b\xbb\x65\xcc\x81\": x}") ==
        "file:1:8: \xe9\x9b\xbb\x65\xcc\x81: a value is expected here: a text in double quotes, a number, true, false, "
        "{ or [\n"
        "  {\"\xe9\x9b\xbb\x65\xcc\x81\": x}\n"
        "          ^\n");
  const std::string text = "[" + std::string(100'000, ' ') + "x" + std::string(100'000, ' ') + "]";
  const Read got = read(text);
  REQUIRE(got.mistakes.size() == 1);
  CHECK(got.mistakes[0].column == 100'002);
  CHECK(got.mistakes[0].source_line.size() < 90);
  CHECK(got.mistakes[0].source_line.find('x') != std::string::npos);
  CHECK(got.mistakes[0].caret == 52);
}
