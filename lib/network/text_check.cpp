#include "network/text_check.hpp"

#include <algorithm>

#include "network/utf8.hpp"

namespace whichwire::json {

namespace {

bool control(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte < 0x20 && letter != '\t' && letter != '\n' && letter != '\r';
}

/// Where the comment at `from` is over; `from` itself when it is never closed.
std::size_t behind_comment(std::string_view text, std::size_t from) {
  const bool to_line_end = text[from + 1] == '/';
  const std::string_view close = to_line_end ? "\n" : "*/";
  const std::size_t end = text.find(close, from + 2);
  if (end != std::string_view::npos) return end + close.size();
  return to_line_end ? text.size() : from;
}

}  // namespace

bool readable(std::string_view text, std::uint32_t source, Complaints& complaints, std::size_t most_bytes) {
  if (text.size() > most_bytes) {
    complaints.add_whole(source,
                         "the text is larger than " + std::to_string(most_bytes) + " bytes; it is too large to read");
    return false;
  }
  if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff")) {
    complaints.add_whole(source, "the text is UTF-16, not UTF-8; save it as UTF-8");
    return false;
  }
  const std::size_t invalid = utf8::first_invalid(text);
  if (invalid != std::string_view::npos) {
    complaints.add({source, static_cast<std::uint32_t>(invalid)}, std::string(),
                   "the byte " + in_quotes(text.substr(invalid, 1)) + " is not UTF-8; save the text as UTF-8");
    return false;
  }
  const auto found = std::find_if(text.begin(), text.end(), control);
  if (found == text.end()) return true;
  const auto offset = static_cast<std::size_t>(found - text.begin());
  complaints.add({source, static_cast<std::uint32_t>(offset)}, std::string(),
                 "the control character " + in_quotes(text.substr(offset, 1)) + " does not belong in a text file");
  return false;
}

std::size_t behind_blanks(std::string_view text, std::size_t from) {
  while (from < text.size()) {
    const char letter = text[from];
    if (letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r') {
      ++from;
    } else if (letter == '/' && from + 1 < text.size() && (text[from + 1] == '/' || text[from + 1] == '*')) {
      const std::size_t behind = behind_comment(text, from);
      if (behind == from) break;
      from = behind;
    } else {
      break;
    }
  }
  return from;
}

std::size_t token_start(std::string_view text, std::size_t from) {
  if (from == 0 && text.starts_with("\xef\xbb\xbf")) from = 3;
  from = behind_blanks(text, from);
  while (from < text.size() && (text[from] == ',' || text[from] == ':')) from = behind_blanks(text, from + 1);
  return from;
}

std::size_t number_end(std::string_view text, std::size_t start) {
  const auto one_of = [&](std::size_t at, std::string_view letters) {
    return at < text.size() && letters.find(text[at]) != std::string_view::npos;
  };
  const auto behind_digits = [&](std::size_t at) {
    while (one_of(at, "0123456789")) ++at;
    return at;
  };
  std::size_t at = one_of(start, "-") ? start + 1 : start;
  at = one_of(at, "0") ? at + 1 : behind_digits(at);
  if (one_of(at, ".")) at = behind_digits(at + 1);
  if (!one_of(at, "eE")) return at;
  return behind_digits(one_of(at + 1, "+-") ? at + 2 : at + 1);
}

}  // namespace whichwire::json
