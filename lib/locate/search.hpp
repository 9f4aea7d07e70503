// The exact search: every set of candidates whose mass matters, factored, with a proven bound on all others.
//
// The sets are split by their first member in order of promise, so each is looked at once; what stays independent is
// searched apart and multiplied; candidates that nothing observed depends on any more are summed out exactly; a subtree
// is left out when a bound on its whole mass is small, and that bound goes into the certificate. The idea of bounding
// absolute posteriors from partial hypotheses is Henrion's (1991); the rest is proved in DEVELOPERS.md, "The search and
// its certificate". Judged by tests/differential (plain enumeration, clingo, toulbar2) and tests/reference/textbook_*.
#pragma once

#include "locate/tree.hpp"

namespace whichwire::search {

struct Effort {
  double outside = 1e-4;   ///< wanted: mass not found, as a share of the mass found that counts
  double not_counted = 0;  ///< of the mass of the empty set, which is 1
  /// Of all rounds together, counted in candidates looked at and pairs of minors: about a quarter of a microsecond
  /// each. Beyond it the best bound so far stands, and says so. Where that is nearly as wanted, a quarter is all.
  std::size_t most_work = 20'000'000;
  std::size_t most_spared = 8'000'000'000;  ///< steps of `Spares`
};

struct Found {
  std::unique_ptr<Both> root;  ///< masses relative to the empty set
  std::size_t work = 0;
  bool done = false;  ///< the certificate is as wanted
};

/// Searches until the certificate is as wanted or the work is spent; where most is left out then, a little longer for
/// the heaviest sets of the most promising candidates. The true mass lies in [exp(low), exp(low) * (1 + slack)] of the
/// root.
Found search(const Problem& problem, const Effort& effort = {});

/// Searches once, keeping every subtree that may hold more than exp(threshold).
Found search_above(const Problem& problem, double threshold, std::size_t most_work = 4'000'000'000);

/// Log weight of a good set, found greedily: a lower bound of the best.
double greedy_log_weight(const Problem& problem);

}  // namespace whichwire::search
