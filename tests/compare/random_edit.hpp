// One random edit of a network, with the difference that it must be found as.
#pragma once

#include <optional>
#include <string>
#include <whichwire/compare.hpp>

#include "differential/random_network.hpp"

namespace whichwire::test {

struct Edit {
  std::string name;  ///< of the sort of edit
  Difference::Sort sort = Difference::Sort::changed;
  Difference::Kind kind = Difference::Kind::module;
  std::string part, what;
  bool changes_wiring = false;  ///< it may change what a scan shows, or which faults there are
  std::string after;            ///< what the part is called afterwards; empty: the same
};

/// nullopt where the network has nothing that the edit drawn can be made on.
std::optional<Edit> random_edit(Dice& dice, Network& network);

/// How many sorts of edits there are.
std::size_t count_of_edits();

}  // namespace whichwire::test
