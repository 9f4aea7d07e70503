// What each suspect says about a reading: before it is taken as chances of ranges that the meter can tell apart, and
// afterwards as a likelihood. Tests: tests/planner/trade_rules.cpp.
#pragma once

#include "planner/predicted.hpp"
#include "planner/prospects.hpp"

namespace whichwire {

/// One suspect's say: likelihood, and the share of it that is its own and not a slip of the probe.
struct Say {
  double likelihood = 1, fitting = 1;
};

/// All suspects' say about one answer.
struct Says {
  bool understood = false;
  std::vector<Say> by_suspect;
  Say whole;            ///< with nothing wrong
  double anything = 0;  ///< likelihood where nothing is known
};

class ReadingForecast {
 public:
  ReadingForecast(const Meter& meter, const Suspects& suspects, const PlannerNumbers& numbers)
      : meter_(meter), suspects_(suspects), numbers_(numbers) {}

  Says of_reading(const Measurement& how, const Reading& reading) const;
  Says of_outcome(const Candidate& candidate, std::size_t outcome) const;

  /// What the meter shows with nothing wrong.
  std::optional<Interval> if_good(const Measurement& how) const;

  /// P(outcome) by suspect, before it is done; empty where nothing can be said.
  std::vector<std::vector<double>> chances(const Prospect& prospect, const Situation& now) const;

 private:
  std::vector<std::vector<double>> lamp_chances(const Measurement& how) const;
  std::vector<std::vector<double>> cell_chances(const Measurement& how) const;

  const Meter& meter_;
  const Suspects& suspects_;
  const PlannerNumbers& numbers_;
};

/// Which outcome of the check a reading without a prediction of its own means; nullopt: none.
std::optional<std::size_t> outcome_of(const Candidate& candidate, const Reading& reading);

/// By name or label.
std::optional<std::size_t> outcome_called(const Candidate& candidate, std::string_view words);

}  // namespace whichwire
