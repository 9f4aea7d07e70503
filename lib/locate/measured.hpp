// The ranking once something was measured: readings as further observations of the search.
// Tested by tests/locate/measured.cpp.
#pragma once

#include <array>
#include <span>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// One reading, as far as single faults go: of a set the worst level counts, as of any observation.
struct Measured {
  std::array<double, level_count> log_likelihood{};  ///< natural log of P(read | level)
  std::vector<Level> levels;                         ///< by fault, in the order of the catalogue: what it alone gives
};

/// The exact ranking over a scan and these readings.
Ranking locate_measured(const Effects& effects, const std::vector<Fault>& faults, const Scan& scan,
                        const LocateOptions& options, std::span<const Measured> readings);

}  // namespace whichwire
