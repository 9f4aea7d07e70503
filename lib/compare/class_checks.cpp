#include "compare/class_checks.hpp"

#include <algorithm>
#include <map>

#include "checks/build.hpp"
#include "checks/collector.hpp"
#include "checks/hypotheses.hpp"
#include "compare/numbers.hpp"

namespace whichwire {
namespace {

/// As it is while it is there: a check sees nothing of a fault that has gone.
Fault while_there(Fault fault) {
  fault.comes_and_goes = false;
  return fault;
}

std::uint32_t outcomes_of(const Candidate& candidate, const std::vector<Fault>& present) {
  const Sight sight = candidate.sees(present);
  std::uint32_t outcomes = 1U << sight.outcome;
  if (sight.share < 1) outcomes |= 1U;
  if (sight.or_else > 0) outcomes |= 1U << sight.or_else;
  return outcomes;
}

bool may_be_measured(const Candidate& candidate) {
  return std::none_of(candidate.hazards.begin(), candidate.hazards.end(), refused);
}

}  // namespace

std::vector<std::size_t> repairs_of(const Network& network, const std::vector<Fault>& faults) {
  std::map<std::string, std::size_t> numbers = {{"", 0}};
  std::vector<std::size_t> repairs;
  for (const Fault& fault : faults) {
    const std::string repair = fault.kind == FaultKind::not_fitted ? "" : repair_of(network, fault);
    repairs.push_back(numbers.try_emplace(repair, numbers.size()).first->second);
  }
  return repairs;
}

ClassChecks checks_for(const Network& network, const std::vector<Fault>& faults, bool and_none) {
  const Scan scan;
  const Job job{network, scan};
  Collector collector(job);
  for (const Fault& fault : faults) collector.add_for(while_there(fault));
  ClassChecks all;
  all.table.repair = repairs_of(network, faults);
  all.table.shows.resize(faults.size());
  if (and_none) {
    all.table.repair.push_back(0);
    all.table.shows.emplace_back();
  }
  const double sure = compare_number("sure-check");
  for (Candidate& candidate : collector.candidates) {
    if (candidate.kind->seen < sure || !may_be_measured(candidate) || candidate.outcomes.size() > 32) continue;
    for (std::size_t f = 0; f < faults.size(); ++f)
      all.table.shows[f].push_back(outcomes_of(candidate, {while_there(faults[f])}));
    if (and_none) all.table.shows.back().push_back(outcomes_of(candidate, {}));
    all.table.minutes.push_back(candidate.check.minutes);
    all.checks.push_back(std::move(candidate.check));
  }
  return all;
}

}  // namespace whichwire
