// Hexadecimal digits, as trouble codes, failure types and status bytes are written in. Tested in tests/scan/code.cpp.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace whichwire {

constexpr int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

/// Nothing but one to eight hexadecimal digits.
constexpr std::optional<std::uint32_t> parse_hex(std::string_view text) {
  if (text.empty() || text.size() > 8) return std::nullopt;
  std::uint32_t value = 0;
  for (const char c : text) {
    const int digit = hex_digit(c);
    if (digit < 0) return std::nullopt;
    value = value * 16 + static_cast<std::uint32_t>(digit);
  }
  return value;
}

/// Upper case, padded with zeros on the left.
inline std::string hex_text(std::uint32_t value, int digits) {
  constexpr std::string_view letters = "0123456789ABCDEF";
  std::string text;
  for (int i = digits - 1; i >= 0; --i) text += letters[(value >> (4U * static_cast<unsigned>(i))) & 0xFU];
  return text;
}

/// Nothing but one to nine decimal digits.
constexpr std::optional<std::uint32_t> parse_decimal(std::string_view text) {
  if (text.empty() || text.size() > 9) return std::nullopt;
  std::uint32_t value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + static_cast<std::uint32_t>(c - '0');
  }
  return value;
}

}  // namespace whichwire
