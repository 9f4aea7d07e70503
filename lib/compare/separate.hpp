// The cheapest set of checks that tells faults apart: a set cover of pairs, exact by branch and bound, cut short after
// a number of steps with a proven bound. Tests: tests/compare/separating.cpp against clasp.
#pragma once

#include <cstdint>
#include <vector>

namespace whichwire {

/// What each check may show under each fault, as a set of outcomes.
struct OutcomeTable {
  std::vector<double> minutes;                    ///< by check
  std::vector<std::vector<std::uint32_t>> shows;  ///< by fault and check
  std::vector<std::size_t> repair;                ///< by fault: equal numbers need no telling apart
};

struct Cheapest {
  std::vector<std::size_t> checks;  ///< rising
  double minutes = 0, at_least = 0;
};

/// Whether the check shows different things for the two faults, for sure.
bool tells_apart(const OutcomeTable& table, std::size_t check, std::size_t one, std::size_t other);

Cheapest cheapest_checks(const OutcomeTable& table);

}  // namespace whichwire
