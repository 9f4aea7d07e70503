#include "scan/fold.hpp"

#include <algorithm>
#include <array>

#include "network/utf8.hpp"

namespace whichwire {

namespace {

constexpr std::string_view plain_ascii = "0123456789abcdefghijklmnopqrstuvwxyz";

/// U+00C0 to U+00FF without accents; German umlauts as people type them.
constexpr std::array<std::string_view, 64> latin{
    "a", "a", "a", "a", "ae", "a", "ae", "c", "e", "e", "e", "e", "i",  "i", "i",  "i",   //
    "d", "n", "o", "o", "o",  "o", "oe", "",  "o", "u", "u", "u", "ue", "y", "th", "ss",  //
    "a", "a", "a", "a", "ae", "a", "ae", "c", "e", "e", "e", "e", "i",  "i", "i",  "i",   //
    "d", "n", "o", "o", "o",  "o", "oe", "",  "o", "u", "u", "u", "ue", "y", "th", "y"};

std::string_view one_letter(char32_t letter) {
  if (letter >= U'0' && letter <= U'9') return plain_ascii.substr(letter - U'0', 1);
  if (letter >= U'a' && letter <= U'z') return plain_ascii.substr(10 + letter - U'a', 1);
  if (letter >= U'A' && letter <= U'Z') return plain_ascii.substr(10 + letter - U'A', 1);
  if (letter >= 0xC0 && letter <= 0xFF) return latin[letter - 0xC0];
  if (letter >= 0xFF01 && letter <= 0xFF5E) return one_letter(letter - 0xFF01 + U'!');  // full width
  return {};
}

bool invisible(char32_t code) {
  return code == 0xAD || code == 0xFEFF || code == 0x2060 || (code >= 0x200B && code <= 0x200F) ||
         (code >= 0x300 && code <= 0x36F);
}

bool between(char32_t code, char32_t low, char32_t high) { return code >= low && code <= high; }

/// Vertical and corner pieces of frames end a column; horizontal ones are rules.
Sign frame_sign(char32_t code) {
  constexpr std::array<char32_t, 8> horizontal{0x2500, 0x2501, 0x2504, 0x2505, 0x2508, 0x2509, 0x254C, 0x2550};
  return std::ranges::find(horizontal, code) != horizontal.end() ? Sign::rule : Sign::cell;
}

Sign sign_of(char32_t code) {
  if (code == U'\t' || code == U'|' || code == U';' || code == 0xFF5C || code == 0xA6) return Sign::cell;
  if (utf8::blank(code)) return Sign::blank;
  if (invisible(code)) return Sign::nothing;
  if (between(code, 0x2500, 0x257F)) return frame_sign(code);
  if (between(code, 0x2713, 0x2714) || code == 0x2705 || code == 0x2611) return Sign::yes;
  if (between(code, 0x2715, 0x2718) || code == 0x274C || code == 0x2612) return Sign::no;
  // Letters of other scripts keep their own bytes; punctuation, arrows, pictures and controls are no letters.
  const bool mark = code < 0xC0 || code == 0xD7 || code == 0xF7 || between(code, 0x2B9, 0x2BF) ||
                    between(code, 0x2C8, 0x2CB) || between(code, 0x2000, 0x2BFF) || between(code, 0x3000, 0x3003) ||
                    between(code, 0x3008, 0x3020) || between(code, 0xE000, 0xF8FF) || between(code, 0xFE00, 0xFE6F) ||
                    between(code, 0xFF00, 0xFFEF) || code >= 0x1F000;
  return mark ? Sign::other : Sign::letter;
}

}  // namespace

FoldedCharacter folded_at(std::string_view text, std::size_t at) {
  const utf8::Character character = utf8::at(text, at);
  const std::string_view bytes = text.substr(at, character.length);
  if (!character.valid) return {Sign::other, bytes, character.length};
  const std::string_view letter = one_letter(character.code);
  if (!letter.empty()) return {Sign::letter, letter, character.length};
  return {sign_of(character.code), bytes, character.length};
}

std::string folded_key(std::string_view text) {
  std::string key;
  for (std::size_t at = 0; at < text.size();) {
    const FoldedCharacter character = folded_at(text, at);
    if (character.sign == Sign::letter) key += character.as;
    at += character.length;
  }
  return key;
}

}  // namespace whichwire
