#include "fleet/recurring.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <map>
#include <whichwire/check.hpp>

#include "fleet/finding.hpp"
#include "fleet/numbers.hpp"

namespace whichwire {
namespace {

/// Groups that any fault of the set is in, each once.
std::vector<std::size_t> groups_hit(const Groups& groups, const Suspected& set) {
  std::vector<std::size_t> hit;
  for (const std::string& words : set.faults) {
    const auto found = groups.of_fault.find(words);
    if (found != groups.of_fault.end()) hit.insert(hit.end(), found->second.begin(), found->second.end());
  }
  std::ranges::sort(hit);
  hit.erase(std::unique(hit.begin(), hit.end()), hit.end());
  return hit;
}

double own_in(const Load& own, std::size_t group) {
  const auto found = std::ranges::lower_bound(own.groups, group, {}, &std::pair<std::size_t, double>::first);
  return found != own.groups.end() && found->first == group ? found->second : 0;
}

/// How much likelier the set is on this build than by the rates.
double factor_of(const Groups& groups, const Suspected& set, const Load& own, const Totals& totals) {
  const double strength = fleet_number("strength");
  double factor = 1;
  for (const std::size_t group : groups_hit(groups, set)) {
    if (groups.all[group].sort != Group::Sort::state) continue;
    const double found = std::max(0.0, totals.units[group] - own_in(own, group));
    const double expected = std::max(0.0, totals.faults - own.faults) * groups.all[group].share;
    factor *= (strength + found) / (strength + expected);
  }
  return factor;
}

std::vector<Fault> faults_in(const Network& network, const std::vector<std::string>& all) {
  std::vector<Fault> faults;
  for (const std::string& words : all) {
    const FaultResult read = parse_fault(network, words);
    if (read.fault) faults.push_back(*read.fault);
  }
  return faults;
}

/// The verdict of the sets as they now weigh; what is not among them is taken for no fault.
Verdict verdict_from(const Network& network, const UnitFinding& finding) {
  Ranking ranking;
  for (const std::string& id : finding.silent) {
    Observation seen{{Question::About::answers, index_of(network.modules, id), nowhere}, {}, "", true};
    if (seen.question.a != nowhere) ranking.evidence.push_back(std::move(seen));
  }
  double listed = 0;
  for (const Suspected& set : finding.suspected) {
    Explanation& explanation = ranking.explanations.emplace_back();
    explanation.probability = {set.probability, set.probability};
    explanation.faults = faults_in(network, set.faults);
    listed += set.probability;
  }
  Explanation& none = ranking.explanations.emplace_back();
  none.probability.low = std::max(0.0, 1 - std::max(finding.fault, listed));
  return verdict_of(network, ranking);
}

}  // namespace

Load load_of(const Groups& groups, const UnitFinding& finding) {
  std::map<std::size_t, double> sums;
  Load load;
  for (const Suspected& set : finding.suspected) {
    for (const std::size_t group : groups_hit(groups, set)) sums[group] += set.probability;
    for (const std::string& words : set.faults) load.faults += groups.of_fault.contains(words) ? set.probability : 0;
  }
  for (const auto& [group, sum] : sums) load.groups.emplace_back(group, std::min(1.0, sum));
  return load;
}

double binomial_tail(double trials, double share, double count) {
  if (count <= 0 || share >= 1) return 1;
  if (share <= 0 || count > trials + 1) return 0;
  // The incomplete beta function I_w(s, T - s + 1) is the tail at whole numbers: NIST DLMF 8.17.5.
  return boost::math::ibeta(count, std::max(trials - count + 1, 1e-9), share);
}

UnitFinding narrowed(const Build& build, const Groups& groups, const UnitFinding& finding, const Load& own,
                     const Totals& totals) {
  UnitFinding made = finding;
  double listed = 0, weighed = 0;
  for (Suspected& set : made.suspected) {
    listed += set.probability;
    set.probability *= factor_of(groups, set, own, totals);
    weighed += set.probability;
  }
  const double whole = weighed + std::max(0.0, 1 - listed);
  for (Suspected& set : made.suspected) set.probability = in_millionths(set.probability / whole);
  std::ranges::stable_sort(made.suspected, std::greater<>(), &Suspected::probability);
  made.fault = in_millionths(std::min(1.0, (weighed + std::max(0.0, finding.fault - listed)) / whole));
  made.verdict = verdict_from(build.network, made);
  made.verdict.probability = in_millionths(made.verdict.probability);
  made.verdict.headline_probability = in_millionths(made.verdict.headline_probability);
  made.narrowed = true;
  return made;
}

}  // namespace whichwire
