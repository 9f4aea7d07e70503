// What may be wrong, as fine as a meter can tell it: sets of faults with weights, a pulled-down reference by each of
// its loads or its wire, an open supply as nothing or a bad contact, a fault that comes and goes as there or not.
// Tests: tests/planner/trade_rules.cpp.
#pragma once

#include <whichwire/planner.hpp>

#include "checks/hypotheses.hpp"

namespace whichwire {

/// One way in which a suspect may stand while one measures.
struct Variant {
  double share = 1;
  std::vector<PresentFault> faults;
};

struct Suspect {
  double weight = 0;
  std::size_t repair = 0;
  Hypothesis set;                 ///< as the checks see it
  std::vector<Variant> variants;  ///< as a meter sees it; shares sum to 1
  std::size_t load = nowhere;     ///< of a pulled-down reference: in this load
  std::string load_name;
  bool passing() const { return set.present.empty() && !set.passing.empty(); }
};

struct Suspects {
  std::vector<Suspect> all;
  std::vector<std::string> repairs;
  double outside = 0;
};

/// Those there now, and those that come and go.
std::vector<Fault> faults_in(const Suspect& suspect);

Suspects suspects_of(const Network& network, const Ranking& ranking, const PlannerNumbers& numbers);

}  // namespace whichwire
