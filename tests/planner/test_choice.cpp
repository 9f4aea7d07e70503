// The choice of the next test against published numbers, theorems and an exhaustive dynamic programme.
#include <doctest/doctest.h>

#include <cmath>

#include "exhaustive.hpp"
#include "planner/tree.hpp"
#include "policy.hpp"

namespace whichwire::test {
namespace {

/// K. R. Pattipati and M. G. Alexandridis, "Application of heuristic search and information theory to sequential fault
/// diagnosis", IEEE Trans. Systems, Man and Cybernetics 20 (1990): six states, five tests of one unit each. The matrix
/// and 2.18 are from memory; that they fit each other is shown by the exhaustive programme below.
TestProblem published() {
  TestProblem made;
  made.weights = {.70, .01, .02, .10, .05, .12};
  made.repairs = {0, 1, 2, 3, 4, 5};
  const char* rows[] = {"00000", "01001", "00110", "10011", "11000", "11110"};
  for (std::size_t t = 0; t < 5; ++t) {
    TestOption& test = made.tests.emplace_back();
    for (const char* row : rows)
      test.chances.push_back(row[t] == '0' ? std::vector<double>{1, 0} : std::vector{0., 1.});
  }
  return made;
}

/// Every way to part the hypotheses in two is a test of one minute.
TestProblem all_tests(const std::vector<double>& weights) {
  TestProblem made;
  made.weights = weights;
  for (std::size_t h = 0; h < weights.size(); ++h) made.repairs.push_back(h);
  for (std::size_t set = 1; set < (std::size_t{1} << (weights.size() - 1)); ++set) {
    TestOption& test = made.tests.emplace_back();
    for (std::size_t h = 0; h < weights.size(); ++h) {
      test.chances.push_back((set >> h & 1) != 0 ? std::vector<double>{0, 1} : std::vector<double>{1, 0});
    }
  }
  return made;
}

TestLimits ahead_only() {
  TestLimits limits;
  limits.most_exact = 0;
  return limits;
}

}  // namespace

TEST_CASE("the example of Pattipati and Alexandridis takes 2.18 tests") {
  const TestProblem problem = published();
  REQUIRE(Exhaustive(problem).minutes() == doctest::Approx(2.18));
  const TestChoice choice = choose_test(problem);
  CHECK(choice.exact);
  CHECK(choice.minutes == doctest::Approx(2.18));
  CHECK((choice.test == 1 || choice.test == 3));  // t2 is the root of the printed tree; with t4 it is as good
  CHECK(followed(problem, {}) == doctest::Approx(2.18));
}

TEST_CASE("its entropy, and what one step alone would choose, are those of the text") {
  const TestProblem problem = published();
  const CompactProblem compact(problem);
  CHECK(compact.entropy(compact.start) == doctest::Approx(1.454873));
  TestLimits greedy = ahead_only();
  greedy.most_pairs = 0;
  CHECK(choose_test(problem, greedy).test == 0);  // t1
  CHECK(followed(problem, greedy) == doctest::Approx(2.86));
}

TEST_CASE("where every test is allowed the best tree is Huffman's code") {
  // D. A. Huffman, "A method for the construction of minimum-redundancy codes" (1952); equality: Zimmerman (1959).
  CHECK(choose_test(all_tests({.25, .25, .2, .15, .15})).minutes == doctest::Approx(2.30));
  CHECK(choose_test(all_tests({.4, .2, .2, .1, .1})).minutes == doctest::Approx(2.20));
  CHECK(choose_test(all_tests({.7, .12, .1, .05, .02, .01})).minutes == doctest::Approx(1.59));
}

TEST_CASE("on 400 random cases the exact tree costs what the exhaustive programme finds") {
  std::mt19937 random(11);
  for (int i = 0; i < 400; ++i) {
    const std::size_t hypotheses = 3 + random() % 7, tests = 3 + random() % 7;  // drawn in this order by any compiler
    const TestProblem problem = random_problem(random, hypotheses, tests);
    const double best = Exhaustive(problem).minutes();
    const TestChoice choice = choose_test(problem);
    if (choice.why != TestChoice::Why::test) {
      CHECK(best == 0);
      continue;
    }
    REQUIRE(choice.exact);
    CHECK(choice.minutes == doctest::Approx(best));
    CHECK(followed(problem, {}) == doctest::Approx(best));
  }
}

TEST_CASE("on 600 cases too large for the exact tree the minutes stay near the best") {
  std::mt19937 random(5);
  TestLimits limits;
  limits.most_exact = 8;  // cases of up to 12: the first tests are chosen by looking ahead, the last exactly
  double sum = 0, worst = 0;
  int counted = 0;
  for (int i = 0; i < 600; ++i) {
    const std::size_t hypotheses = 9 + random() % 4, tests = 8 + random() % 5;
    const TestProblem problem = random_problem(random, hypotheses, tests);
    const double best = Exhaustive(problem).minutes();
    if (best == 0) continue;
    const double ratio = followed(problem, limits) / best;
    CHECK(ratio > 1 - 1e-9);
    sum += ratio;
    worst = std::max(worst, ratio);
    ++counted;
  }
  REQUIRE(counted > 500);
  MESSAGE("mean " << sum / counted << ", worst " << worst);
  CHECK(sum / counted < 1.05);
  CHECK(worst < 1.15);
}

TEST_CASE("it stops when one repair is likely enough, all that is outside counted against it") {
  TestProblem problem = published();
  TestLimits limits;
  limits.proven = 0.69;
  CHECK(choose_test(problem, limits).why == TestChoice::Why::proven);
  problem.outside = 0.05;  // 0.70 of 1.05
  const TestChoice choice = choose_test(problem, limits);
  CHECK(choice.why == TestChoice::Why::test);
  CHECK(choice.probability == doctest::Approx(0.70 / 1.05));
}

TEST_CASE("two faults with one repair are not told apart any further, two repairs that look alike are named") {
  TestProblem problem;
  problem.weights = {0.5, 0.3, 0.2};
  problem.repairs = {7, 7, 9};
  problem.tests = {{5, {{1, 0}, {0, 1}, {0, 1}}}};
  const TestChoice useful = choose_test(problem);
  CHECK(useful.why == TestChoice::Why::test);
  const TestProblem rest = after(problem, 0, 1);
  CHECK(choose_test(rest).why == TestChoice::Why::nothing_separates);
  CHECK(choose_test(rest).together == std::vector<std::size_t>{7, 9});
  CHECK(choose_test(after(problem, 0, 0)).why == TestChoice::Why::proven);
  CHECK(choose_test(after(problem, 0, 0)).repair == 7);
}

TEST_CASE("two tests that tell something only together are found by looking two ahead") {
  TestProblem problem;
  problem.weights = {0.25, 0.25, 0.25, 0.25};
  problem.repairs = {0, 1, 1, 0};  // equal outcomes: one repair, different ones: the other
  problem.tests = {{1, {{1, 0}, {1, 0}, {0, 1}, {0, 1}}}, {1, {{1, 0}, {0, 1}, {1, 0}, {0, 1}}}};
  for (const TestLimits& limits : {ahead_only(), TestLimits{}}) {
    const TestChoice choice = choose_test(problem, limits);
    CHECK(choice.why == TestChoice::Why::test);
    CHECK(choice.gain_bits == doctest::Approx(0));
    CHECK(followed(problem, limits) == doctest::Approx(2));
  }
}

TEST_CASE("of tests that are equally good the quicker comes first, then the one that was listed first") {
  TestProblem problem;
  problem.weights = {0.1, 0.2, 0.3, 0.4};  // as sums these differ in their last bits
  problem.repairs = {0, 1, 2, 3};
  const std::vector<std::vector<double>> one = {{1, 0}, {0, 1}, {0, 1}, {1, 0}};
  const std::vector<std::vector<double>> other = {{0, 1}, {1, 0}, {1, 0}, {0, 1}};  // the same, outcomes exchanged
  TestLimits greedy = ahead_only();
  greedy.most_pairs = 0;
  for (const TestLimits& limits : {greedy, ahead_only(), TestLimits{}}) {
    problem.tests = {{2, one}, {2, other}};
    CHECK(choose_test(problem, limits).test == 0);
    problem.tests = {{2, other}, {2, one}};
    CHECK(choose_test(problem, limits).test == 0);
    problem.tests = {{2, one}, {1.9, other}};
    CHECK(choose_test(problem, limits).test == 1);
  }
}

TEST_CASE("a cheap look comes before a surer test that takes an hour") {
  TestProblem problem;
  problem.weights = {0.5, 0.5};
  problem.repairs = {0, 1};
  problem.tests = {{60, {{1, 0}, {0, 1}}}, {1, {{0.9, 0.1}, {0.2, 0.8}}}};
  TestLimits limits;
  limits.proven = 0.85;
  const TestChoice choice = choose_test(problem, limits);
  CHECK(choice.exact);
  CHECK(choice.test == 1);
}

}  // namespace whichwire::test
