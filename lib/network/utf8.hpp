// UTF-8, character by character: what the readers count columns in and what may be shown on a screen.
// Source: RFC 3629 (well-formed sequences). Tested in tests/network/mistake_test.cpp.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace whichwire::utf8 {

/// One character of a text; an ill-formed byte is a character of length 1 that is not `valid`.
struct Character {
  char32_t code = 0;
  std::uint8_t length = 1;  ///< in bytes
  bool valid = true;
};

/// The character that begins at byte `at`, which lies inside `text`.
Character at(std::string_view text, std::size_t at);

/// Whether it can do harm when shown: controls, line separators, marks that turn the direction of writing.
bool harmful(char32_t code);

/// Whether it is white space of any kind.
bool blank(char32_t code);

/// Columns that it takes on a screen: 0, 1 or 2. Coarse: wide East Asian blocks and pictures take 2.
int columns_of(char32_t code);
std::size_t columns_of(std::string_view text);

/// Byte of the first ill-formed sequence, or npos.
std::size_t first_invalid(std::string_view text);

/// How many characters (code points) the text has.
std::size_t length(std::string_view text);

}  // namespace whichwire::utf8
