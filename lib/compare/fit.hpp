// How well each of two networks accounts for a scan: the probability of the scan under the network, all sets of faults
// summed, as the search finds it with its certificate. What only one network knows of the scan counts in both: a module
// that answers and that the other does not have, a code that the other does not understand.
// Tests: tests/compare/fit.cpp against plain enumeration.
#pragma once

#include <whichwire/compare.hpp>

namespace whichwire {

constexpr std::size_t most_work_of_fit = 4'000'000;  ///< units of the search's work, for each network

struct ComparedSide {
  const Effects& effects;
  const std::vector<Fault>& faults;
  const Scan& scan;  ///< read against this network
};

/// `options`: of the ranking behind the verdict under each.
Fits fits_of(const ComparedSide& a, const ComparedSide& b, const LocateOptions& options = {});

}  // namespace whichwire
