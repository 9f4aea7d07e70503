// One line of pasted text as words: folded, with what stands between them, and cut into columns where it has any.
// Tested in tests/scan/text_line.cpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace whichwire {

struct Word {
  std::string text;                ///< folded; a tick is `yes`, a cross `no`; a number keeps its points and commas
  std::size_t begin = 0, end = 0;  ///< bytes in the line
  std::size_t plain = 0;           ///< where it begins in `TextLine::plain`
  std::string gap;                 ///< what stands before it: blanks, `\t` for the end of a column, punctuation
  bool capitals = false;           ///< written in capitals
  std::size_t column = 0;          ///< which column of the line it stands in, empty ones counted

  bool ends_cell_before() const;  ///< a column ends in the gap before it
  bool tight() const { return gap.empty(); }
  bool after(char mark) const { return gap.find(mark) != std::string::npos; }
};

struct TextLine {
  std::string_view raw;
  std::string plain;  ///< folded words and plain gaps: what codes are read from
  std::vector<Word> words;
  std::string tail;  ///< what stands behind the last word
  std::size_t columns = 1;
  bool shouting = false;  ///< no small letter in it
  bool indented = false;
  std::size_t indent = 0;  ///< blanks before the first word

  bool blank() const { return words.empty() && rule_like && tail.find_first_not_of(' ') == std::string::npos; }
  bool rule() const { return words.empty() && rule_like && !blank(); }
  bool rule_like = true;  ///< nothing in it but blanks and marks that people draw lines with

  /// The raw text of the words from `first` to `last`.
  std::string_view slice(std::size_t first, std::size_t last) const;
  /// The same, with the quote or bracket that closes one opened inside.
  std::string_view closed_slice(std::size_t first, std::size_t last) const;
};

TextLine text_line(std::string_view raw);

/// Nothing but digits, with points, commas, colons, dashes or slashes between.
bool is_number(std::string_view word);

}  // namespace whichwire
