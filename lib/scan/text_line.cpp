#include "scan/text_line.hpp"

#include <algorithm>
#include <array>

#include "network/utf8.hpp"
#include "scan/fold.hpp"

namespace whichwire {

namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

/// A mark of the gap as one plain character.
char plain_mark(const FoldedCharacter& character, char32_t code) {
  if (character.sign == Sign::blank) return ' ';
  if (character.sign == Sign::cell) return '\t';
  if (character.sign == Sign::rule) return '-';
  if ((code >= 0x2010 && code <= 0x2015) || code == 0x2212) return '-';
  if (code >= 0x2190 && code <= 0x21FF) return '>';
  if (code == 0x2026) return '.';
  return code > 0x20 && code < 0x7F ? static_cast<char>(code) : '*';
}

bool drawn(char mark) { return std::string_view(" \t-=_*~.+#>:'\"`^<").find(mark) != std::string_view::npos; }

/// `2026-03-02` before a `T`.
bool is_date(std::string_view word) {
  constexpr std::string_view pattern = "0000-00-00";
  if (word.size() != pattern.size()) return false;
  for (std::size_t i = 0; i < word.size(); ++i)
    if ((pattern[i] == '0') != digit(word[i]) || (pattern[i] == '-' && word[i] != '-')) return false;
  return true;
}

class Cutter {
 public:
  explicit Cutter(std::string_view raw) { line_.raw = raw; }

  TextLine cut() {
    const std::string_view raw = line_.raw;
    for (std::size_t at = 0; at < raw.size();) {
      const FoldedCharacter character = folded_at(raw, at);
      switch (character.sign) {
        case Sign::letter:
          at = take_word(at);
          break;
        case Sign::yes:
        case Sign::no:
          open(at);
          line_.words.back().text = character.sign == Sign::yes ? "yes" : "no";
          at += character.length;
          close(at);
          break;
        case Sign::nothing:
          at += character.length;
          break;
        default:
          take_mark(character, utf8::at(raw, at).code);
          at += character.length;
      }
    }
    line_.tail = gap_;
    line_.indent = std::min(raw.find_first_not_of(" \t"), raw.size());
    line_.indented = line_.indent > 0;
    line_.shouting = letters_seen_ && !small_seen_;
    count_columns();
    return std::move(line_);
  }

 private:
  void take_mark(const FoldedCharacter& character, char32_t code) {
    const char mark = plain_mark(character, code);
    const bool frame = character.sign == Sign::cell || character.sign == Sign::rule;
    if (!frame && !drawn(mark)) line_.rule_like = false;
    if (mark == '"' && gap_.ends_with("\",")) {  // `"ECM","no"`: quoted columns
      gap_.resize(gap_.size() - 2);
      gap_ += '\t';
      return;
    }
    gap_ += mark;
  }

  void open(std::size_t at) {
    Word word;
    word.gap = std::move(gap_);
    gap_.clear();
    word.begin = at;
    line_.plain += word.gap;
    word.plain = line_.plain.size();
    line_.words.push_back(std::move(word));
  }

  void close(std::size_t end) {
    Word& word = line_.words.back();
    word.end = end;
    line_.plain += word.text;
  }

  /// A word, or a number with its points: whichever begins here. Returns where it ends.
  std::size_t take_word(std::size_t at) {
    open(at);
    Word& word = line_.words.back();
    bool number = true;
    bool capitals = true;
    while (at < line_.raw.size()) {
      const FoldedCharacter character = folded_at(line_.raw, at);
      if (character.sign == Sign::letter) {
        const bool figure = character.as.size() == 1 && digit(character.as[0]);
        const bool pointed = number && !figure && word.text.find_first_of(".,:/-") != std::string::npos;
        const bool clock = (line_.raw[at] == 'T' || line_.raw[at] == 't') && is_date(word.text);
        if (pointed && !clock) break;
        if (!figure && !clock) number = false;
        note_case(at, character, capitals);
        word.text += character.as;
      } else if (character.sign != Sign::nothing) {
        if (!number || !joins_digits(at)) break;
        word.text += line_.raw[at];
      }
      at += character.length;
    }
    word.capitals = capitals && !number;
    close(at);
    return at;
  }

