// See belief.hpp. Tests: tests/planner/test_choice.cpp.
#include "planner/belief.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace whichwire {
namespace {

constexpr double nothing = 1e-12;  // a weight below that is none

bool same_rows(const TestProblem& problem, std::size_t a, std::size_t b) {
  return std::all_of(problem.tests.begin(), problem.tests.end(),
                     [&](const TestOption& test) { return test.chances[a] == test.chances[b]; });
}

bool certain(const std::vector<double>& row) {
  return std::all_of(row.begin(), row.end(), [](double chance) { return chance == 0 || chance == 1; });
}

}  // namespace

double without_rounding(double value) {
  int exponent = 0;
  const double mantissa = std::frexp(value, &exponent);
  return std::ldexp(std::round(mantissa / rounding) * rounding, exponent);
}

CompactProblem::CompactProblem(const TestProblem& whole) {
  const double sum = std::accumulate(whole.weights.begin(), whole.weights.end(), 0.0);
  std::vector<std::size_t> kept;  // numbers in the problem as it was put
  for (std::size_t h = 0; h < whole.weights.size(); ++h) {
    if (whole.weights[h] <= nothing * sum) continue;
    const auto known = std::find_if(kept.begin(), kept.end(), [&](std::size_t other) {
      return whole.repairs[other] == whole.repairs[h] && same_rows(whole, other, h);
    });
    if (known != kept.end()) {
      problem.weights[static_cast<std::size_t>(known - kept.begin())] += whole.weights[h] / sum;
      continue;
    }
    kept.push_back(h);
    problem.weights.push_back(whole.weights[h] / sum);
    const auto name = std::find(repair_name.begin(), repair_name.end(), whole.repairs[h]);
    problem.repairs.push_back(static_cast<std::size_t>(name - repair_name.begin()));
    if (name == repair_name.end()) repair_name.push_back(whole.repairs[h]);
  }
  repair_count = repair_name.size();
  for (const TestOption& test : whole.tests) {
    TestOption& own = problem.tests.emplace_back();
    own.minutes = std::max(test.minutes, 1e-3);
    for (const std::size_t h : kept) {
      own.chances.push_back(test.chances[h]);
      crisp = crisp && certain(test.chances[h]);
    }
  }
  start = {problem.weights, sum > 0 ? whole.outside / sum : 0, std::vector<char>(problem.tests.size())};
}

std::vector<double> CompactProblem::by_repair(const Belief& belief) const {
  std::vector<double> sums(repair_count);
  for (std::size_t h = 0; h < belief.weights.size(); ++h) sums[problem.repairs[h]] += belief.weights[h];
  return sums;
}

double CompactProblem::entropy(const Belief& belief) const {
  double bits = 0;
  for (const double p : by_repair(belief)) bits -= p > 0 ? p * std::log2(p) : 0;
  return bits;
}

bool CompactProblem::useful(const Belief& belief, std::size_t test) const {
  if (belief.done[test]) return false;
  const auto& chances = problem.tests[test].chances;
  for (std::size_t a = 0; a < belief.weights.size(); ++a) {
    for (std::size_t b = a + 1; b < belief.weights.size(); ++b) {
      const bool possible = belief.weights[a] > 0 && belief.weights[b] > 0;
      if (possible && problem.repairs[a] != problem.repairs[b] && chances[a] != chances[b]) return true;
    }
  }
  return false;
}

std::vector<Branch> CompactProblem::branches(const Belief& belief, std::size_t test) const {
  const auto& chances = problem.tests[test].chances;
  std::vector<Branch> all;
  for (std::size_t o = 0; o < chances.front().size(); ++o) {
    Branch branch{0, {std::vector<double>(belief.weights.size()), 0, belief.done}};
    double best = 0;
    for (std::size_t h = 0; h < belief.weights.size(); ++h) {
      if (belief.weights[h] <= 0) continue;
      branch.belief.weights[h] = belief.weights[h] * chances[h][o];
      branch.probability += branch.belief.weights[h];
      best = std::max(best, chances[h][o]);
    }
    if (branch.probability <= nothing) continue;
    for (double& weight : branch.belief.weights) {
      weight /= branch.probability;
      if (weight < nothing) weight = 0;
    }
    branch.belief.outside = belief.outside * best / branch.probability;
    branch.belief.done[test] = 1;
    all.push_back(std::move(branch));
  }
  return all;
}

double CompactProblem::gain(const Belief& belief, const std::vector<Branch>& outcomes) const {
  double bits = entropy(belief);
  for (const Branch& branch : outcomes) bits -= branch.probability * entropy(branch.belief);
  return std::max(bits, 0.0);
}

double CompactProblem::lead(const Belief& belief) const {
  const std::vector<double> sums = by_repair(belief);
  return sums.empty() ? 0 : *std::max_element(sums.begin(), sums.end()) / (1 + belief.outside);
}

}  // namespace whichwire
