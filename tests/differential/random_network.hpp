// Small random networks, always valid, from a seed: every protocol, trees and wiring in circles, gateways side by
// side, feeds in trees, shared grounds, rings, LIN with and without a commander, optional modules, unwired buses.
// The same seed gives the same network on every machine.
// random_network_test.cpp checks that they are valid and that each of these things occurs.
#pragma once

#include <random>
#include <vector>
#include <whichwire/prediction.hpp>

namespace whichwire::test {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  /// One of 0 … count-1.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }
  /// `low` … `high`, both included.
  std::size_t between(std::size_t low, std::size_t high) { return low + below(high - low + 1); }
  bool one_in(std::size_t count) { return below(count) == 0; }
  /// In [0, 1).
  double fraction() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  template <class T>
  const T& one_of(const std::vector<T>& all) {
    return all[below(all.size())];
  }
  template <class T>
  void shuffle(std::vector<T>& all) {
    for (std::size_t i = all.size(); i > 1; --i) std::swap(all[i - 1], all[below(i)]);
  }

 private:
  std::mt19937_64 engine_;  // its numbers are fixed by the C++ standard, those of the distributions are not
};

struct Sizes {
  std::size_t modules = 8;  ///< at most, at least 2
  std::size_t buses = 4;    ///< at most
};

Network random_network(Dice& dice, const Sizes& sizes = {});

Circumstances random_circumstances(Dice& dice);

/// Of every module, every two and every function, whether they may be asked or not.
std::vector<Question> all_questions(const Network& network);

/// At most `most` of the questions that may be asked, in random order.
std::vector<Question> random_questions(Dice& dice, const Network& network, KeyState key, std::size_t most);

/// `count` different faults of `all`; half the time near each other, so that they act together.
std::vector<Fault> random_faults(Dice& dice, const std::vector<Fault>& all, std::size_t count);

}  // namespace whichwire::test
