// Test problems, and what a way of choosing costs when it is followed to the end.
#pragma once

#include <algorithm>
#include <random>
#include <vector>
#include <whichwire/test_choice.hpp>

namespace whichwire::test {

/// The problem after an outcome; the test is gone.
inline TestProblem after(const TestProblem& problem, std::size_t test, std::size_t outcome) {
  TestProblem next = problem;
  for (std::size_t h = 0; h < next.weights.size(); ++h) next.weights[h] *= problem.tests[test].chances[h][outcome];
  next.tests.erase(next.tests.begin() + static_cast<std::ptrdiff_t>(test));
  return next;
}

/// Expected minutes, weights summing to one at the start, of always doing what `choose_test` says.
inline double followed(const TestProblem& problem, const TestLimits& limits) {
  double sum = 0;
  for (const double weight : problem.weights) sum += weight;
  if (sum <= 1e-12) return 0;
  const TestChoice choice = choose_test(problem, limits);
  if (choice.why != TestChoice::Why::test) return 0;
  const TestOption& test = problem.tests[choice.test];
  double minutes = sum * test.minutes;
  for (std::size_t o = 0; o < test.chances.front().size(); ++o) {
    minutes += followed(after(problem, choice.test, o), limits);
  }
  return minutes;
}

/// Tests that come out for certain, one or two bits each; some hypotheses share a repair.
inline TestProblem random_problem(std::mt19937& random, std::size_t hypotheses, std::size_t tests) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  TestProblem made;
  double sum = 0;
  for (std::size_t h = 0; h < hypotheses; ++h) {
    made.weights.push_back(1.0 / static_cast<double>(1 + below(20)));
    sum += made.weights.back();
    made.repairs.push_back(below(6) == 0 && h > 0 ? made.repairs[below(h)] : h);
  }
  for (double& weight : made.weights) weight /= sum;
  for (std::size_t t = 0; t < tests; ++t) {
    TestOption& test = made.tests.emplace_back();
    test.minutes = static_cast<double>(1 + below(15));
    const std::size_t outcomes = 2 + (below(3) == 0 ? 1 : 0);
    const std::size_t seen = 1 + below(4);  // most tests see few of the hypotheses
    for (std::size_t h = 0; h < hypotheses; ++h) {
      auto& row = test.chances.emplace_back(outcomes);
      row[below(5) < seen ? below(outcomes) : 0] = 1;
    }
  }
  return made;
}

}  // namespace whichwire::test
