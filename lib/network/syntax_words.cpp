#include "network/syntax_words.hpp"

#include <array>

namespace whichwire::json {

namespace {

struct Row {
  std::string_view said, words;
};

// In the order in which they are looked for; the first that occurs in the message counts.
constexpr std::array<Row, 16> rows{{
    {"missing closing quote", "this text is not closed by a double quote"},
    {"must be escaped to \\u000A", "this text is not closed by a double quote before its line ends"},
    {"must be escaped to \\u000D", "this text is not closed by a double quote before its line ends"},
    {"must be escaped to \\u0009", "a tab inside a text is written \\t"},
    {"'\\u' must be followed", "\\u is followed by four hexadecimal digits"},
    {"invalid string: surrogate",
     "a \\u escape above FFFF is written as a pair of surrogates, and this is half of one"},
    {"forbidden character after backslash", "a backslash inside a text is written \\\\"},
    {"expecting '/' or '*' after '/'", "a comment begins with // or /*"},
    {"invalid number", "this is not a number as JSON writes one, like 12 or 0.5"},
    {"number overflow", "this number is too large"},
    {"; expected string literal", "a key in double quotes is expected here; is there a comma too many before it?"},
    {"; expected ':'", "a colon is expected here, between key and value"},
    {"; expected '}'", "a comma or the closing } is expected here"},
    {"; expected ']'", "a comma or the closing ] is expected here"},
    {"; expected end of input", "the value ends before this; nothing may follow it"},
    {"invalid literal", "a value is expected here: a text in double quotes, a number, true, false, { or ["},
}};

}  // namespace

std::string syntax_words(std::string_view said) {
  // The text itself is quoted behind "last read"; it must not be taken for the parser's words.
  const std::string_view own = said.substr(0, said.find("; last read: '"));
  const std::size_t tail = said.rfind("'; expected ");
  const std::string_view expected = tail == std::string_view::npos ? std::string_view() : said.substr(tail + 1);
  for (const Row& row : rows) {
    if (own.find(row.said) != std::string_view::npos || expected.find(row.said) != std::string_view::npos) {
      return std::string(row.words);
    }
  }
  return "a value is expected here: a text in double quotes, a number, true, false, { or [; is there a comma too many?";
}

}  // namespace whichwire::json
