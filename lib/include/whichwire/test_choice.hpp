// Which of several tests to do next, whatever the tests are about: things that may be so, each with a weight and the
// repair that it needs; tests that cost minutes and come out by chances that depend on what is so.
#pragma once

#include <cstddef>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire {

struct TestOption {
  double minutes = 1;
  std::vector<std::vector<double>> chances;  ///< by hypothesis: P(outcome); each row sums to 1
};

struct TestProblem {
  std::vector<double> weights;       ///< by hypothesis, on any scale
  std::vector<std::size_t> repairs;  ///< by hypothesis: equal numbers are one job
  double outside = 0;  ///< weight of what is not listed: nobody knows how its tests come out, so that it counts against
                       ///< a proof as if it predicted every outcome as well as the best of the list
  std::vector<TestOption> tests;  ///< those still to be had, each once
};

struct TestLimits {
  double proven = 1;              ///< probability of one repair at which no more is tested
  double least_gain_bits = 1e-9;  ///< tests that tell less than this, even two together, tell nothing
  std::size_t most_exact = 10;    ///< no more hypotheses than this: the best tree of tests is searched exactly
  std::size_t most_nodes = 4000;  ///< states that this search may open before it is given up
  std::size_t most_pairs = 12;    ///< tests of which more than one step is weighed; 0: one step only
};

struct TestChoice {
  enum class Why : std::uint8_t {
    test,              ///< `test` is next
    proven,            ///< `repair` is above the limit
    nothing_separates  ///< no test tells the repairs of `together` apart
  };
  Why why = Why::test;
  std::size_t test = nowhere;
  std::size_t repair = nowhere;       ///< the likeliest
  double probability = 0;             ///< of `repair` at the least, all that is outside counted against it
  bool exact = false;                 ///< the best of all trees of tests begins with it
  double minutes = 0;                 ///< expected to the end, where exact
  double gain_bits = 0;               ///< what the test is expected to tell about the repair
  std::vector<std::size_t> together;  ///< repairs that may be so, likeliest first
};

/// The next test: the first of the tree with the fewest expected minutes where it can be found exactly, else the best
/// by bits a minute, one and two tests ahead, followed on from there by the best single steps.
TestChoice choose_test(const TestProblem& problem, const TestLimits& limits = {});

}  // namespace whichwire
