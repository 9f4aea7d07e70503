// Functions of a vehicle as people speak of them: by id or name, in any form of the verb, and denied (`doesn't crank`,
// `the radio won't play`). Tested in tests/scan/functions.cpp.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>
#include <whichwire/network.hpp>

#include "scan/text_line.hpp"

namespace whichwire {

/// A word without the ending of a verb or plural: `cranks`, `cranking` and `crank` are alike.
std::string stem_of(std::string_view folded_word);

/// How many words from word `at` on deny what follows or stands before: `not`, `doesn't`, `no longer`; 0 for none.
std::size_t denial_at(const std::vector<Word>& words, std::size_t at);

class FunctionIndex {
 public:
  explicit FunctionIndex(const Network& network);

  /// The function that these stems, one after the other, name; `nowhere` for none.
  std::size_t find(const std::string& stems) const;

  struct Denied {
    std::size_t function = nowhere;
    std::size_t words = 0;
  };
  /// A function with a denial among its words, in the clause that goes on with word `first`: the longest.
  Denied denied(const std::vector<Word>& words, std::size_t first) const;

 private:
  std::unordered_map<std::string, std::size_t> by_stems_;
};

}  // namespace whichwire
