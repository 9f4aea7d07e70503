// A module that the network does not know, at the beginning of a line that says something of it.
// Tested in tests/scan/pasted_scan.cpp.
#pragma once

#include "scan/line_parts.hpp"

namespace whichwire {

struct Stranger {
  std::size_t first = 0, last = 0;  ///< elements that are its name
};

/// `coded`: the line has a code; `answered`: it says plainly that somebody answers or does not.
std::optional<Stranger> stranger_in(const TextLine& line, const std::vector<LineElement>& elements, bool coded,
                                    bool answered);

}  // namespace whichwire
