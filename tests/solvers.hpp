// A plain problem of the search core (no candidates that act together) in the words of independent solvers: as an
// answer set program for gringo and clasp, as a weighted CSP for toulbar2, as weighted MaxSAT for either. Used by
// tests/peers and tests/bench.
//
// Solvers count in integers. Every weight is taken in whole thousandths of a nat, so a problem whose logs are such
// thousandths is passed on exactly, and its costs can be compared without any tolerance.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "locate/problem.hpp"

namespace whichwire::test {

using Cost = std::int64_t;

/// Costs of candidates, and of observations that reach a level: step by step, for each level that a candidate raises
/// to.
struct CostModel {
  struct Step {
    std::vector<search::Candidate> causes;  ///< any of them takes the step
    Cost cost = 0;                          ///< of taking it after those below; may be negative
  };
  std::vector<Cost> candidate;
  std::vector<Step> steps;
  Cost least = 0;  ///< sum of all negative costs: no set costs less

  /// Of a set, against the empty set, which costs 0.
  Cost cost_of(const std::vector<search::Candidate>& set) const;
};

CostModel model_of(const search::Problem& problem);

std::string answer_set_program(const CostModel& model);
std::string weighted_csp(const CostModel& model);  ///< toulbar2's `wcsp`
std::string weighted_maxsat(const CostModel& model);

struct SolvedSet {
  Cost cost = 0;  ///< against the empty set
  std::vector<search::Candidate> members;
};

struct Solved {
  std::vector<SolvedSet> sets;  ///< cheapest first; sets of equal cost by their members
  double seconds = 0;           ///< processor time, as the solver itself reports
  bool proved = false;          ///< the solver says that it has finished
};

/// The cheapest set, by gringo and clasp with core-guided search.
Solved best_by_clasp(const CostModel& model);

/// Every set that costs at most `most`, by toulbar2.
Solved all_by_toulbar2(const CostModel& model, Cost most);

/// The same from weighted MaxSAT files, as the published comparison has it; with gringo's part already done.
Solved all_by_toulbar2_maxsat(const CostModel& model, Cost most);
Solved best_by_clasp_maxsat(const CostModel& model);
Solved all_by_clasp_maxsat(const CostModel& model, Cost most);

}  // namespace whichwire::test
