// Buses for the tests, and readings of them. Every network is invented.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>
#include <whichwire/electrical.hpp>

#include "asking.hpp"

namespace whichwire::test {

inline Interval* row(ElectricalValues& values, const std::string& what) {
  for (ElectricalValue& each : values.rows) {
    if (each.what == what) return &each.value;
  }
  return nullptr;
}

/// The default values with some rows known exactly.
inline ElectricalValues with(std::initializer_list<std::pair<const char*, Interval>> rows) {
  ElectricalValues values = default_electrical_values();
  for (const auto& each : rows) {
    Interval* found = row(values, each.first);
    REQUIRE_MESSAGE(found != nullptr, each.first);
    *found = each.second;
  }
  return values;
}

/// Values that let physics alone be seen: no wire, no contacts, no transceivers, terminators exact.
inline ElectricalValues bare() {
  return with({{"wire.length", exactly(0)},
               {"contact", exactly(0)},
               {"terminator.share", exactly(1)},
               {"terminator.added", exactly(120)},
               {"can-hs.off.ohms", exactly(1e12)},
               {"can-hs.asleep.ohms", exactly(1e12)},
               {"flexray.off.ohms", exactly(1e12)}});
}

/// A trunk DLC - S1 - … - Sn with the modules M1 … Mn at the splices, terminators in the first and the last.
inline Building trunk(std::size_t modules, Protocol protocol = Protocol::can_hs) {
  Building made;
  made.bus("B", protocol, 500000);
  made.connect("B", "6", lines_of(protocol) == 2 ? "14" : "");
  for (std::size_t i = 1; i <= modules; ++i) made.module("M" + std::to_string(i));
  std::string before = "DLC";
  for (std::size_t i = 1; i <= modules; ++i) {
    const std::string n = std::to_string(i);
    made.segment("B", "T" + n, before, "S" + n);
    made.segment("B", "U" + n, "S" + n, "M" + n);
    before = "S" + n;
  }
  if (lines_of(protocol) == 2) {
    made.terminator("B", "M1");
    made.terminator("B", "M" + std::to_string(modules));
  }
  return made;
}

/// A meter on one network.
struct Bench {
  Building built;
  ElectricalValues values = default_electrical_values();
  Situation situation = {};

  std::vector<PresentFault> faults(Words words) const { return present(faults_from(built.network, words)); }
  Terminal high(const std::string& at, std::size_t segment = nowhere) {
    return line_at(0, Line::high, built.end(at), segment);
  }
  Terminal low(const std::string& at, std::size_t segment = nowhere) {
    return line_at(0, Line::low, built.end(at), segment);
  }

  Interval ohms(const std::vector<PresentFault>& faults, const Terminal& red, const Terminal& black) const {
    const Predicted shown = Electrical(built.network, values).ohms(faults, situation, red, black);
    REQUIRE_MESSAGE(shown.value.has_value(), shown.why);
    return *shown.value;
  }
  Interval volts(const std::vector<PresentFault>& faults, const Terminal& red,
                 const Terminal& black = battery_negative()) const {
    const Predicted shown = Electrical(built.network, values).volts(faults, situation, red, black);
    REQUIRE_MESSAGE(shown.value.has_value(), shown.why);
    return *shown.value;
  }
  Interval pair(const std::vector<PresentFault>& faults, const std::string& at = "DLC") {
    return ohms(faults, high(at), low(at));
  }
};

inline Situation battery_off() {
  Situation situation;
  situation.battery_connected = false;
  return situation;
}

inline Situation awake() {
  Situation situation;
  situation.key = KeyState::run;
  situation.asleep = false;
  return situation;
}

}  // namespace whichwire::test
