// Readings as evidence: what each answer makes of the weights, which answers are doubtful, which were taken again.
// Tests: tests/planner/evidence.cpp.
#pragma once

#include "planner/forecast.hpp"

namespace whichwire {

/// An answer as the rest of the planner needs it.
struct Answered {
  std::string check, by;
  Weighed weighed;
  std::optional<std::size_t> outcome;  ///< of a check that is answered in words
  bool superseded = false;             ///< the same check was answered again
  bool not_done = false;               ///< it could not be done
};

struct Weighing {
  Suspects suspects;             ///< after all answers; weights sum to 1, `outside` on the same scale
  std::vector<double> at_first;  ///< probability of each repair before them, at the least
  std::vector<Answered> answers;
};

struct Bench {
  const Electrical& electrical;
  const Places& places;
  const std::vector<Prospect>& prospects;
  const PlannerNumbers& numbers;

  const Prospect* find(std::string_view check) const;
};

Weighing weigh(const Bench& bench, Suspects suspects, const std::vector<Taken>& taken, const Situation& now);

/// Weights by repair.
std::vector<double> by_repair(const Suspects& suspects);

}  // namespace whichwire
