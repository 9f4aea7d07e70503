#include "render/page.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

#include "network/utf8.hpp"

using namespace whichwire;
using namespace whichwire::render;

namespace {

Look narrow(std::size_t width) {
  Look look;
  look.width = width;
  return look;
}

}  // namespace

TEST_CASE("a long sentence is wrapped under its own beginning") {
  Page page(narrow(30));
  page.text(2, "- ", "one two three four five six seven eight");
  CHECK(page.take() == "  - one two three four five\n    six seven eight\n");
}

TEST_CASE("a number is not parted from its per cent sign") {
  Page page(narrow(30));
  page.text(2, "- ", "one two three four fi (99 %), and 5 %");
  CHECK(page.take() == "  - one two three four fi\n    (99 %), and 5 %\n");
}

TEST_CASE("a list with a long name uses the whole width") {
  Page page(narrow(30));
  page.list(2, "shown as not fitted", {"AAAA", "BBBB", "CCCC"});
  CHECK(page.take() == "  shown as not fitted: AAAA,\n    BBBB, CCCC\n");
}

TEST_CASE("a word wider than the page is cut, not run over the edge") {
  Page page(narrow(24));
  page.text(2, std::string(60, 'x'));
  std::istringstream lines(page.take());
  std::size_t marks = 0;
  for (std::string line; std::getline(lines, line);) {
    CHECK(line.size() <= 24);
    marks += static_cast<std::size_t>(std::count(line.begin(), line.end(), 'x'));
  }
  CHECK(marks == 60);
}

TEST_CASE("characters count by the columns that they take, not by bytes") {
  CHECK(utf8::columns_of("Kühler") == 6);
  CHECK(utf8::columns_of("計器") == 4);
  Page page(narrow(24));
  page.text(0, "äääää äääää äääää äääää äääää");
  CHECK(page.take() == "äääää äääää äääää äääää\näääää\n");
}

TEST_CASE("control characters from a file never reach the page raw") {
  Page page(Look{});
  page.text(0, "\x1b[31mred\x07 \xc2\x9b");
  page.quote(0, "", "\x1b]0;title\x07");
  page.heading("a\rb");
  const std::string text = page.take();
  for (char byte : text) CHECK((byte == '\n' || static_cast<unsigned char>(byte) >= 0x20));
  CHECK(text.find("\xc2\x9b") == std::string::npos);
  CHECK(text.find("red") != std::string::npos);
}

TEST_CASE("a quoted line stays one line") {
  Page page(narrow(40));
  page.quote(4, "line 7: ", std::string(100, 'a'));
  CHECK(page.take() == "    line 7: " + std::string(25, 'a') + "...\n");
}

TEST_CASE("only a heading is bold, and only with colour") {
  Look look;
  Page plain(look);
  plain.heading("Why");
  CHECK(plain.take() == "Why\n");
  look.colour = true;
  Page coloured(look);
  coloured.heading("Why");
  coloured.text(2, "words");
  CHECK(coloured.take() == "\x1b[1mWhy\x1b[0m\n  words\n");
}

TEST_CASE("probabilities are never worded as certain or impossible") {
  CHECK(percent(1.0) == "over 99 %");
  CHECK(percent(0.9901) == "over 99 %");
  CHECK(percent(0.987) == "99 %");
  CHECK(percent(0.943) == "94 %");
  CHECK(percent(0.0099) == "under 1 %");
  CHECK(percent(0.0) == "under 1 %");
}

TEST_CASE("numbers carry no digits that say nothing") {
  CHECK(number(12.5) == "12.5");
  CHECK(number(4) == "4");
  CHECK(number(0.001) == "0");
  CHECK(number(-0.001) == "0");
  CHECK(number(100) == "100");
}

TEST_CASE("words are joined as one says them") {
  CHECK(joined({}) == "");
  CHECK(joined({"a"}) == "a");
  CHECK(joined({"a", "b", "c"}) == "a, b and c");
}
