// Predictions of one measurement for many sets of faults, each computed once. Tests: tests/planner/trade_rules.cpp.
#pragma once

#include "planner/suspects.hpp"

namespace whichwire {

class Predictions {
 public:
  Predictions(const Electrical& electrical, const Measurement& how, Reading::Kind kind)
      : electrical_(electrical), how_(how), kind_(kind) {}

  /// nullopt: nothing sensible is shown.
  std::optional<Interval> of(const std::vector<PresentFault>& faults);

 private:
  struct Known {
    std::vector<PresentFault> faults;
    std::optional<Interval> value;
  };

  bool matters(const Fault& fault) const;
  std::optional<Interval> take(const std::vector<PresentFault>& faults) const;
  std::optional<Interval> with_stray(std::optional<Interval> volts) const;
  std::optional<Interval> lowest(const std::vector<PresentFault>& faults, const Situation& situation) const;

  const Electrical& electrical_;
  const Measurement& how_;
  Reading::Kind kind_;
  std::vector<Known> known_;
};

}  // namespace whichwire
