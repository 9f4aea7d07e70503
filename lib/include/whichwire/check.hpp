// What a person can measure, unplug or look at, and which of it to do first.
#pragma once

#include <optional>
#include <string>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// What a result of a check means.
struct Expectation {
  std::string outcome;              ///< `good`, or what the other result is: `0 V`, `dim or dark`
  std::optional<double> low, high;  ///< range of the reading in the mode's unit
  std::string means;                ///< in plain words
  std::string name = {};            ///< of the outcome, stable: `back`
};

struct Check {
  std::string id;       ///< stable: `feed:ECM/A-27`
  std::string measure;  ///< the one thing to do, in a sentence
  std::string part, connector, pin, wire, where;
  std::string mode;  ///< `volts-loaded`, `ohms`, `look`, `light`, `unplug`, …
  std::optional<KeyState> key;
  std::vector<Expectation> expect;  ///< good first
  double minutes = 0;
  double gain_bits = 0;  ///< expected information over explanations that need different repairs
  std::vector<std::string> cautions;
};

struct Refused {
  std::string what, why;  ///< a place that must not be measured
};

struct CheckPlan {
  std::vector<Check> checks;  ///< best first: expected information per minute
  std::vector<Refused> refused;
};

/// The checks worth doing now.
CheckPlan plan_checks(const Effects&, const std::vector<Fault>& faults, const Ranking&, const Scan&);

/// The verdict, worded no stronger than its probability.
Verdict verdict_of(const Network&, const Ranking&);

}  // namespace whichwire
