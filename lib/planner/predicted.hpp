// Predictions of measurements for many sets of faults, each computed once in the life of a job: every answer is weighed
// anew from the first, and every check is looked at anew after each. Tests: tests/planner/trade_rules.cpp.
#pragma once

#include <memory>
#include <string>
#include <unordered_map>

#include "planner/suspects.hpp"

namespace whichwire {

/// What was computed so far for one measurement, by fingerprint of the faults; nullopt: nothing sensible is shown.
using KnownValues = std::unordered_map<std::string, std::optional<Interval>>;

/// Electrical predictions with a memory. For one thread at a time.
class Meter {
 public:
  explicit Meter(const Network& network) : electrical_(network) {}
  const Electrical& electrical() const { return electrical_; }
  KnownValues& known(const Measurement& how, Reading::Kind kind) const;

 private:
  Electrical electrical_;
  mutable std::unordered_map<std::string, KnownValues> known_;
};

/// One measurement.
class Predictions {
 public:
  Predictions(const Meter& meter, const Measurement& how, Reading::Kind kind)
      : electrical_(meter.electrical()), how_(how), kind_(kind), known_(meter.known(how, kind)) {}

  /// nullopt: nothing sensible is shown.
  std::optional<Interval> of(const std::vector<PresentFault>& faults);

 private:
  bool matters(const Fault& fault) const;
  std::optional<Interval> take(const std::vector<PresentFault>& faults) const;
  std::optional<Interval> with_stray(std::optional<Interval> volts) const;
  std::optional<Interval> lowest(const std::vector<PresentFault>& faults, const Situation& situation) const;

  const Electrical& electrical_;
  const Measurement& how_;
  Reading::Kind kind_;
  KnownValues& known_;
};

}  // namespace whichwire
