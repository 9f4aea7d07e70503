// The best tree of tests by plain dynamic programming over all subsets of hypotheses: slow, and sharing no code with
// the search that it judges. For tests that come out for certain.
#pragma once

#include <cstdint>
#include <map>
#include <whichwire/test_choice.hpp>

namespace whichwire::test {

class Exhaustive {
 public:
  explicit Exhaustive(const TestProblem& problem) : problem_(problem) {}

  /// Expected minutes until one repair is left or no test parts what is left; weights as they are.
  double minutes() { return minutes((std::uint32_t{1} << problem_.weights.size()) - 1); }

 private:
  double minutes(std::uint32_t set) {
    const auto known = solved_.find(set);
    if (known != solved_.end()) return known->second;
    double best = -1;
    for (const TestOption& test : problem_.tests) {
      if (!parts_repairs(test, set)) continue;
      double sum = weight(set) * test.minutes;
      for (std::size_t o = 0; o < test.chances[0].size(); ++o) {
        const std::uint32_t part = coming_out(test, set, o);
        if (part != 0) sum += minutes(part);
      }
      if (best < 0 || sum < best) best = sum;
    }
    return solved_[set] = best < 0 ? 0 : best;
  }

  bool in(std::uint32_t set, std::size_t h) const { return (set >> h & 1U) != 0; }

  std::uint32_t coming_out(const TestOption& test, std::uint32_t set, std::size_t outcome) const {
    std::uint32_t part = 0;
    for (std::size_t h = 0; h < problem_.weights.size(); ++h) {
      if (in(set, h) && test.chances[h][outcome] == 1) part |= std::uint32_t{1} << h;
    }
    return part;
  }

  /// Two hypotheses of different repairs come out differently.
  bool parts_repairs(const TestOption& test, std::uint32_t set) const {
    for (std::size_t a = 0; a < problem_.weights.size(); ++a) {
      for (std::size_t b = 0; b < a; ++b) {
        const bool both = in(set, a) && in(set, b) && problem_.repairs[a] != problem_.repairs[b];
        if (both && test.chances[a] != test.chances[b]) return true;
      }
    }
    return false;
  }

  double weight(std::uint32_t set) const {
    double sum = 0;
    for (std::size_t h = 0; h < problem_.weights.size(); ++h) sum += in(set, h) ? problem_.weights[h] : 0;
    return sum;
  }

  const TestProblem& problem_;
  std::map<std::uint32_t, double> solved_;
};

}  // namespace whichwire::test
