// Rankings put together by hand.
#pragma once

#include "checks/moor.hpp"
#include "locate/verdict_class.hpp"

namespace moor {

inline Explanation explained(double probability, std::vector<Fault> faults,
                             std::vector<std::vector<Fault>> alike = {}) {
  Explanation made;
  made.probability = {probability, probability};
  made.verdict_class = class_of(network(), faults);
  made.faults = std::move(faults);
  made.alike = std::move(alike);
  return made;
}

inline Ranking ranked(std::vector<Explanation> explanations) {
  Ranking made;
  made.explanations = std::move(explanations);
  return made;
}

inline Fault passing(Fault fault) {
  fault.comes_and_goes = true;
  return fault;
}

inline Fault short_of(std::size_t on_bus, std::size_t item, Lines lines, ShortTo to) {
  Fault fault = open_segment(on_bus, item, lines);
  fault.kind = FaultKind::short_circuit;
  fault.to = to;
  return fault;
}

inline Scan scan_with_key_on() {
  Scan scan;
  scan.key = KeyState::run;
  scan.key_stated = true;
  scan.battery_volts = 12.6;
  return scan;
}

}  // namespace moor
