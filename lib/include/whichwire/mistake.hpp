// What is wrong with an input, and where. Every reader returns all mistakes of a file at once.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace whichwire {

/// One mistake in an input. `line` and `column` count from 1; 0 means that the place is not known.
struct Mistake {
  std::string file;
  std::size_t line = 0;
  std::size_t column = 0;   ///< in characters as seen on the screen, not in bytes
  std::string path;         ///< of the value, as in `buses.DRV.segments.DRV-2.from`; empty for the whole file
  std::string message;      ///< what is wrong and what would be right, one sentence without a full stop
  std::string source_line;  ///< the line as it stands in the file, control characters made harmless, cut when long
  std::size_t caret = 0;    ///< screen column of the place within `source_line`, from 1; 0: the same as `column`
};

/// `file:line:column: path: message`, the source line and a caret, each line ended by a line feed.
std::string text_of(const Mistake& mistake);

/// `text`, with control characters and invalid UTF-8 written as visible escapes, so that it can be printed.
std::string printable(std::string_view text);

/// The one of `known` that `word` was probably meant to be, or an empty string.
std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace whichwire
