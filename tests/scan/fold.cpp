// Characters made comparable.
#include "scan/fold.hpp"

#include <doctest/doctest.h>

using namespace whichwire;

TEST_CASE("letter case, accents, width, spacing and punctuation do not matter in a key") {
  CHECK(folded_key("Body-Control Module") == "bodycontrolmodule");
  CHECK(folded_key("BODYCONTROLMODULE") == "bodycontrolmodule");
  CHECK(folded_key("ＥＣＭ２") == "ecm2");
  CHECK(folded_key("Motorsteuergerät") == "motorsteuergeraet");
  CHECK(folded_key("Größe É ç ñ") == "groesseecn");
  CHECK(folded_key("a\u00adb\u200bc") == "abc");
  CHECK(folded_key("u\u0308") == "u");
  CHECK(folded_key(" -_/.\t") == "");
}

TEST_CASE("letters of other scripts keep their own bytes") {
  CHECK(folded_key("Блок") == "Блок");
  CHECK(folded_key("発") == "発");
}

TEST_CASE("signs tell columns, rules, ticks and crosses apart") {
  const auto sign = [](std::string_view text) { return folded_at(text, 0).sign; };
  CHECK(sign("|") == Sign::cell);
  CHECK(sign("\t") == Sign::cell);
  CHECK(sign("│") == Sign::cell);
  CHECK(sign("─") == Sign::rule);
  CHECK(sign("✓") == Sign::yes);
  CHECK(sign("✗") == Sign::no);
  CHECK(sign("\u00a0") == Sign::blank);
  CHECK(sign("\u200b") == Sign::nothing);
  CHECK(sign("•") == Sign::other);
  CHECK(sign("\x80") == Sign::other);
}
