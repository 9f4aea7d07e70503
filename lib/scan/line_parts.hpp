// Which part each module plays in its line: the one that is spoken of, the one that somebody misses, or a word of a
// code's description. The line is taken by itself; what stood before it is one answer: was a module being spoken of?
// Tested in tests/scan/pasted_scan.cpp and by every layout of tests/scan/layouts.
#pragma once

#include "scan/elements.hpp"

namespace whichwire {

enum class LinePart : std::uint8_t {
  none,
  subject,      ///< spoken of
  missed,       ///< somebody does not hear it
  sender,       ///< somebody speaks of its messages, which come
  description,  ///< a word of a code's text, or of prose
  same,         ///< a second name of the module named just before
};

struct Parts {
  std::vector<LineElement> elements;
  std::vector<LinePart> parts;  ///< beside the elements
};

/// `speaking`: an earlier line's module is still being spoken of.
Parts parts_of(const TextLine& line, std::vector<LineElement> elements, const Network& network, bool speaking);

/// A mark that parts a line: the end of a column, or `,` `:` `(` `)` `>` or a dash with blanks, before this word.
bool parted_before(const Word& word);

/// Words that may stand anywhere and say nothing by themselves.
bool says_nothing(const LineElement& element);

/// Whether the element is a word with letters in it that nothing is known about.
bool is_unknown_word(const LineElement& element);

}  // namespace whichwire
