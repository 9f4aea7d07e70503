// Rates of faults from jobs that are closed and proven: what failed, against what the rates so far let expect.
#pragma once

#include <span>
#include <string>
#include <vector>
#include <whichwire/casefile.hpp>
#include <whichwire/fault.hpp>

namespace whichwire {

struct LearnedRate {
  std::string what;   ///< the row of the table
  double before = 0;  ///< odds
  double after = 0;
  std::size_t found = 0;  ///< in so many of the cases
  double expected = 0;    ///< in so many by the rates before
};

struct LearnedRates {
  std::vector<LearnedRate> rows;         ///< in the table's order, those that any of the cases could show
  std::size_t cases = 0;                 ///< learned from
  std::vector<std::string> passed_over;  ///< the others, each `file: why`
};

/// Nothing is learned from a case that is not closed, whose repair no reading proves, or whose last scan shows a fault.
LearnedRates learn_rates(std::span<const Case> cases, const Rates& prior = default_rates());

}  // namespace whichwire
