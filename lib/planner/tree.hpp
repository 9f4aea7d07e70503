// The tree of tests with the fewest expected minutes, found exactly: depth-first branch and bound over the AND/OR graph
// of beliefs, each belief solved once. The bounds are those of Pattipati and Alexandridis ("Application of heuristic
// search and information theory to sequential fault diagnosis", IEEE Trans. SMC 20, 1990): bits left by the most that a
// minute of any test can tell. Tests: tests/planner/test_choice.cpp.
#pragma once

#include <optional>

#include "planner/belief.hpp"

namespace whichwire {

struct BestTree {
  std::size_t test = nowhere;  ///< nowhere: nothing is to be done
  double minutes = 0;
};

/// Nothing where more states would have to be opened than allowed.
std::optional<BestTree> best_tree(const CompactProblem& compact, const TestLimits& limits);

}  // namespace whichwire
