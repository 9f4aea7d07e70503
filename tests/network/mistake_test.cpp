// Messages and what may be shown on a screen. Well-formed UTF-8: RFC 3629.
#include <doctest/doctest.h>

#include <whichwire/mistake.hpp>

#include "network/utf8.hpp"

using namespace whichwire;

TEST_CASE("a mistake is printed as place, path, sentence, source line and caret") {
  CHECK(text_of(Mistake{"a.json", 3, 7, "modules.ECM", "what", "  \"ECM\": 1", 0}) ==
        "a.json:3:7: modules.ECM: what\n    \"ECM\": 1\n        ^\n");
  CHECK(text_of(Mistake{"a.json", 0, 0, "", "what", "", 0}) == "a.json: what\n");
}

TEST_CASE("control characters, bad bytes and marks of direction are shown as escapes") {
  CHECK(printable("plain, groß 電") == "plain, groß 電");
  CHECK(printable("\x1b[31mred\x1b[0m") == "\\x1b[31mred\\x1b[0m");
  CHECK(printable("a\tb\nc\rd\x7f") == "a\\tb\\nc\\x0dd\\x7f");
  CHECK(printable(std::string_view("\0", 1)) == "\\x00");
  CHECK(printable("\xff\xc3(") == "\\xff\\xc3(");
  CHECK(printable("\xc2\x9b"
                  "2J") == "\\u009b2J");
  CHECK(printable("\xe2\x80\xae"
                  "evil") == "\\u202eevil");
  CHECK(printable("\xf3\xa0\x81\x81") == "\\U000e0041");
}

TEST_CASE("no message carries a control character, wherever it came from") {
  const std::string bad = "x\x1b]0;title\x07";
  const std::string text = text_of(Mistake{bad, 1, 1, bad, bad, bad, 1});
  for (const char letter : text) CHECK((letter == '\n' || static_cast<unsigned char>(letter) >= 0x20));
}

TEST_CASE("ill-formed UTF-8 is found at its first byte") {
  using whichwire::utf8::first_invalid;
  CHECK(first_invalid("abc") == std::string_view::npos);
  CHECK(first_invalid("\xf4\x8f\xbf\xbf") == std::string_view::npos);  // U+10FFFF, the last
  CHECK(first_invalid("ab\x80") == 2);                                 // continuation without a first byte
  CHECK(first_invalid("\xc0\x80") == 0);                               // overlong
  CHECK(first_invalid("\xe2\x82") == 0);                               // cut off
  CHECK(first_invalid("\xed\xbf\xbf") == 0);                           // surrogate
  CHECK(first_invalid("\xf4\x90\x80\x80") == 0);                       // above U+10FFFF
}
