#include "draw/lettering.hpp"

#include <doctest/doctest.h>

using namespace whichwire;
using namespace whichwire::draw;

TEST_CASE("a text that fits is left alone, a longer one is cut with an ellipsis to the width") {
  CHECK(fitted("ECM", Lettering::id, 100) == "ECM");
  const std::string cut = fitted("Heating and air conditioning module", Lettering::name, 60);
  CHECK(cut.ends_with("\u2026"));
  CHECK(cut.starts_with("Heating"));
  CHECK(width_of(cut, Lettering::name) <= 60);
}

TEST_CASE("a cut never parts a character, and control characters are made visible before they are measured") {
  CHECK(fitted("\u00e4\u00e4\u00e4\u00e4\u00e4\u00e4", Lettering::name, 30).find('\xc3') != std::string::npos);
  CHECK(fitted("\x1b[31m", Lettering::name, 200).find('\x1b') == std::string::npos);
  CHECK(fitted("\u202e", Lettering::name, 200).find("\u202e") == std::string::npos);
}

TEST_CASE("lines are broken between words and there are no more than asked for") {
  const auto lines = lines_of("Heating and air conditioning module", Lettering::name, 95, 2);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == "Heating and air");
  for (const std::string& line : lines) CHECK(width_of(line, Lettering::name) <= 95);
  CHECK(lines_of("", Lettering::name, 95, 2).empty());
  CHECK(lines_of("one", Lettering::name, 95, 2) == std::vector<std::string>{"one"});
}

TEST_CASE("a number and its per cent sign stay on one line, as wide as with a blank between them") {
  const auto lines = lines_of("a short, or something added (98 %)", Lettering::subtitle, 120, 3);
  REQUIRE(lines.size() > 1);
  CHECK(lines.back().ends_with("98\u00a0%)"));
  CHECK(width_of("98\u00a0%", Lettering::name) == width_of("98 %", Lettering::name));
}

// Advances of DejaVu Sans 2.37 as a font tool prints them: A 684/1000, i 278/1000, in bold 774/1000 and 343/1000.
TEST_CASE("widths are those of the typeface") {
  CHECK(width_of("A", Lettering::name) == doctest::Approx(6.84));
  CHECK(width_of("i", Lettering::name) == doctest::Approx(2.78));
  CHECK(width_of("Ai", Lettering::tag) == doctest::Approx(7.74 + 3.43));
}
