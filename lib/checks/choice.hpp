// Which of many checks are listed: the best first, each by what it adds to those before it, so that the list is not one
// measurement in eight places. Tests: tests/checks/plan.cpp.
#pragma once

#include "checks/gain.hpp"

namespace whichwire {

/// A check that may be listed, with what it tells.
struct Option {
  Candidate candidate;
  Outcomes outcomes;
  double left = 0;  ///< bits that it adds to those chosen so far
  double seen = 0;  ///< mass of the sets of faults that it would see

  double minutes() const { return std::max(candidate.check.minutes, 0.1); }
};

/// The most promising options, best first.
std::vector<Option> options_of(std::vector<Candidate> candidates, const Hypotheses& hypotheses);

/// At most `most` checks. What must not be measured is refused aloud where it would be listed.
CheckPlan choose(std::vector<Option> options, const Hypotheses& hypotheses, std::size_t most);

}  // namespace whichwire
