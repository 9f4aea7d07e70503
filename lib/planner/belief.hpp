// What is held possible while tests are weighed: hypotheses that no test and no repair tells apart are one.
// Tests: tests/planner/test_choice.cpp.
#pragma once

#include <whichwire/test_choice.hpp>

namespace whichwire {

constexpr double rounding = 1e-9;  ///< relative; values that differ by less are equal

/// Equal for values that differ by rounding only, so that it may be sorted by.
double without_rounding(double value);

/// Weights by hypothesis, which sum to one; `outside` on the same scale.
struct Belief {
  std::vector<double> weights;
  double outside = 0;
  std::vector<char> done;  ///< by test
};

/// One outcome of a test.
struct Branch {
  double probability = 0;  ///< among what is listed
  Belief belief;
};

/// A problem without hypotheses of no weight, and with equal ones merged.
struct CompactProblem {
  TestProblem problem;
  Belief start;
  std::size_t repair_count = 0;
  bool crisp = true;                     ///< every test comes out for certain
  std::vector<std::size_t> repair_name;  ///< by repair: its number in the problem as it was put

  explicit CompactProblem(const TestProblem& whole);

  std::vector<double> by_repair(const Belief& belief) const;
  double entropy(const Belief& belief) const;
  /// Whether two hypotheses that need different repairs make it come out differently.
  bool useful(const Belief& belief, std::size_t test) const;
  /// Outcomes that may happen.
  std::vector<Branch> branches(const Belief& belief, std::size_t test) const;
  double gain(const Belief& belief, const std::vector<Branch>& branches) const;

  /// Probability at the least of the likeliest repair.
  double lead(const Belief& belief) const;
};

}  // namespace whichwire
