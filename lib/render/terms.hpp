// The words of the trade that a step may use, explained. The table is terms.csv. Tests: tests/cli/guide.cpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace whichwire::render {

struct Term {
  std::vector<std::string> words;  ///< how it stands in a sentence; the first is its name
  std::string explains;
};

/// Those that the text uses, in the order of the table.
std::vector<Term> terms_in(std::string_view text);

}  // namespace whichwire::render
