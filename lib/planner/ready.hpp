// A job made ready, and what is remembered of it between answers: the ranking, drawn up anew where it left too much
// outside, and every check that a ranking called for. Tests: tests/planner/simulated_jobs.cpp.
#pragma once

#include "planner/anew.hpp"

namespace whichwire {

struct Planner::Ready {
  const Effects& effects;
  Scan scan;
  PlannerNumbers numbers;
  LocateOptions options;
  Job job;
  Meter meter;
  Ranked ranked;  ///< by the scan alone
  Places places;
  std::vector<Prospect> prospects;

  Ready(const Effects& its, const Ranking& ranking, const Scan& taken, const PlannerNumbers& table,
        const LocateOptions& how);
  Ready(const Ready&) = delete;
  Ready& operator=(const Ready&) = delete;
  Ready(Ready&&) = delete;
  Ready& operator=(Ready&&) = delete;
  ~Ready() = default;

  Bench bench() const { return {meter, places, prospects, numbers}; }

  Weighing weigh_all(const std::vector<Taken>& taken, const Situation& now);

 private:
  // Once it was ranked anew.
  std::optional<SingleFaults> singles_;
  std::optional<std::vector<Taken>> in_it_;  ///< the answers up to the last time
  std::optional<Ranked> anew_;               ///< by some of these; none: nothing left less outside than the scan alone
  double left_outside_ = 0;

  /// What was left out is all that stands between the likeliest repair and its proof.
  bool all_that_stands(const Suspects& suspects) const;
  /// That, or more than `rank-anew`.
  bool leaves_too_much(const Suspects& suspects) const;
  /// Where it could not be brought below, not again for each answer: when it has grown, or is all that stands between a
  /// repair and its proof.
  bool worth_ranking(const Suspects& suspects, const std::vector<Taken>& taken) const;
  /// What is outside is a share of what single faults promise; where sets keep less than that, it has to be finer.
  /// Returns what leaves least outside, be it what is known.
  Weighing weigh_anew(const Weighing& known, const std::vector<Taken>& taken, const Situation& now);
  void add_prospects(const Suspects& suspects);
};

}  // namespace whichwire
