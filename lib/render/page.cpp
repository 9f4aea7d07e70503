#include "render/page.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

#include "network/utf8.hpp"

namespace whichwire::render {

namespace {

/// The longest beginning of `text` that takes at most `columns`, whole characters only and at least one.
std::size_t bytes_within(std::string_view text, std::size_t columns) {
  std::size_t at = 0;
  std::size_t taken = 0;
  while (at < text.size()) {
    const utf8::Character next = utf8::at(text, at);
    taken += static_cast<std::size_t>(utf8::columns_of(next.code));
    if (taken > columns && at > 0) break;
    at += next.length;
  }
  return at;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    if (end > at) words.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

/// Plain text has plain blanks, by which it can be searched.
void make_plain(std::string& line) {
  for (std::size_t at = 0; (at = line.find(draw::no_break_space, at)) != std::string::npos;)
    line.replace(at, draw::no_break_space.size(), " ");
}

/// Words into lines of at most `columns`; a word that is longer by itself is cut.
std::vector<std::string> wrapped(std::string_view text, std::size_t columns) {
  const std::string whole = draw::unbroken(text);
  std::vector<std::string> lines;
  std::string line;
  for (std::string_view word : words_of(whole)) {
    if (!line.empty() && utf8::columns_of(line) + 1 + utf8::columns_of(word) > columns)
      lines.push_back(std::exchange(line, ""));
    while (utf8::columns_of(word) > columns) {
      const std::size_t cut = bytes_within(word, columns);
      lines.emplace_back(word.substr(0, cut));
      word.remove_prefix(cut);
    }
    if (!line.empty()) line += ' ';
    line += word;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  std::ranges::for_each(lines, make_plain);
  return lines;
}

}  // namespace

void Page::heading(std::string_view text) {
  if (!page_.empty()) page_ += '\n';
  for (const std::string& line : wrapped(printable(text), std::max<std::size_t>(look_.width, 20)))
    page_.append(look_.colour ? "\x1b[1m" : "").append(line).append(look_.colour ? "\x1b[0m" : "").append("\n");
}

void Page::put(std::string first, std::size_t hanging, std::string_view text) {
  const std::size_t room = look_.width > hanging + 20 ? look_.width - hanging : 20;
  for (const std::string& line : wrapped(printable(text), room)) {
    page_.append(std::exchange(first, std::string(hanging, ' '))).append(line);
    while (!page_.empty() && page_.back() == ' ') page_.pop_back();
    page_ += '\n';
  }
}

void Page::text(std::size_t indent, std::string_view mark, std::string_view text) {
  put(std::string(indent, ' ').append(mark), indent + utf8::columns_of(mark), text);
}

void Page::list(std::size_t indent, std::string_view what, const std::vector<std::string>& words) {
  put(std::string(indent, ' '), indent + 2, std::string(what) + ": " + joined(words, ", "));
}

void Page::quote(std::size_t indent, std::string_view mark, std::string_view line) {
  const std::size_t before = indent + utf8::columns_of(mark);
  const std::size_t room = look_.width > before + 20 ? look_.width - before : 20;
  std::string whole = printable(line);
  if (utf8::columns_of(whole) > room) whole.replace(bytes_within(whole, room - 3), std::string::npos, "...");
  page_.append(std::string(indent, ' ')).append(mark).append(whole).append("\n");
}

std::string joined(const std::vector<std::string>& words, std::string_view last) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) all.append(i + 1 == words.size() ? last : std::string_view(", "));
    all += words[i];
  }
  return all;
}

std::string number(double value) {
  char digits[40];
  std::snprintf(digits, sizeof digits, "%.2f", value);
  std::string text = digits;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace whichwire::render
