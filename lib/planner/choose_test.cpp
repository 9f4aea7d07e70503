// The choice: the exact tree where few hypotheses are left, else bits about the repair a minute, one and two tests
// ahead (two together where the first alone tells nothing), the best of these followed to the end: by single steps as
// long as many hypotheses are left, then by the exact tree. Gains by Shannon (1948). Greedy choice alone is not enough:
// on the example of Pattipati and Alexandridis it takes 2.86 tests where 2.18 are enough. Of what is equal but for
// rounding the test of fewer minutes comes first, then the one that was listed first. Tests:
// tests/planner/test_choice.cpp.
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
};

/// The best first.
void sort_by_score(std::vector<Ahead>& steps) {
  std::stable_sort(steps.begin(), steps.end(), [](const Ahead& a, const Ahead& b) {
    const double one = without_rounding(a.score), other = without_rounding(b.score);
    return one != other ? one > other : a.minutes != b.minutes ? a.minutes < b.minutes : a.test < b.test;
  });
}

std::vector<Ahead> one_step(const CompactProblem& compact, const Belief& belief) {
  std::vector<Ahead> all;
  for (std::size_t t = 0; t < compact.problem.tests.size(); ++t) {
    if (!compact.useful(belief, t)) continue;
    Ahead ahead{t, compact.branches(belief, t), 0, compact.problem.tests[t].minutes, 0};
    ahead.gain = compact.gain(belief, ahead.branches);
    ahead.score = ahead.gain / ahead.minutes;
    all.push_back(std::move(ahead));
  }
  sort_by_score(all);
  return all;
}

std::size_t left_in(const Belief& belief) {
  return static_cast<std::size_t>(std::ranges::count_if(belief.weights, [](double weight) { return weight > 0; }));
}

class Chooser {
 public:
  Chooser(const CompactProblem& compact, const TestLimits& limits)
      : compact_(compact), limits_(limits), tree_(compact, limits) {}

  bool proven(const Belief& belief) const { return compact_.lead(belief) >= limits_.proven - rounding; }

  /// All that tell something, the best by one step and two first.
  std::vector<Ahead> steps() const {
    std::vector<Ahead> all = one_step(compact_, compact_.start);
    for (std::size_t i = 0; i < std::min(all.size(), limits_.most_pairs); ++i) look_twice(all[i]);
    sort_by_score(all);
    return all;
  }

  /// The best tree of tests, where few enough hypotheses are left.
  std::optional<BestTree> exact(const Belief& belief) {
    if (left_in(belief) > limits_.most_exact) return std::nullopt;
    return tree_.from(belief);
  }

  /// Of the first steps, sorted by score, the one after which the fewest minutes are expected.
  std::size_t followed_up(const std::vector<Ahead>& steps) {
    std::size_t best = steps.front().test;
    double least = minutes_with(steps.front());
    for (std::size_t i = 1; i < std::min(steps.size(), limits_.most_pairs); ++i) {
      const double minutes = minutes_with(steps[i]);
      if (minutes >= least * (1 - rounding)) continue;
      least = minutes;
      best = steps[i].test;
    }
    return best;
  }

 private:
  /// Bits and minutes of the best second test after each outcome.
  void look_twice(Ahead& first) const {
    double gain = first.gain, minutes = first.minutes;
    for (const Branch& branch : first.branches) {
      if (proven(branch.belief)) continue;
      const std::vector<Ahead> seconds = one_step(compact_, branch.belief);
      if (seconds.empty()) continue;
      gain += branch.probability * seconds.front().gain;
      minutes += branch.probability * seconds.front().minutes;
    }
    if (gain >= limits_.least_gain_bits) first.score = std::max(first.score, gain / minutes);
  }

  double minutes_with(const Ahead& step) {
    double minutes = step.minutes;
    for (const Branch& branch : step.branches) minutes += branch.probability * minutes_to_the_end(branch.belief);
    return minutes;
  }

  /// By the best tree where it can be had, until then by the best single steps.
  double minutes_to_the_end(const Belief& belief) {
    if (proven(belief)) return 0;
    if (const auto best = exact(belief)) return best->minutes;
    const std::vector<Ahead> steps = one_step(compact_, belief);
    return steps.empty() ? 0 : minutes_with(steps.front());
  }

  const CompactProblem& compact_;
  const TestLimits& limits_;
  TreeSearch tree_;
};

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
  Chooser chooser(compact, limits);
  if (chooser.proven(compact.start)) {
    choice.why = TestChoice::Why::proven;
    return choice;
  }
  const std::vector<Ahead> steps = chooser.steps();
  if (steps.empty() || steps.front().score * steps.front().minutes < limits.least_gain_bits) {
    choice.why = TestChoice::Why::nothing_separates;
    choice.together = order;
    return choice;
  }
  const auto best = chooser.exact(compact.start);
  if (best && best->test != nowhere) {
    choice.exact = true;
    choice.test = best->test;
    choice.minutes = best->minutes;
  } else {
    const bool follow = compact.crisp && limits.most_pairs > 0;  // of tests that may lie there are too many ends
    choice.test = follow ? chooser.followed_up(steps) : steps.front().test;
  }
  choice.gain_bits = std::ranges::find(steps, choice.test, &Ahead::test)->gain;
  return choice;
}

}  // namespace whichwire
