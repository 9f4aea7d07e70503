// The plain reference for the ranking: every set of the given faults, weighed one by one.
// Weight of a set = product of its faults' odds, times the likelihood of each observation at the level that
// plain_predict gives it. Nothing is pruned, merged or factored, and no code of lib/locate is used.
// Page 2 of the model, "Ranking, exactly". Tested in plain_locate_test.cpp.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire::test {

/// A set of the faults given: bit i is fault i.
using FaultSet = std::uint32_t;

struct WeighedSet {
  FaultSet faults = 0;
  double log_weight = 0;      ///< natural log of odds times likelihoods, not normalised
  std::vector<Level> levels;  ///< of each observation
};

struct PlainRanking {
  std::vector<WeighedSet> sets;   ///< heaviest first
  double log_total = 0;           ///< of all sets listed
  std::vector<double> marginals;  ///< of each fault: probability of the sets that have it
  double probability(const WeighedSet& set) const;
};

constexpr std::size_t every_size = std::numeric_limits<std::size_t>::max();

/// All sets of at most `most_faults` of the faults; at most 24 faults. With `every_size` nothing is left out. The
/// weight of no fault is taken times `no_fault`.
PlainRanking plain_locate(const Network& network, std::span<const Fault> faults, std::span<const Observation> evidence,
                          const Circumstances& circumstances, std::size_t most_faults = every_size,
                          double no_fault = 1);

}  // namespace whichwire::test
