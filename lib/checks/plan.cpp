// The order of the checks: expected bits about the repair per minute, best first. Greedy, one check ahead; near-optimal
// up to a log factor where readings do not lie (Golovin, Krause and Ray, arXiv 1010.3091). Tests:
// tests/checks/plan.cpp.
#include <algorithm>
#include <map>
#include <set>

#include "checks/bench.hpp"
#include "checks/look_checks.hpp"

namespace whichwire {
namespace {

/// The faults worth a check of their own, the likeliest first.
std::vector<Fault> suspects_of(const Hypotheses& hypotheses) {
  std::vector<std::pair<Fault, double>> weights;
  for (const Hypothesis& set : hypotheses.sets) {
    for (const auto* faults : {&set.present, &set.passing}) {
      for (Fault fault : *faults) {
        fault.odds = 0;  // the same fault present or passing
        const auto known =
            std::find_if(weights.begin(), weights.end(), [&](const auto& each) { return each.first == fault; });
        if (known == weights.end()) {
          weights.emplace_back(fault, set.weight);
        } else {
          known->second += set.weight;
        }
      }
    }
  }
  std::stable_sort(weights.begin(), weights.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  std::vector<Fault> suspects;
  for (const auto& [fault, weight] : weights) {
    if (weight >= knowledge().limit("least-suspicion")) suspects.push_back(fault);
  }
  return suspects;
}

/// Takes out what must not be measured, with the reason, each part once.
std::vector<Refused> refuse(std::vector<Candidate>& candidates) {
  std::vector<Refused> all;
  const auto forbidden = [&](const Candidate& candidate) {
    const auto hazard = std::find_if(candidate.hazards.begin(), candidate.hazards.end(), refused);
    if (hazard == candidate.hazards.end()) return false;
    const std::string& part = candidate.check.part;
    const bool known = std::any_of(all.begin(), all.end(), [&](const Refused& each) { return each.what == part; });
    if (!known) all.push_back({part, knowledge().caution("refuse:" + *hazard).text});
    return true;
  };
  std::erase_if(candidates, forbidden);
  return all;
}

double worth(const Check& check) { return check.gain_bits / std::max(check.minutes, 0.1); }

bool before(const Candidate& a, const Candidate& b) {
  const double left = worth(a.check), right = worth(b.check);
  if (left != right) return left > right;
  if (a.check.minutes != b.check.minutes) return a.check.minutes < b.check.minutes;
  return a.check.id < b.check.id;
}

/// The best, with no two at one place and not many at one plug.
std::vector<Check> choose(const std::vector<Candidate>& ordered, std::size_t most) {
  std::vector<Check> chosen;
  std::set<std::string> places;
  std::map<std::string, std::size_t> plugs;
  const double least = knowledge().limit("least-gain-bits");
  const auto most_a_plug = static_cast<std::size_t>(knowledge().limit("most-checks-a-plug"));
  for (const Candidate& candidate : ordered) {
    if (chosen.size() == most) break;
    if (candidate.check.gain_bits < least) continue;
    if (!candidate.plug.empty() && plugs[candidate.plug] == most_a_plug) continue;
    if (!candidate.place.empty() && !places.insert(candidate.place).second) continue;
    if (!candidate.plug.empty()) ++plugs[candidate.plug];
    chosen.push_back(candidate.check);
  }
  return chosen;
}

}  // namespace

CheckPlan plan_checks(const Effects& effects, const std::vector<Fault>&, const Ranking& ranking, const Scan& scan) {
  const Job job{effects.network(), scan};
  const Hypotheses hypotheses = hypotheses_of(job.network, ranking);
  Bench bench(job);
  for (const Fault& fault : suspects_of(hypotheses)) bench.add_for(fault);
  bench.add_general(hypotheses);

  CheckPlan plan;
  plan.refused = refuse(bench.candidates);
  for (Candidate& candidate : bench.candidates) candidate.check.gain_bits = gain_bits(candidate, hypotheses);
  std::sort(bench.candidates.begin(), bench.candidates.end(), before);
  auto most = static_cast<std::size_t>(knowledge().limit("most-checks"));
  if (battery_was_low(scan)) {
    plan.checks.push_back(battery_check(job).check);
    --most;
  }
  const std::vector<Check> chosen = choose(bench.candidates, most);
  plan.checks.insert(plan.checks.end(), chosen.begin(), chosen.end());
  return plan;
}

}  // namespace whichwire
