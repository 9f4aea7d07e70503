// A small invented vehicle whose modules listen to one another, scans of it put together by hand, and what the
// likelihood of one question becomes. Used by the tests of evidence.
//
//   DLC --D1-- GWM --D2-- ECM --D3-- TCM --D4-- ABS        GWM --B1-- BCM --B2-- RDO        GWM --B3-- CAM (locked)
//   drive bus (bus-a, CAN high speed)                      body bus (CAN medium speed)
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <whichwire/findings.hpp>

#include "building.hpp"

namespace whichwire::test {

inline Network listening_vehicle() {
  Building built;
  for (const char* id : {"GWM", "ECM", "TCM", "ABS", "BCM", "RDO", "CAM"}) built.module(id);
  built.bus("DRV", Protocol::can_hs, 500'000);
  built.bus("BDY", Protocol::can_hs, 125'000);
  built.segment("DRV", "D1", "DLC", "GWM");
  built.segment("DRV", "D2", "GWM", "ECM");
  built.segment("DRV", "D3", "ECM", "TCM");
  built.segment("DRV", "D4", "TCM", "ABS");
  built.segment("BDY", "B1", "GWM", "BCM");
  built.segment("BDY", "B2", "BCM", "RDO");
  built.segment("BDY", "B3", "GWM", "CAM");
  built.the_bus("DRV").called = {"can-high-speed"};
  built.the_bus("BDY").called = {"can-medium-speed"};
  built.gateway("GWM", {"DRV", "BDY"});
  built.connect("DRV", "6", "14");
  built.the_module("ECM").roles = {"engine-control"};
  built.the_module("TCM").roles = {"transmission-control"};
  built.the_module("ABS").roles = {"abs"};
  built.the_module("BCM").roles = {"body-control", "instrument-cluster"};  // two in one housing
  built.the_module("GWM").listens_to = {built.module("ECM")};
  built.the_module("ECM").listens_to = {built.module("TCM"), built.module("ABS")};
  built.the_module("TCM").listens_to = {built.module("ECM")};
  built.the_module("ABS").listens_to = {built.module("ECM"), built.module("BCM")};
  built.the_module("ABS").own_codes = {{"K-417", OwnCode::Says::lost, built.module("ECM")}};
  built.the_module("RDO").optional = true;
  built.the_module("CAM").locked = true;
  return built.network;
}

/// A scan with the key on in which nothing is polled yet.
class Scanning {
 public:
  Scanning() : network_(listening_vehicle()), effects_(network_) { scan.key_stated = true; }

  ModuleSeen& sees(const std::string& module, Answer answer) {
    scan.modules.push_back({module, answer, {}});
    return scan.modules.back();
  }

  /// The module answers and stores a standard code.
  CodeSeen& stores(const std::string& module, const std::string& code, CodeState state = CodeState::current) {
    auto& seen = sees(module, Answer::yes);
    auto& stored = seen.codes.emplace_back();
    stored.written = code;
    stored.code = parse_code(code);
    stored.state = state;
    return stored;
  }

  Question answers(const std::string& module) const { return {Question::About::answers, at(module), nowhere}; }
  Question fitted(const std::string& module) const { return {Question::About::fitted, at(module), nowhere}; }
  Question hears(const std::string& a, const std::string& b) const { return {Question::About::hears, at(a), at(b)}; }
  Question bus(const std::string& module, const std::string& bus) const {
    return {Question::About::bus, at(module), index_of(network_.buses, bus)};
  }

  Evidence evidence() const { return evidence_of(effects_, scan); }

  std::size_t count(const Question& question) const {
    const auto all = evidence().observations;
    return static_cast<std::size_t>(
        std::count_if(all.begin(), all.end(), [&](const Observation& one) { return one.question == question; }));
  }

  /// Probability of what was seen about the question at a level; the test fails where there is no such evidence.
  double chance(const Question& question, Level level) const {
    for (const auto& observation : evidence().observations) {
      if (observation.question == question) {
        return std::exp(observation.log_likelihood[static_cast<std::size_t>(level)]);
      }
    }
    FAIL("nothing was seen about the question");
    return 0;
  }

  /// How many times likelier what was seen is at this level than where all is well.
  double speaks_for(Level level, const Question& question) const {
    return chance(question, level) / chance(question, Level::up);
  }

  bool doubts(const std::string& words) const {
    const auto all = evidence().doubts;
    return std::any_of(all.begin(), all.end(),
                       [&](const std::string& doubt) { return doubt.find(words) != std::string::npos; });
  }

  const Network& network() const { return network_; }
  const Effects& effects() const { return effects_; }
  Scan scan;

 private:
  std::size_t at(const std::string& module) const { return index_of(network_.modules, module); }

  Network network_;
  Effects effects_;
};

}  // namespace whichwire::test
