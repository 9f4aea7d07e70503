// See offer.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/offer.hpp"

#include <algorithm>
#include <numeric>

namespace whichwire {
namespace {

constexpr std::ptrdiff_t most_times = 3;  // that a module is asked, or all of them

void note_refused(std::vector<Refused>& refused, const Candidate& candidate, const std::string& hazard) {
  const std::string& part = candidate.check.part;
  const auto known = [&](const Refused& each) { return each.what == part; };
  if (std::any_of(refused.begin(), refused.end(), known)) return;
  refused.push_back({part, knowledge().caution("refuse:" + hazard).text});
}

/// What taking an answered check once more would show: the same, or something else. Empty: that tells nothing.
std::vector<std::vector<double>> once_more(const Bench& bench, const Weighing& weighing, const std::string& check) {
  const Answered* const last = worth_once_more(weighing, check);
  std::vector<std::vector<double>> rows;
  if (last == nullptr) return rows;
  for (const double fitting : last->fitting) {
    const double same = once_more(fitting, bench.numbers);
    rows.push_back({same, 1 - same});
  }
  return rows;
}

}  // namespace

Offer offer_of(const Bench& bench, const Weighing& weighing, const Situation& now, std::vector<Refused>& refused) {
  const ReadingForecast forecast(bench.meter, weighing.suspects, bench.numbers);
  Offer offer;
  for (const Suspect& suspect : weighing.suspects.all) {
    offer.problem.weights.push_back(suspect.weight);
    offer.problem.repairs.push_back(suspect.repair);
  }
  offer.problem.outside = weighing.suspects.outside;
  for (const Prospect& prospect : bench.prospects) {
    const std::string& id = prospect.candidate.check.id;
    if (const std::string hazard = refused_for(prospect.candidate); !hazard.empty()) {
      note_refused(refused, prospect.candidate, hazard);
      continue;
    }
    const bool again = answered(weighing, id);
    const bool anew = !again || (told_anew(id) && times_answered(weighing, id) < most_times);
    auto chances = anew ? forecast.chances(prospect, now) : once_more(bench, weighing, id);
    if (chances.empty()) continue;
    offer.checks.push_back({&prospect, again});
    const double minutes = again ? minutes_once_more(bench, weighing, prospect) : prospect.candidate.check.minutes;
    offer.problem.tests.push_back({minutes, std::move(chances)});
  }
  return offer;
}

std::vector<double> gains(const TestProblem& problem) {
  std::vector<double> all;
  TestLimits one;
  one.most_exact = 0;
  one.most_pairs = 0;
  one.proven = 2;
  one.least_gain_bits = 0;
  for (const TestOption& test : problem.tests) {
    TestProblem alone{problem.weights, problem.repairs, problem.outside, {test}};
    all.push_back(choose_test(alone, one).gain_bits);
  }
  return all;
}

void keep_best(Offer& offer, std::vector<double>& bits, std::size_t most) {
  std::vector<std::size_t> order(bits.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto rate = [&](std::size_t t) { return bits[t] / std::max(offer.problem.tests[t].minutes, 0.1); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rate(a) > rate(b); });
  order.resize(std::min(order.size(), most));
  Offer kept;
  kept.problem = {offer.problem.weights, offer.problem.repairs, offer.problem.outside, {}};
  std::vector<double> own;
  for (const std::size_t t : order) {
    kept.checks.push_back(offer.checks[t]);
    kept.problem.tests.push_back(std::move(offer.problem.tests[t]));
    own.push_back(bits[t]);
  }
  offer = std::move(kept);
  bits = std::move(own);
}

std::ptrdiff_t times_answered(const Weighing& weighing, const std::string& check) {
  return std::count_if(weighing.answers.begin(), weighing.answers.end(),
                       [&](const Answered& each) { return each.check == check; });
}

bool answered(const Weighing& weighing, const std::string& check) {
  return std::any_of(weighing.answers.begin(), weighing.answers.end(),
                     [&](const Answered& each) { return each.check == check && each.weighed.understood; }) ||
         put_aside(weighing, check);
}

const Answered* worth_once_more(const Weighing& weighing, const std::string& check) {
  const Answered* last = nullptr;
  for (const Answered& each : weighing.answers) {
    if (each.check == check) last = &each;
  }
  const bool can_be = last != nullptr && !last->fitting.empty() && last->weighed.counted && !last->repeats;
  return can_be && times_answered(weighing, check) < most_times ? last : nullptr;
}

double minutes_once_more(const Bench& bench, const Weighing& weighing, const Prospect& prospect) {
  const Prospect* const last = weighing.answers.empty() ? nullptr : bench.find(weighing.answers.back().check);
  const Check& check = prospect.candidate.check;
  const bool still_there =
      last != nullptr && last->candidate.check.part == check.part && last->candidate.check.pin == check.pin;
  return still_there ? prospect.candidate.kind->minutes : check.minutes;
}

bool put_aside(const Weighing& weighing, const std::string& check) {
  return std::any_of(weighing.answers.begin(), weighing.answers.end(),
                     [&](const Answered& each) { return each.check == check && each.not_done; });
}

}  // namespace whichwire
