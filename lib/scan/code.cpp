// Trouble codes as written and as sent. Two bytes: two bits for the letter (P, C, B, U), two for the first digit, then
// three hexadecimal digits; a third byte is the failure type (SAE J2012 / ISO 15031-6; SAE J1939-73 for SPN and FMI).
// Tested in tests/scan/code.cpp and tests/reference/j2012.cpp.
#include <whichwire/code.hpp>

#include "scan/hex.hpp"
#include "scan/read_code.hpp"

namespace whichwire {

namespace {

constexpr std::string_view letters = "PCBU";
constexpr std::uint32_t largest_spn = 0x7FFFF;
constexpr std::uint32_t largest_fmi = 31;

bool is_alphanumeric(char c) { return hex_digit(c) >= 0 || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

/// Reads on a text from left to right.
struct Cursor {
  std::string_view text;
  std::size_t at = 0;

  bool done() const { return at >= text.size(); }
  char peek() const { return done() ? '\0' : text[at]; }

  void skip(std::string_view any_of) {
    while (!done() && any_of.find(text[at]) != std::string_view::npos) ++at;
  }
  bool word(std::string_view wanted) {
    if (text.size() - at < wanted.size()) return false;
    for (std::size_t i = 0; i < wanted.size(); ++i)
      if (upper(text[at + i]) != wanted[i]) return false;
    at += wanted.size();
    return true;
  }
  std::optional<std::uint32_t> number() {
    const std::size_t from = at;
    while (!done() && text[at] >= '0' && text[at] <= '9') ++at;
    return parse_decimal(text.substr(from, at - from));
  }
};

/// `-87`, `:87` or `87` right behind a code, when it ends there.
std::optional<std::uint8_t> failure_type(Cursor& cursor) {
  Cursor ahead = cursor;
  if (ahead.peek() == '-' || ahead.peek() == ':') ++ahead.at;
  const std::string_view digits = ahead.text.substr(ahead.at, 2);
  const auto value = digits.size() == 2 ? parse_hex(digits) : std::nullopt;
  ahead.at += 2;
  if (!value || is_alphanumeric(ahead.peek())) return std::nullopt;
  cursor = ahead;
  return static_cast<std::uint8_t>(*value);
}

std::optional<CodeRead> read_lettered(std::string_view text) {
  const std::size_t letter = text.empty() ? letters.size() : letters.find(upper(text[0]));
  if (letter >= letters.size() || text.size() < 5 || text[1] < '0' || text[1] > '3') return std::nullopt;
  const auto number = parse_hex(text.substr(1, 4));
  if (!number) return std::nullopt;
  Code code{letters[letter], *number, std::nullopt};
  Cursor cursor{text, 5};
  code.detail = failure_type(cursor);
  if (is_alphanumeric(cursor.peek())) return std::nullopt;
  return CodeRead{code, cursor.at};
}

/// `0xC100`, `0xC10087`.
std::optional<CodeRead> read_bytes(std::string_view text) {
  Cursor cursor{text};
  if (!cursor.word("0X")) return std::nullopt;
  while (hex_digit(cursor.peek()) >= 0) ++cursor.at;
  const std::size_t digits = cursor.at - 2;
  const auto value = parse_hex(text.substr(2, digits));
  if (!value || is_alphanumeric(cursor.peek()) || (digits != 4 && digits != 6)) return std::nullopt;
  const std::uint32_t two = digits == 6 ? *value >> 8U : *value;
  Code code{letters[two >> 14U], two & 0x3FFFU, std::nullopt};
  if (digits == 6) code.detail = static_cast<std::uint8_t>(*value & 0xFFU);
  return CodeRead{code, cursor.at};
}

/// `SPN 639 FMI 9`, `SPN639-9`, `spn: 639, fmi: 9`; the FMI may be missing.
std::optional<CodeRead> read_spn(std::string_view text) {
  Cursor cursor{text};
  if (!cursor.word("SPN")) return std::nullopt;
  cursor.skip(" :=#.\t");
  const auto spn = cursor.number();
  if (!spn || *spn > largest_spn || is_alphanumeric(cursor.peek())) return std::nullopt;
  CodeRead read{{'S', *spn, std::nullopt}, cursor.at};
  const bool tight = cursor.peek() == '-' || cursor.peek() == '/' || cursor.peek() == '.' || cursor.peek() == ':';
  cursor.skip(" :/,;.|-\t");
  const bool named = cursor.word("FMI");
  if (!named && !tight) return read;
  if (named) cursor.skip(" :=#.\t");
  const auto fmi = cursor.number();
  if (!fmi || *fmi > largest_fmi || is_alphanumeric(cursor.peek())) return read;
  read.code.detail = static_cast<std::uint8_t>(*fmi);
  read.length = cursor.at;
  return read;
}

}  // namespace

std::optional<CodeRead> read_code(std::string_view text) {
  if (const auto read = read_lettered(text)) return read;
  if (const auto read = read_spn(text)) return read;
  return read_bytes(text);
}

std::optional<Code> parse_code(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == std::string_view::npos) return std::nullopt;
  text = text.substr(from, text.find_last_not_of(blanks) - from + 1);
  const auto read = read_code(text);
  if (!read || read->length != text.size()) return std::nullopt;
  return read->code;
}

std::string text_of(const Code& code) {
  if (code.letter == 'S') {
    const std::string fmi = code.detail ? " FMI " + std::to_string(*code.detail) : "";
    return "SPN " + std::to_string(code.number) + fmi;
  }
  const std::string type = code.detail ? "-" + hex_text(*code.detail, 2) : "";
  return code.letter + hex_text(code.number, 4) + type;
}

std::optional<std::uint32_t> bytes_of(const Code& code) {
  const std::size_t letter = letters.find(code.letter);
  if (letter == std::string_view::npos || code.number > 0x3FFFU) return std::nullopt;
  const std::uint32_t two = static_cast<std::uint32_t>(letter) << 14U | code.number;
  return code.detail ? two << 8U | *code.detail : two;
}

}  // namespace whichwire
