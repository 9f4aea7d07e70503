// A page of text: headings, wrapped paragraphs with a hanging indent, nothing wider than the look allows.
// Everything that goes onto it is made printable here, so no caller can forget it.
// Tests: tests/render/page.cpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>
#include <whichwire/render.hpp>

#include "draw/percent.hpp"

namespace whichwire::render {

class Page {
 public:
  explicit Page(const Look& look) : look_(look) {}

  /// A heading on a line of its own, after an empty line unless it is the first.
  void heading(std::string_view text);

  /// `mark` at `indent`, then `text` wrapped beside it; later lines stand under the text's beginning.
  void text(std::size_t indent, std::string_view mark, std::string_view text);

  void text(std::size_t indent, std::string_view words) { text(indent, "", words); }

  /// `what: ` and a list that may take several lines; later lines stand a little further in.
  void list(std::size_t indent, std::string_view what, const std::vector<std::string>& words);

  void blank() { page_ += '\n'; }

  /// A line of another's text, not wrapped but cut to the width, so that a long pasted line stays one line.
  void quote(std::size_t indent, std::string_view mark, std::string_view line);

  std::string take() { return std::move(page_); }

 private:
  /// `text` wrapped, `first` before its first line and blanks up to `hanging` before the others.
  void put(std::string first, std::size_t hanging, std::string_view text);

  Look look_;
  std::string page_;
};

/// `a`, `a and b`, `a, b and c`.
std::string joined(const std::vector<std::string>& words, std::string_view last = " and ");

using draw::percent;

/// `12.5`, `4`, never more than two digits after the point.
std::string number(double value);

}  // namespace whichwire::render
