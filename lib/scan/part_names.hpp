// Names cut short: `Body ... ok` for the body control module, `Heating` where one module's name says heating. Such
// words name a module only where a line has them in the place of a name, and where they fit one module; those that fit
// several are told as ambiguous. Tested in tests/scan/part_names.cpp.
#pragma once

#include "scan/elements.hpp"
#include "scan/paste.hpp"

namespace whichwire {

/// The names, aliases, roles and trade names of a network, word by word.
class PartNames {
 public:
  explicit PartNames(const Network& network);

  /// The modules that words of a name may mean: the one whose own name they are but for `module` and its like, else all
  /// that have them in one of their names. None where they are all like `front` or `power`, which tell nobody.
  std::vector<NameHit> find(std::string_view name) const;

 private:
  struct Name {
    std::vector<std::string> words;
    std::size_t module;
    bool own;  ///< not only one that modules of its role have
  };
  void add(std::string_view name, std::size_t module, bool own);

  std::vector<Name> names_;
  std::unordered_map<std::string, std::vector<std::size_t>> by_word_;
};

/// Whether something is said below the line of number `at` by lines that name nobody: in the next, or further down
/// among those that are indented below it.
bool told_below(const std::vector<SourceLine>& lines, std::size_t at);

/// Makes modules of the words that name one in part, line by line.
void mark_part_names(std::vector<SourceLine>& lines, const Network& network);

}  // namespace whichwire
