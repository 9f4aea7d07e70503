// A module that the network does not know, at the beginning of a line that says something of it.
// Tested in tests/scan/pasted_scan.cpp.
#pragma once

#include "scan/line_parts.hpp"

namespace whichwire {

struct Stranger {
  std::size_t first = 0, last = 0;  ///< elements that are its name
};

/// What a line says beside the name.
struct SaidBeside {
  bool code = false;
  bool answer = false;       ///< plainly, that somebody answers or does not
  bool weak_answer = false;  ///< `ok`, or a number of codes
};

/// The name that the line begins with, nullopt where those words are none.
std::optional<Stranger> stranger_in(const TextLine& line, const std::vector<LineElement>& elements, SaidBeside said);

/// Words that nothing is known about at the head of a line, parted from a code behind them; nullopt: none.
std::optional<Stranger> head_before_code(const TextLine& line, const std::vector<LineElement>& elements);

}  // namespace whichwire
