#include "scan/decode.hpp"

#include "network/utf8.hpp"

namespace whichwire {

namespace {

void put(std::string& out, char32_t code) {
  const auto tail = [&](unsigned shift) { out += static_cast<char>(0x80U | ((code >> shift) & 0x3FU)); };
  if (code < 0x80) {
    out += static_cast<char>(code);
  } else if (code < 0x800) {
    out += static_cast<char>(0xC0U | (code >> 6U));
    tail(0);
  } else if (code < 0x10000) {
    out += static_cast<char>(0xE0U | (code >> 12U));
    tail(6);
    tail(0);
  } else {
    out += static_cast<char>(0xF0U | (code >> 18U));
    tail(12);
    tail(6);
    tail(0);
  }
}

std::string from_utf16(std::string_view bytes, bool little) {
  std::string out;
  const auto unit = [&](std::size_t at) {
    const auto a = static_cast<unsigned char>(bytes[at]);
    const auto b = static_cast<unsigned char>(bytes[at + 1]);
    return static_cast<char32_t>(little ? a | b << 8U : b | a << 8U);
  };
  for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
    char32_t code = unit(at);
    const bool high = code >= 0xD800 && code < 0xDC00 && at + 3 < bytes.size();
    const char32_t low = high ? unit(at + 2) : 0;
    if (high && low >= 0xDC00 && low < 0xE000) {
      code = 0x10000 + ((code - 0xD800) << 10U) + (low - 0xDC00);
      at += 2;
    }
    put(out, code >= 0xD800 && code < 0xE000 ? char32_t{0xFFFD} : code);
  }
  return out;
}

}  // namespace

std::string decoded(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return from_utf16(bytes.substr(2), true);
  if (bytes.starts_with("\xFE\xFF")) return from_utf16(bytes.substr(2), false);
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  if (utf8::first_invalid(bytes) == std::string_view::npos) return std::string(bytes);
  std::string out;
  for (std::size_t at = 0; at < bytes.size();) {
    const utf8::Character character = utf8::at(bytes, at);
    if (character.valid)
      out.append(bytes.substr(at, character.length));
    else
      put(out, static_cast<unsigned char>(bytes[at]));
    at += character.length;
  }
  return out;
}

}  // namespace whichwire
