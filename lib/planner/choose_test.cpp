// The choice: the exact tree where few hypotheses are left, else bits about the repair a minute, one and two tests
// ahead (two together where the first alone tells nothing), the best of these followed to the end as one step ahead
// would go. Gains by Shannon (1948). Greedy choice alone is not enough: on the example of Pattipati and Alexandridis it
// takes 2.86 tests where 2.18 are enough. Tests: tests/planner/test_choice.cpp.
#include <algorithm>
#include <numeric>

#include "planner/tree.hpp"

namespace whichwire {
namespace {

struct Ahead {
  std::size_t test = nowhere;
  std::vector<Branch> branches;
  double gain = 0, minutes = 0;
  double score = 0;  ///< bits a minute, the better of one step and two

  double once() const { return gain / minutes; }
};

std::vector<Ahead> one_step(const CompactProblem& compact, const Belief& belief) {
  std::vector<Ahead> all;
  for (std::size_t t = 0; t < compact.problem.tests.size(); ++t) {
    if (!compact.useful(belief, t)) continue;
    Ahead ahead{t, compact.branches(belief, t), 0, compact.problem.tests[t].minutes, 0};
    ahead.gain = compact.gain(belief, ahead.branches);
    ahead.score = ahead.once();
    all.push_back(std::move(ahead));
  }
  std::stable_sort(all.begin(), all.end(), [](const Ahead& a, const Ahead& b) {
    return a.score != b.score ? a.score > b.score : a.minutes < b.minutes;
  });
  return all;
}

/// Bits and minutes of the best second test after each outcome.
void look_twice(const CompactProblem& compact, const TestLimits& limits, Ahead& first) {
  double gain = first.gain, minutes = first.minutes;
  for (const Branch& branch : first.branches) {
    if (compact.lead(branch.belief) >= limits.proven - 1e-9) continue;
    const std::vector<Ahead> seconds = one_step(compact, branch.belief);
    if (seconds.empty()) continue;
    gain += branch.probability * seconds.front().gain;
    minutes += branch.probability * seconds.front().minutes;
  }
  if (gain >= limits.least_gain_bits) first.score = std::max(first.score, gain / minutes);
}

/// Minutes to the end when from here on the best test at one step is done each time.
double minutes_ahead(const CompactProblem& compact, const TestLimits& limits, const Belief& belief) {
  if (compact.lead(belief) >= limits.proven - 1e-9) return 0;
  const std::vector<Ahead> steps = one_step(compact, belief);
  if (steps.empty()) return 0;
  double minutes = steps.front().minutes;
  for (const Branch& branch : steps.front().branches) {
    minutes += branch.probability * minutes_ahead(compact, limits, branch.belief);
  }
  return minutes;
}

/// Of the first steps, sorted by score, the one after which the fewest minutes are expected.
std::size_t followed_up(const CompactProblem& compact, const TestLimits& limits, const std::vector<Ahead>& steps) {
  std::size_t best = steps.front().test;
  double least = -1;
  for (std::size_t i = 0; i < std::min(steps.size(), limits.most_pairs); ++i) {
    double minutes = steps[i].minutes;
    for (const Branch& branch : steps[i].branches) {
      minutes += branch.probability * minutes_ahead(compact, limits, branch.belief);
    }
    if (least >= 0 && minutes >= least) continue;
    least = minutes;
    best = steps[i].test;
  }
  return best;
}

std::vector<std::size_t> likely(const CompactProblem& compact) {
  const std::vector<double> sums = compact.by_repair(compact.start);
  std::vector<std::size_t> order(sums.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return sums[a] > sums[b]; });
  for (std::size_t& repair : order) repair = compact.repair_name[repair];
  return order;
}

}  // namespace

TestChoice choose_test(const TestProblem& problem, const TestLimits& limits) {
  const CompactProblem compact(problem);
  TestChoice choice;
  if (compact.problem.weights.empty()) {
    choice.why = TestChoice::Why::nothing_separates;
    return choice;
  }
  const std::vector<std::size_t> order = likely(compact);
  choice.repair = order.front();
  choice.probability = compact.lead(compact.start);
  if (choice.probability >= limits.proven - 1e-9) {
    choice.why = TestChoice::Why::proven;
    return choice;
  }
  std::vector<Ahead> steps = one_step(compact, compact.start);
  const std::size_t pairs = std::min(steps.size(), limits.most_pairs);
  for (std::size_t i = 0; i < pairs; ++i) look_twice(compact, limits, steps[i]);
  std::stable_sort(steps.begin(), steps.end(), [](const Ahead& a, const Ahead& b) { return a.score > b.score; });
  if (steps.empty() || steps.front().score * steps.front().minutes < limits.least_gain_bits) {
    choice.why = TestChoice::Why::nothing_separates;
    choice.together = order;
    return choice;
  }
  const bool follow = compact.crisp && limits.most_pairs > 0;  // of tests that may lie there are too many ends
  choice.test = follow ? followed_up(compact, limits, steps) : steps.front().test;
  if (compact.problem.weights.size() <= limits.most_exact) {
    if (const auto best = best_tree(compact, limits); best && best->test != nowhere) {
      choice.exact = true;
      choice.test = best->test;
      choice.minutes = best->minutes;
    }
  }
  const auto chosen =
      std::find_if(steps.begin(), steps.end(), [&](const Ahead& step) { return step.test == choice.test; });
  choice.gain_bits = chosen->gain;
  return choice;
}

}  // namespace whichwire
