// Characters made comparable: letter case, accents, umlauts, width and odd blanks do not matter when names are
// compared. Tested in tests/scan/fold.cpp.
#pragma once

#include <string>
#include <string_view>

namespace whichwire {

/// What one character is in a line of text.
enum class Sign : std::uint8_t {
  letter,   ///< of a word, digits included
  nothing,  ///< invisible: joins what stands on both sides
  blank,
  cell,   ///< tab, bar, semicolon, vertical frame lines: ends a column
  rule,   ///< horizontal frame lines
  yes,    ///< a tick
  no,     ///< a cross
  other,  ///< punctuation, bullets
};

struct FoldedCharacter {
  Sign sign = Sign::other;
  std::string_view as;  ///< plain ASCII where there is one, `ae` for an umlaut; else the character's own bytes
  std::size_t length = 1;
};

/// The character at byte `at` of `text`.
FoldedCharacter folded_at(std::string_view text, std::size_t at);

/// All letters and digits of `text`, folded, nothing between: `Body-Control Module` and `BODYCONTROLMODULE` are alike.
std::string folded_key(std::string_view text);

}  // namespace whichwire
