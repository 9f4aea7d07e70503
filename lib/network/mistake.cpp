// A mistake as a person reads it: place, path, sentence, the line, and a caret under the place.
// Tested in tests/network/mistake_test.cpp and by every golden file of tests/bad.
#include <whichwire/mistake.hpp>

#include "network/utf8.hpp"

namespace whichwire {

namespace {

void append_hex(std::string& out, char32_t code, int digits) {
  constexpr std::string_view letters = "0123456789abcdef";
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
    out += letters[(code >> static_cast<unsigned>(shift)) & 0xfU];
}

void append_escape(std::string& out, const utf8::Character& character) {
  if (character.valid && character.code == '\n') {
    out += "\\n";
  } else if (character.valid && character.code == '\t') {
    out += "\\t";
  } else if (character.code < 0x100) {
    out += character.valid && character.code >= 0x80 ? "\\u00" : "\\x";
    append_hex(out, character.code, 2);
  } else {
    out += character.code > 0xffff ? "\\U" : "\\u";
    append_hex(out, character.code, character.code > 0xffff ? 8 : 4);
  }
}

}  // namespace

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const utf8::Character character = utf8::at(text, i);
    if (!character.valid || utf8::harmful(character.code)) {
      append_escape(out, character);
    } else {
      out.append(text.substr(i, character.length));
    }
    i += character.length;
  }
  return out;
}

std::string text_of(const Mistake& mistake) {
  std::string out = printable(mistake.file);
  if (mistake.line > 0) out += ":" + std::to_string(mistake.line) + ":" + std::to_string(mistake.column);
  out += ": ";
  if (!mistake.path.empty()) out += printable(mistake.path) + ": ";
  out += printable(mistake.message) + "\n";
  if (mistake.line == 0) return out;
  const std::size_t caret = mistake.caret > 0 ? mistake.caret : mistake.column;
  out += "  " + printable(mistake.source_line) + "\n";
  out += "  " + std::string(caret > 0 ? caret - 1 : 0, ' ') + "^\n";
  return out;
}

}  // namespace whichwire