  void note_case(std::size_t at, const FoldedCharacter& character, bool& capitals) {
    const char first = line_.raw[at];
    if (digit(first)) return;
    letters_seen_ = true;
    const bool capital = character.length == 1 && first >= 'A' && first <= 'Z';
    const bool small = character.length == 1 && first >= 'a' && first <= 'z';
    if (small) small_seen_ = true;
    if (!capital) capitals = false;
  }

  /// A point, comma, colon, slash or dash between digits; behind all but points and commas the digits run to their end,
  /// so that `87:2F` stays two words.
  bool joins_digits(std::size_t at) const {
    const std::string_view raw = line_.raw;
    const bool mark = std::string_view(".,:/-").find(raw[at]) != std::string_view::npos;
    if (!mark || at == 0 || !digit(raw[at - 1]) || at + 1 >= raw.size() || !digit(raw[at + 1])) return false;
    if (raw[at] == '.' || raw[at] == ',') return true;
    std::size_t end = at + 1;
    while (end < raw.size() && digit(raw[end])) ++end;
    return end == raw.size() || folded_at(raw, end).sign != Sign::letter ||
           std::string_view("TtZzh").find(raw[end]) != std::string_view::npos;
  }

  /// Bars and tabs count one by one, so that an empty column keeps its place; else runs of blanks end columns. The bars
  /// of a frame around the line are no ends of columns.
  void count_columns() {
    const auto marks = [](std::string_view gap) { return static_cast<std::size_t>(std::ranges::count(gap, '\t')); };
    std::vector<Word>& words = line_.words;
    if (words.empty()) return;
    const bool framed =
        std::any_of(words.begin() + 1, words.end(), [&](const Word& word) { return marks(word.gap) > 0; });
    const std::size_t outside = line_.raw.find_first_not_of(' ');
    const bool frame = framed && line_.raw[outside] != '\t' && marks(words.front().gap) > 0;
    std::size_t column = framed ? marks(words.front().gap) - (frame ? 1 : 0) : 0;
    for (Word& word : words) {
      const bool first = &word == &words.front();
      if (!first && framed)
        column += marks(word.gap);
      else if (!first && word.ends_cell_before())
        ++column;
      word.column = column;
    }
    const std::size_t behind = framed ? marks(line_.tail) : 0;
    line_.columns = column + 1 + behind - (frame && behind > 0 ? 1 : 0);
  }

  TextLine line_;
  std::string gap_;
  bool letters_seen_ = false, small_seen_ = false;
};

}  // namespace

bool Word::ends_cell_before() const {
  return gap.find('\t') != std::string::npos || gap.find("  ") != std::string::npos;
}

std::string_view TextLine::slice(std::size_t first, std::size_t last) const {
  return raw.substr(words[first].begin, words[last].end - words[first].begin);
}

std::string_view TextLine::closed_slice(std::size_t first, std::size_t last) const {
  const std::string_view text = slice(first, last);
  const std::size_t end = words[last].end;
  const char next = end < raw.size() ? raw[end] : ' ';
  const bool quote = next == '"' && std::ranges::count(text, '"') % 2 == 1;
  const bool bracket = next == ')' && std::ranges::count(text, '(') > std::ranges::count(text, ')');
  return quote || bracket ? raw.substr(words[first].begin, end + 1 - words[first].begin) : text;
}

TextLine text_line(std::string_view raw) { return Cutter(raw).cut(); }

bool is_number(std::string_view word) {
  return !word.empty() && std::ranges::all_of(word, [](char c) {
    return digit(c) || std::string_view(".,:/-").find(c) != std::string_view::npos;
  });
}

}  // namespace whichwire
