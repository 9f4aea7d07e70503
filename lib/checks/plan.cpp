// From a ranking to checks: suspects, what they call for, what that would tell, in the order of bits about the repair
// per minute. Tests: tests/checks/plan.cpp.
#include <algorithm>

#include "checks/choice.hpp"
#include "checks/collector.hpp"
#include "checks/look_checks.hpp"
#include "locate/coarse.hpp"

namespace whichwire {
namespace {

using Weights = std::vector<std::pair<Fault, double>>;

void add_weight(Weights& weights, Fault fault, double weight) {
  fault.odds = 0;  // the same fault, present or passing
  const auto known =
      std::find_if(weights.begin(), weights.end(), [&](const auto& each) { return each.first == fault; });
  if (known == weights.end()) {
    weights.emplace_back(fault, weight);
  } else {
    known->second += weight;
  }
}

/// The faults worth a check of their own, the likeliest first.
std::vector<Fault> suspects_of(const Hypotheses& hypotheses) {
  Weights weights;
  for (const Hypothesis& set : hypotheses.sets) {
    for (const Fault& fault : set.present) add_weight(weights, fault, set.weight);
    for (const auto& alone : set.passing) add_weight(weights, alone[0], set.weight);
  }
  std::stable_sort(weights.begin(), weights.end(),
                   [](const auto& a, const auto& b) { return coarse(a.second) > coarse(b.second); });
  const double least = knowledge().limit("least-suspicion") * hypotheses.listed();
  std::vector<Fault> suspects;
  for (const auto& [fault, weight] : weights) {
    if (weight >= least) suspects.push_back(fault);
  }
  return suspects;
}

}  // namespace

CheckPlan plan_checks(const Effects& effects, const std::vector<Fault>&, const Ranking& ranking, const Scan& scan) {
  const Job job{effects.network(), scan};
  const Hypotheses hypotheses = hypotheses_of(job.network, ranking);
  Collector collector(job);
  for (const Fault& fault : suspects_of(hypotheses)) collector.add_for(fault);
  collector.add_general(hypotheses);

  auto most = static_cast<std::size_t>(knowledge().limit("most-checks"));
  const bool battery_first = battery_was_low(scan);
  if (battery_first) --most;
  CheckPlan plan = choose(options_of(std::move(collector.candidates), hypotheses), hypotheses, most);
  if (battery_first) plan.checks.insert(plan.checks.begin(), battery_check(job).check);
  return plan;
}

}  // namespace whichwire
