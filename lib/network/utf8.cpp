#include "network/utf8.hpp"

namespace whichwire::utf8 {

namespace {

struct Range {
  char32_t first, last;
};

template <std::size_t N>
bool within(const Range (&ranges)[N], char32_t code) {
  for (const Range& range : ranges) {
    if (code >= range.first && code <= range.last) return true;
  }
  return false;
}

constexpr Range harmful_ranges[] = {{0x00, 0x1f},     {0x7f, 0x9f},     {0x061c, 0x061c}, {0x200e, 0x200f},
                                    {0x2028, 0x202e}, {0x2066, 0x2069}, {0xfff9, 0xfffb}, {0xe0000, 0xe007f}};
constexpr Range blank_ranges[] = {{0x09, 0x0d},     {0x20, 0x20},     {0x85, 0x85},     {0xa0, 0xa0},
                                  {0x1680, 0x1680}, {0x2000, 0x200a}, {0x2028, 0x2029}, {0x202f, 0x202f},
                                  {0x205f, 0x205f}, {0x3000, 0x3000}};
constexpr Range narrowest_ranges[] = {
    {0x0300, 0x036f}, {0x200b, 0x200d}, {0x20d0, 0x20ff}, {0xfe00, 0xfe0f}, {0xfeff, 0xfeff}};
constexpr Range wide_ranges[] = {{0x1100, 0x115f}, {0x2e80, 0x303e},   {0x3041, 0xa4cf},
                                 {0xac00, 0xd7a3}, {0xf900, 0xfaff},   {0xfe30, 0xfe6f},
                                 {0xff00, 0xff60}, {0x1f300, 0x1faff}, {0x20000, 0x3fffd}};

/// Length that a first byte announces, 0 when it cannot be one.
std::uint8_t announced(unsigned char first) {
  if (first < 0x80) return 1;
  if (first < 0xc2) return 0;
  if (first < 0xe0) return 2;
  if (first < 0xf0) return 3;
  if (first < 0xf5) return 4;
  return 0;
}

}  // namespace

Character at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
  const Character ill_formed{byte(0), 1, false};
  const std::uint8_t size = announced(byte(0));
  if (size == 1) return {byte(0), 1, true};
  if (size == 0 || text.size() - at < size) return ill_formed;
  char32_t code = byte(0) & (0x7fU >> size);
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) return ill_formed;
    code = (code << 6U) | (byte(i) & 0x3fU);
  }
  const bool overlong = (size == 3 && code < 0x800) || (size == 4 && code < 0x10000);
  const bool surrogate = code >= 0xd800 && code <= 0xdfff;
  if (overlong || surrogate || code > 0x10ffff) return ill_formed;
  return {code, size, true};
}

bool harmful(char32_t code) {
  if (code >= 0x20 && code < 0x7f) return false;  // nearly always
  return within(harmful_ranges, code);
}

bool blank(char32_t code) {
  if (code > 0x20 && code < 0x7f) return false;
  return within(blank_ranges, code);
}

int columns_of(char32_t code) {
  if (code < 0x300) return 1;
  if (within(narrowest_ranges, code)) return 0;
  return within(wide_ranges, code) ? 2 : 1;
}

std::size_t columns_of(std::string_view text) {
  std::size_t taken = 0;
  for (std::size_t i = 0; i < text.size();) {
    const Character character = at(text, i);
    taken += static_cast<std::size_t>(columns_of(character.code));
    i += character.length;
  }
  return taken;
}

std::size_t first_invalid(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    if (static_cast<unsigned char>(text[i]) < 0x80) {
      ++i;
      continue;
    }
    const Character character = at(text, i);
    if (!character.valid) return i;
    i += character.length;
  }
  return std::string_view::npos;
}

std::size_t length(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); i += at(text, i).length) ++count;
  return count;
}

}  // namespace whichwire::utf8
