// The order of the checks: expected bits about the repair per minute, best first. Greedy, one check ahead; near-optimal
// up to a log factor where readings do not lie (Golovin, Krause and Ray, arXiv 1010.3091). Which checks are listed is
// decided by what each adds to those before it, so that the list is not one measurement in eight places.
// Tests: tests/checks/plan.cpp.
#include <algorithm>
#include <map>
#include <numeric>

#include "checks/bench.hpp"
#include "checks/gain.hpp"
#include "checks/look_checks.hpp"

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
  std::stable_sort(weights.begin(), weights.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  const double least = knowledge().limit("least-suspicion") * hypotheses.listed();
  std::vector<Fault> suspects;
  for (const auto& [fault, weight] : weights) {
    if (weight >= least) suspects.push_back(fault);
  }
  return suspects;
}

/// A check that may be listed, with what it tells.
struct Option {
  Candidate candidate;
  Outcomes outcomes;
  double left = 0;  ///< bits that it adds to those chosen so far

  double rate() const { return left / std::max(candidate.check.minutes, 0.1); }
};

bool better(const Option& a, const Option& b) {
  if (a.rate() != b.rate()) return a.rate() > b.rate();
  if (a.candidate.check.minutes != b.candidate.check.minutes) {
    return a.candidate.check.minutes < b.candidate.check.minutes;
  }
  return a.candidate.check.id < b.candidate.check.id;
}

/// The most promising options, best first.
std::vector<Option> options_of(std::vector<Candidate> candidates, const Hypotheses& hypotheses) {
  std::vector<Option> options;
  options.reserve(candidates.size());
  for (Candidate& candidate : candidates) options.push_back({std::move(candidate), {}, 0});
  for (const Hypothesis& hypothesis : hypotheses.sets) {  // sets outside: a bus remembers what the last one does to it
    for (Option& option : options) option.outcomes.add(option.candidate, hypothesis);
  }
  for (Option& option : options) {
    option.left = gain_bits(option.outcomes, hypotheses);
    option.candidate.check.gain_bits = option.left;
  }
  std::vector<std::size_t> order(options.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return better(options[a], options[b]); });
  order.resize(std::min(order.size(), static_cast<std::size_t>(knowledge().limit("most-weighed"))));
  std::vector<Option> best;
  for (const std::size_t i : order) best.push_back(std::move(options[i]));
  return best;
}

/// The reason why it must not be measured, or nothing.
std::string refusal_of(const Candidate& candidate) {
  const auto hazard = std::find_if(candidate.hazards.begin(), candidate.hazards.end(), refused);
  return hazard == candidate.hazards.end() ? "" : knowledge().caution("refuse:" + *hazard).text;
}

/// Takes the best option at a time into the plan. What must not be measured is refused aloud where it would be listed.
class Choice {
 public:
  Choice(std::vector<Option> options, const Hypotheses& hypotheses, std::size_t most)
      : options_(std::move(options)), hypotheses_(hypotheses), most_(most) {}

  CheckPlan make() {
    const double least = knowledge().limit("least-gain-bits") * hypotheses_.listed();
    while (plan_.checks.size() < most_ && !options_.empty()) {
      const auto best = std::min_element(options_.begin(), options_.end(), better);
      const Option option = std::move(*best);
      options_.erase(best);
      if (option.left >= least) take(option);
    }
    std::stable_sort(plan_.checks.begin(), plan_.checks.end(), [](const Check& a, const Check& b) {
      return a.gain_bits * std::max(b.minutes, 0.1) > b.gain_bits * std::max(a.minutes, 0.1);
    });
    return std::move(plan_);
  }

 private:
  void take(const Option& option) {
    const Candidate& candidate = option.candidate;
    const std::string refusal = refusal_of(candidate);
    if (!refusal.empty()) return refuse(candidate.check.part, refusal);
    if (!candidate.plug.empty() &&
        plugs_[candidate.plug]++ == static_cast<std::size_t>(knowledge().limit("most-checks-a-plug"))) {
      --plugs_[candidate.plug];
      return;
    }
    plan_.checks.push_back(candidate.check);
    std::erase_if(options_, [&](const Option& other) {
      return !candidate.place.empty() && other.candidate.place == candidate.place;
    });
    for (Option& other : options_) {
      const double both = gain_bits_of_both(option.outcomes, other.outcomes, hypotheses_);
      other.left = std::min(other.left, std::max(both - candidate.check.gain_bits, 0.0));
    }
  }

  void refuse(const std::string& part, const std::string& why) {
    const auto known = [&](const Refused& each) { return each.what == part; };
    if (std::none_of(plan_.refused.begin(), plan_.refused.end(), known)) plan_.refused.push_back({part, why});
  }

  std::vector<Option> options_;
  const Hypotheses& hypotheses_;
  std::size_t most_;
  CheckPlan plan_;
  std::map<std::string, std::size_t> plugs_;
};

}  // namespace

CheckPlan plan_checks(const Effects& effects, const std::vector<Fault>&, const Ranking& ranking, const Scan& scan) {
  const Job job{effects.network(), scan};
  const Hypotheses hypotheses = hypotheses_of(job.network, ranking);
  Bench bench(job);
  for (const Fault& fault : suspects_of(hypotheses)) bench.add_for(fault);
  bench.add_general(hypotheses);

  auto most = static_cast<std::size_t>(knowledge().limit("most-checks"));
  const bool battery_first = battery_was_low(scan);
  if (battery_first) --most;
  CheckPlan plan = Choice(options_of(std::move(bench.candidates), hypotheses), hypotheses, most).make();
  if (battery_first) plan.checks.insert(plan.checks.begin(), battery_check(job).check);
  return plan;
}

}  // namespace whichwire
