#include "render/markup.hpp"

#include <cmath>
#include <whichwire/mistake.hpp>

#include "network/utf8.hpp"

namespace whichwire::render {

namespace {

/// The two characters that no control is and that XML forbids all the same.
bool forbidden(char32_t code) { return code == 0xfffe || code == 0xffff; }

}  // namespace

std::string escaped_markup(std::string_view text) {
  const std::string safe = printable(text);
  std::string out;
  for (std::size_t i = 0; i < safe.size();) {
    const utf8::Character character = utf8::at(safe, i);
    switch (character.code) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out.append(forbidden(character.code) ? std::string_view("\ufffd")
                                             : std::string_view(safe).substr(i, character.length));
    }
    i += character.length;
  }
  return out;
}

std::string coordinate(double value) {
  const long tenths = std::lround(value * 10);
  std::string text = tenths < 0 ? "-" : "";
  const long size = std::labs(tenths);
  text += std::to_string(size / 10);
  if (size % 10 != 0) text += "." + std::to_string(size % 10);
  return text;
}

}  // namespace whichwire::render
