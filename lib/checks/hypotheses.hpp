// The ranking as weighted sets of faults, grouped by the repair that they need: what a check has to tell apart.
// Tests: tests/checks/hypotheses.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// One set of faults that may be there.
struct Hypothesis {
  double weight = 0;                        ///< probability
  std::size_t repair = 0;                   ///< sets with the same number need the same repair
  std::vector<Fault> present;               ///< there while one measures
  std::vector<std::vector<Fault>> passing;  ///< comes and goes, each alone as it is on its occasion
};

struct Hypotheses {
  std::vector<Hypothesis> sets;      ///< likeliest first
  std::vector<std::string> repairs;  ///< in words, by number
  double neutral = 0;                ///< mass that no check is expected to move: outside, and the least likely sets
  double listed() const { return 1 - neutral; }
};

/// The lower end of an explanation's interval (what lies outside the list makes up the rest), shared among its alike
/// sets in proportion to the product of their odds. The least likely sets, beyond `most` or a thousandth of the mass
/// listed (or `least` of it), go to `neutral`.
Hypotheses hypotheses_of(const Network& network, const Ranking& ranking, std::size_t most = 300, double least = 1e-3);

/// The shares of an explanation's sets: first `faults`, then `alike` in order.
std::vector<double> shares_of(const Explanation& explanation);

}  // namespace whichwire
