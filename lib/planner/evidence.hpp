// Readings as evidence: what each answer makes of the weights, which answers are doubtful, which were taken again.
// Tests: tests/planner/evidence.cpp.
#pragma once

#include <functional>

#include "planner/forecast.hpp"

namespace whichwire {

/// An answer as the rest of the planner needs it.
struct Answered {
  std::string check, by;
  Weighed weighed;
  std::optional<std::size_t> outcome;  ///< of a check that is answered in words
  bool repeats = false;                ///< the same check was answered before, with the same result
  bool not_done = false;               ///< it could not be done
  /// By suspect: share of the answer's likelihood that is no slip of the hand. Empty where taking it again tells
  /// nothing new: a look or a question errs the same way again, a probe beside its terminal does not.
  std::vector<double> fitting;
};

/// What is held possible before the answers, and by a ranking that some of them are in already.
struct Ranked {
  Suspects suspects;                 ///< by weights before all answers; `outside` after `answers`, on the same scale
  std::vector<std::size_t> answers;  ///< numbers of those in it, rising
};

struct Weighing {
  Suspects suspects;             ///< after all answers; weights sum to 1, `outside` on the same scale
  std::vector<double> at_first;  ///< probability that each repair is needed, before them, at the least
  std::vector<Answered> answers;
};

/// Whether anything was answered that counts.
bool measured(const Weighing& weighing);

/// By what the check is answered so that this holds of the answer: the first that counts and that no later one
/// contradicts. Empty: by none.
std::string answered_by(const Weighing& weighing, std::string_view check,
                        const std::function<bool(const Answered&)>& holds);

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

Weighing weigh(const Bench& bench, Ranked ranked, const std::vector<Taken>& taken, const Situation& now);

/// Chance that an answer that fits so far comes out the same once more: a slip seldom does.
double once_more(double fitting, const PlannerNumbers& numbers);

/// What suspects say about an answer; `outcome` becomes that of a check that is answered in words. `repeats`: it was
/// given before, and only tells a slip of the hand from what is there.
Says say_about(const Bench& bench, const Suspects& suspects, const Taken& taken, const Situation& now, bool repeats,
               std::optional<std::size_t>& outcome);

/// Weights by the repair that is to be done first.
std::vector<double> by_repair(const Suspects& suspects);

}  // namespace whichwire
