// A job on a vehicle that is not there: faults drawn by their odds, a scan with the noise of life, and a technician
// whose meter, leads and eyes are those of lib/reading's tables, who does what is next until nothing is.
#pragma once

#include <random>
#include <whichwire/expected_scan.hpp>
#include <whichwire/planner.hpp>

#include "checks/knowledge.hpp"
#include "planner/places.hpp"

namespace whichwire::test {

/// The same numbers with every compiler.
class Chance {
 public:
  explicit Chance(std::uint32_t seed) : random_(seed) {}
  double fraction() { return (static_cast<double>(random_()) + 0.5) / 4294967296.0; }
  bool of(double probability) { return fraction() < probability; }
  std::size_t below(std::size_t n) {
    return std::min(n - 1, static_cast<std::size_t>(fraction() * static_cast<double>(n)));
  }
  /// Mean 0, spread 1: a sum of twelve.
  double bell();
  std::size_t by_weight(const std::vector<double>& weights);

 private:
  std::mt19937 random_;
};

struct JobDone {
  Assessment last;
  std::string truth;  ///< the repair that was needed, as the planner names it
  double minutes = 0;
  int checks = 0;
  std::vector<std::string> asked;
  /// Nothing whole is repaired; of two faults one may be left to the next scan.
  bool right() const;
};

/// Nothing where nobody would complain: all answer and work, and no code is stored.
std::optional<JobDone> simulated_job(const Network& network, Chance& chance);

}  // namespace whichwire::test
