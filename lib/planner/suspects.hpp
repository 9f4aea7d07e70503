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
  std::vector<std::size_t> needs;  ///< the repair of each of its faults, in the order of `faults_in`; `nowhere`: none
  std::size_t repair = 0;          ///< which of them is to be done first; see `choose_repairs`
  Hypothesis set;                  ///< as the checks see it
  std::vector<Variant> variants;   ///< as a meter sees it; shares sum to 1
  std::size_t load = nowhere;      ///< of a pulled-down reference: in this load
  std::string load_name;
  bool passing() const { return set.present.empty() && !set.passing.empty(); }
};

struct Suspects {
  std::vector<Suspect> all;
  std::vector<std::string> repairs;  ///< the first is that of nothing: no name
  double outside = 0;
};

/// Those there now, and those that come and go.
std::vector<Fault> faults_in(const Suspect& suspect);

/// Those of them that its repair is about.
std::vector<Fault> faults_to_repair(const Suspect& suspect);

/// What is to be made good of one of its faults: of a module that feeds back the pin that it lost.
Fault to_make_good(const Suspect& suspect, const Fault& fault);

/// Of several faults one is repaired first, and the vehicle scanned again: the one that is most surely there, and what
/// is there now before what comes and goes, which nobody can measure. So every suspect takes, of the repairs it needs,
/// the one that most weight needs. Beside a part that is proven, others that may be there as well are no rivals.
void choose_repairs(Suspects& suspects);

/// By repair: weight of all that need it, whatever else they need.
std::vector<double> by_need(const Suspects& suspects);

Suspects suspects_of(const Network& network, const Ranking& ranking, const PlannerNumbers& numbers);

}  // namespace whichwire
