// A network, its faults and the evidence of a scan as a problem for the search.
// Tested by tests/differential against plain enumeration.
#pragma once

#include <memory>
#include <whichwire/findings.hpp>

#include "locate/measured.hpp"
#include "locate/problem.hpp"

namespace whichwire {

struct NetworkProblem {
  search::Problem problem;
  std::vector<std::size_t> faults;       ///< by candidate: index into the faults given
  std::shared_ptr<Predictor> predictor;  ///< used by the problem's own rule
};

/// `faults` must outlive the result. A fault that comes and goes is a candidate only if something seen speaks for it:
/// one that left no trace cannot be told from none and keeps its odds. The readings follow the evidence as
/// observations.
NetworkProblem problem_of(const Effects& effects, const std::vector<Fault>& faults,
                          const std::vector<Observation>& evidence, const Circumstances& circumstances,
                          std::span<const Measured> readings = {});

}  // namespace whichwire
