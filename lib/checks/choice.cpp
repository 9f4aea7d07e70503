// See choice.hpp. Greedy, one check ahead: near-optimal up to a log factor where readings do not lie (Golovin, Krause
// and Ray, arXiv 1010.3091). Tests: tests/checks/plan.cpp.
#include "checks/choice.hpp"

#include <algorithm>
#include <map>
#include <numeric>

#include "checks/build.hpp"
#include "locate/coarse.hpp"

namespace whichwire {
namespace {

bool better(const Option& a, const Option& b) {
  const double left = coarse(a.left / a.minutes()), right = coarse(b.left / b.minutes());
  if (left != right) return left > right;
  if (a.minutes() != b.minutes()) return a.minutes() < b.minutes();
  return a.candidate.check.id < b.candidate.check.id;
}

double mass_seen(const Outcomes& outcomes, const Hypotheses& hypotheses) {
  double seen = 0;
  for (std::size_t h = 0; h < hypotheses.sets.size(); ++h)
    seen += outcomes.row_of[h] != 0 ? hypotheses.sets[h].weight : 0;
  return seen;
}

/// The reason why it must not be measured, or nothing.
std::string refusal_of(const Candidate& candidate) {
  const auto hazard = std::find_if(candidate.hazards.begin(), candidate.hazards.end(), refused);
  return hazard == candidate.hazards.end() ? "" : knowledge().caution("refuse:" + *hazard).text;
}

/// Takes the best option at a time into the plan.
class Choice {
 public:
  Choice(std::vector<Option> options, const Hypotheses& hypotheses, std::size_t most)
      : options_(std::move(options)), hypotheses_(hypotheses), most_(most) {}

  CheckPlan make() {
    const double least = knowledge().limit("least-gain-bits") * hypotheses_.listed();
    while (plan_.checks.size() < most_ && !options_.empty()) {
      const auto best = std::min_element(options_.begin(), options_.end(), better);
      Option option = std::move(*best);
      options_.erase(best);
      if (option.left < least) {
        spare_.push_back(std::move(option));
      } else {
        take(option);
      }
    }
    prove();
    std::stable_sort(plan_.checks.begin(), plan_.checks.end(), [](const Check& a, const Check& b) {
      return coarse(a.gain_bits / std::max(a.minutes, 0.1)) > coarse(b.gain_bits / std::max(b.minutes, 0.1));
    });
    return std::move(plan_);
  }

 private:
  /// Where hardly anything is open any more the list would be empty: then what would show the likely fault is listed,
  /// so that it is seen before anything is bought.
  void prove() {
    const auto least = static_cast<std::size_t>(knowledge().limit("least-checks"));
    std::stable_sort(spare_.begin(), spare_.end(),
                     [](const Option& a, const Option& b) { return a.seen * b.minutes() > b.seen * a.minutes(); });
    for (const Option& option : spare_) {
      if (plan_.checks.size() >= std::min(least, most_)) return;
      if (option.seen < knowledge().limit("least-proof") * hypotheses_.listed()) continue;
      const auto same_place = [&](const std::string& place) { return place == option.candidate.place; };
      if (std::none_of(places_.begin(), places_.end(), same_place)) take(option);
    }
  }

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
    places_.push_back(candidate.place);
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

  std::vector<Option> options_, spare_;
  std::vector<std::string> places_;
  const Hypotheses& hypotheses_;
  std::size_t most_;
  CheckPlan plan_;
  std::map<std::string, std::size_t> plugs_;
};

}  // namespace

std::vector<Option> options_of(std::vector<Candidate> candidates, const Hypotheses& hypotheses) {
  std::vector<Option> options;
  options.reserve(candidates.size());
  for (Candidate& candidate : candidates) options.push_back({std::move(candidate), {}, 0, 0});
  for (const Hypothesis& hypothesis : hypotheses.sets) {  // sets outside: a bus remembers what the last one does to it
    for (Option& option : options) option.outcomes.add(option.candidate, hypothesis);
  }
  for (Option& option : options) {
    option.left = gain_bits(option.outcomes, hypotheses);
    option.seen = mass_seen(option.outcomes, hypotheses);
    option.candidate.check.gain_bits = option.left;
  }
  std::vector<std::size_t> order(options.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return better(options[a], options[b]); });
  order.resize(std::min(order.size(), static_cast<std::size_t>(knowledge().limit("most-weighed"))));
  std::vector<Option> best;
  best.reserve(order.size());
  for (const std::size_t i : order) best.push_back(std::move(options[i]));
  return best;
}

CheckPlan choose(std::vector<Option> options, const Hypotheses& hypotheses, std::size_t most) {
  return Choice(std::move(options), hypotheses, most).make();
}

}  // namespace whichwire
