// Chance that falls the same with every compiler.
#pragma once

#include <algorithm>
#include <cstdint>
#include <random>
#include <vector>

namespace whichwire::test {

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : random_(seed) {}

  double fraction() { return (static_cast<double>(random_()) + 0.5) / 4294967296.0; }
  bool of(double probability) { return fraction() < probability; }
  std::size_t below(std::size_t n) {
    return std::min(n - 1, static_cast<std::size_t>(fraction() * static_cast<double>(n)));
  }

  /// Mean 0, spread 1: a sum of twelve.
  double bell() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += fraction();
    return sum;
  }

  std::size_t by_weight(const std::vector<double>& weights) {
    double rest = 0;
    for (const double weight : weights) rest += weight;
    rest *= fraction();
    for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
      if (rest < weights[i]) return i;
      rest -= weights[i];
    }
    return weights.size() - 1;
  }

 private:
  std::mt19937 random_;
};

}  // namespace whichwire::test
