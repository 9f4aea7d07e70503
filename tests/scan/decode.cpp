// Encodings that scan summaries are saved in. The UTF-16 bytes are computed from the definition in RFC 2781, 2.1: a
// code point above U+FFFF is two units, 0xD800 + its upper and 0xDC00 + its lower ten bits after taking 0x10000 away.
#include "scan/decode.hpp"

#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {

std::string utf16(std::u16string_view text, bool little) {
  std::string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
  for (const char16_t unit : text) {
    const char low = static_cast<char>(unit & 0xFFU);
    const char high = static_cast<char>(unit >> 8U);
    bytes += little ? low : high;
    bytes += little ? high : low;
  }
  return bytes;
}

}  // namespace

TEST_CASE("UTF-16 of either byte order is read by its mark, surrogate pairs too") {
  for (const bool little : {true, false}) {
    CHECK(decoded(utf16(u"ECM keine R\u00FCckmeldung \u2717", little)) == "ECM keine R\u00FCckmeldung \u2717");
    CHECK(decoded(utf16(u"\U0001F697 ECM", little)) == "\U0001F697 ECM");
    CHECK(decoded(utf16(std::u16string(1, char16_t{0xD83D}) + u" ECM", little)) == "\uFFFD ECM");
    CHECK(decoded(utf16(u"ECM", little) + "x") == "ECM");  // cut off in the middle of a unit
  }
}

TEST_CASE("UTF-8 stays, its mark goes, and other bytes are taken as ISO 8859-1") {
  CHECK(decoded("\xEF\xBB\xBF"
                "ECM") == "ECM");
  CHECK(decoded("R\u00FCck") == "R\u00FCck");
  CHECK(decoded("R\xFC"
                "ck, 12 \xB5"
                "s") == "R\u00FCck, 12 \u00B5s");
  CHECK(decoded("").empty());
}

TEST_CASE("a scan saved as UTF-16 says what the same scan says as UTF-8") {
  const std::string text = "ECM: no reply\r\nTCM: U0100 current\r\n";
  const std::u16string wide(text.begin(), text.end());
  CHECK((test::pasted(utf16(wide, true)) == test::pasted(text)));
}
