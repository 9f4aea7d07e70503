// The tree of tests with the fewest expected minutes, found exactly: depth-first branch and bound over the AND/OR graph
// of beliefs, each belief solved once. The bounds are those of Pattipati and Alexandridis ("Application of heuristic
// search and information theory to sequential fault diagnosis", IEEE Trans. SMC 20, 1990): bits left by the most that a
// minute of any test can tell. Tests: tests/planner/test_choice.cpp.
#pragma once

#include <memory>
#include <optional>

#include "planner/belief.hpp"

namespace whichwire {

struct BestTree {
  std::size_t test = nowhere;  ///< nowhere: nothing is to be done
  double minutes = 0;
};

/// Beliefs that were solved for one call are known to the next.
class TreeSearch {
 public:
  TreeSearch(const CompactProblem& compact, const TestLimits& limits);
  ~TreeSearch();
  TreeSearch(const TreeSearch&) = delete;
  TreeSearch& operator=(const TreeSearch&) = delete;

  /// Nothing where more states would have to be opened, all calls together, than the limits allow.
  std::optional<BestTree> from(const Belief& belief);

 private:
  class Search;
  std::unique_ptr<Search> search_;
};

}  // namespace whichwire
