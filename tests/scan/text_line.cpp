// A line as words, with what stands between them and its columns.
#include "scan/text_line.hpp"

#include <doctest/doctest.h>

using namespace whichwire;

namespace {
std::string words(std::string_view raw) {
  std::string all;
  for (const Word& word : text_line(raw).words) all += (all.empty() ? "" : "/") + word.text;
  return all;
}
std::string columns(std::string_view raw) {
  const TextLine line = text_line(raw);
  std::string all;
  for (const Word& word : line.words) all += std::to_string(word.column);
  return all + " of " + std::to_string(line.columns);
}
}  // namespace

TEST_CASE("words end at blanks and marks; numbers keep their points, and dates their clock") {
  CHECK(words("ECM: no-response") == "ecm/no/response");
  CHECK(words("12,4 V 12.5V 7E0 0x7E8") == "12,4/v/12.5/v/7e0/0x7e8");
  CHECK(words("2026-03-02T09:14:00Z 02.03.2026 9:14") == "2026-03-02t09:14:00/z/02.03.2026/9:14");
  CHECK(words("U0100-87:2F") == "u0100/87/2f");
  CHECK(words("✓ ok ✗") == "yes/ok/no");
}

TEST_CASE("columns end at bars, tabs and runs of blanks; empty ones keep their place") {
  CHECK(columns("a  b   c") == "012 of 3");
  CHECK(columns("a b") == "00 of 1");
  CHECK(columns("| a | b |") == "01 of 2");
  CHECK(columns("| a |  | c |") == "02 of 3");
  CHECK(columns("a\t\tc") == "02 of 3");
  CHECK(columns("a\tb\t") == "01 of 3");
  CHECK(columns("│ a │ b  c │") == "011 of 2");
  CHECK(columns("\"a\",\"b c\",\"\",\"d\"") == "0113 of 4");
}

TEST_CASE("a line without words is blank, a rule, or neither") {
  CHECK(text_line("").blank());
  CHECK(text_line("  \u00a0").blank());
  CHECK(text_line("-----+-----").rule());
  CHECK(text_line("├───┼───┤").rule());
  CHECK_FALSE(text_line("?!").rule());
  CHECK_FALSE(text_line("?!").blank());
}

TEST_CASE("capitals are noticed, in a word and in a whole line") {
  const TextLine line = text_line("ECM is ok");
  CHECK(line.words[0].capitals);
  CHECK_FALSE(line.words[1].capitals);
  CHECK_FALSE(line.shouting);
  CHECK(text_line("ECM IS OK 12").shouting);
  CHECK_FALSE(text_line("12 34").shouting);
  CHECK(text_line("  x").indented);
}

TEST_CASE("a slice keeps the quote or bracket that closes it") {
  const TextLine line = text_line("text \"A\" (b) c");
  CHECK(line.slice(0, 1) == "text \"A");
  CHECK(line.closed_slice(0, 1) == "text \"A\"");
  CHECK(line.closed_slice(0, 2) == "text \"A\" (b)");
  CHECK(line.closed_slice(2, 2) == "b");
}
