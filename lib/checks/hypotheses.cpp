// See hypotheses.hpp. Tests: tests/checks/hypotheses.cpp.
#include "checks/hypotheses.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <unordered_map>

#include "locate/coarse.hpp"

namespace whichwire {
namespace {

double odds_product(const std::vector<Fault>& faults) {
  return std::accumulate(faults.begin(), faults.end(), 1.0,
                         [](double product, const Fault& fault) { return product * fault.odds; });
}

/// The jobs of a set in a fixed order; benign states need none.
std::string repairs_of(const Network& network, const std::vector<Fault>& faults) {
  std::set<std::string> jobs;
  for (const Fault& fault : faults) {
    if (fault.kind != FaultKind::not_fitted) jobs.insert(repair_of(network, fault));
  }
  std::string all;
  for (const std::string& job : jobs) all += (all.empty() ? "" : " + ") + job;
  return all;
}

struct Weighted {
  double weight;
  const std::vector<Fault>* faults;
};

std::vector<Weighted> weighted_sets(const Ranking& ranking) {
  std::vector<Weighted> sets;
  for (const Explanation& explanation : ranking.explanations) {
    const double mass = explanation.probability.low;
    const std::vector<double> shares = shares_of(explanation);
    sets.push_back({mass * shares[0], &explanation.faults});
    for (std::size_t i = 0; i < explanation.alike.size(); ++i) {
      sets.push_back({mass * shares[i + 1], &explanation.alike[i]});
    }
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const Weighted& a, const Weighted& b) { return coarse(a.weight) > coarse(b.weight); });
  return sets;
}

Hypothesis hypothesis_of(const Weighted& set, std::size_t repair) {
  Hypothesis made{set.weight, repair, {}, {}};
  for (const Fault& fault : *set.faults) {
    if (!fault.comes_and_goes) {
      made.present.push_back(fault);
      continue;
    }
    made.passing.push_back({fault});
    made.passing.back()[0].comes_and_goes = false;
  }
  return made;
}

}  // namespace

std::vector<double> shares_of(const Explanation& explanation) {
  std::vector<double> shares = {odds_product(explanation.faults)};
  for (const auto& set : explanation.alike) shares.push_back(odds_product(set));
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) share = sum > 0 ? share / sum : 1.0 / static_cast<double>(shares.size());
  return shares;
}

Hypotheses hypotheses_of(const Network& network, const Ranking& ranking, std::size_t most, double least) {
  Hypotheses all;
  std::unordered_map<std::string, std::size_t> numbers;
  const std::vector<Weighted> sets = weighted_sets(ranking);
  const double listed =
      std::accumulate(sets.begin(), sets.end(), 0.0, [](double sum, const Weighted& set) { return sum + set.weight; });
  double kept = 0;
  for (const Weighted& set : sets) {
    if (all.sets.size() == most || set.weight <= 0 || listed - kept < least * listed) break;
    const auto [found, added] = numbers.emplace(repairs_of(network, *set.faults), all.repairs.size());
    if (added) all.repairs.push_back(found->first);
    all.sets.push_back(hypothesis_of(set, found->second));
    kept += set.weight;
  }
  all.neutral = std::clamp(1.0 - kept, 0.0, 1.0);
  return all;
}

}  // namespace whichwire
