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
  bool superseded = false;             ///< the same check was answered again, with another result
  bool repeats = false;                ///< the same check was answered before, with the same result
  bool not_done = false;               ///< it could not be done
  /// By suspect: probability that the same would come out once more. Empty where taking it again tells nothing new: a
  /// look or a question errs the same way again, a probe beside its terminal does not.
  std::vector<double> once_more;
};

struct Weighing {
  Suspects suspects;             ///< after all answers; weights sum to 1, `outside` on the same scale
  std::vector<double> at_first;  ///< probability that each repair is needed, before them, at the least
  std::vector<Answered> answers;
};

struct Bench {
  const Meter& meter;
  const Places& places;
  const std::vector<Prospect>& prospects;
  const PlannerNumbers& numbers;

  const Prospect* find(std::string_view check) const;
};

/// Asking a module or scanning again at another time is new evidence: what comes and goes may have been there
/// meanwhile.
bool told_anew(std::string_view check);

Weighing weigh(const Bench& bench, Suspects suspects, const std::vector<Taken>& taken, const Situation& now);

/// Weights by the repair that is to be done first.
std::vector<double> by_repair(const Suspects& suspects);

}  // namespace whichwire
