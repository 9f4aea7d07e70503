// The facts of the trade that hold throughout, as what must follow from the engine's predictions.
// Source of every one: common practice, no source.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "asking.hpp"

using namespace whichwire;
using test::Asking;
using test::Building;
using test::by_effects;

namespace {

/// Two buses behind a gateway, invented: D with ECM, TCM and ABS, B with BCM and HVA; feeds, grounds and a reference.
Network small_vehicle() {
  Building b;
  for (const char* id : {"GWM", "ECM", "TCM", "ABS", "BCM", "HVA"}) b.module(id);
  b.feed("F1", "", true);
  b.feed("IGN", "", false, Feed::Kind::switched);
  b.feed("F2", "IGN");
  b.feed("F3", "IGN");
  b.ground("G1");
  b.ground("G2");
  b.power_pin("ECM", "A1", "F1");
  b.power_pin("ECM", "A2", "F2");
  b.ground_pin("ECM", "A3", "G1");
  b.power_pin("TCM", "1", "F3");
  b.power_pin("HVA", "1", "F3");
  b.ground_pin("ABS", "1", "G2");
  b.ground_pin("BCM", "1", "G2");
  b.reference("ECM", "5V");
  b.bus("D", Protocol::can_hs, 500'000);
  b.bus("B", Protocol::can_hs, 125'000);
  b.segment("D", "D1", "GWM", "S1");
  b.segment("D", "D2", "S1", "ECM");
  b.segment("D", "D3", "S1", "S2");
  b.segment("D", "D4", "S2", "TCM");
  b.segment("D", "D5", "S2", "ABS");
  b.segment("D", "D6", "S1", "DLC");
  b.segment("B", "B1", "GWM", "S3");
  b.segment("B", "B2", "S3", "BCM");
  b.segment("B", "B3", "S3", "HVA");
  b.terminator("D", "GWM");
  b.terminator("D", "ECM");
  b.gateway("GWM", {"D", "B"});
  b.connect("D", "6", "14");
  return b.network;
}

/// Modules that do not answer.
std::set<std::string> silent(const Network& network, const std::vector<Fault>& faults, KeyState key = KeyState::run) {
  const Effects effects(network);
  std::vector<Question> questions;
  for (std::size_t m = 0; m < network.modules.size(); ++m) questions.push_back({Question::About::answers, m});
  const auto levels = effects.predict(faults, questions, {key, false});
  std::set<std::string> result;
  for (std::size_t m = 0; m < questions.size(); ++m) {
    if (levels[m] == Level::down && effects.awake(m, key)) result.insert(network.modules[m].id);
  }
  return result;
}

std::set<std::string> silent(const char* fault) {
  const Network network = small_vehicle();
  return silent(network, test::faults_from(network, {fault}));
}

/// Every question of the network.
std::vector<Question> all_questions(const Network& network, const Effects& effects) {
  std::vector<Question> all;
  for (std::size_t a = 0; a < network.modules.size(); ++a) {
    all.push_back({Question::About::answers, a});
    for (std::size_t b = 0; b < network.modules.size(); ++b) all.push_back({Question::About::hears, a, b});
    for (std::size_t b = 0; b < network.buses.size(); ++b) all.push_back({Question::About::bus, a, b});
  }
  std::erase_if(all, [&](const Question& question) { return !effects.answerable(question); });
  return all;
}

using Ids = std::set<std::string>;

}  // namespace

TEST_CASE("every other module on the bus answers and one does not: the fault is at that module, not on the bus") {
  const Network network = small_vehicle();
  const std::set<std::string> at_tcm = {"TCM", "TCM/1", "TCM/ground", "D4"};
  int found = 0;
  for (const Fault& fault : faults_of(network)) {
    if (fault.comes_and_goes || silent(network, {fault}) != Ids{"TCM"}) continue;
    ++found;
    const std::string text = text_of(network, fault);
    CAPTURE(text);
    CHECK(at_tcm.contains(part_of(network, fault)));
    CHECK(fault.kind != FaultKind::short_circuit);  // a short of its stub is a short of the bus
  }
  CHECK(found >= 7);  // pins, stub (three ways), dead, unconfigured
}

TEST_CASE("modules that miss the silent one's messages store codes about it, and that is no second fault") {
  const Asking vehicle = by_effects(small_vehicle());
  for (const char* listener : {"GWM", "ECM", "ABS", "BCM", "HVA"}) {
    CAPTURE(listener);
    CHECK(vehicle.hears(listener, "TCM", {"dead TCM"}) == Level::down);
    CHECK(vehicle.answers(listener, {"dead TCM"}) == Level::up);
  }
}

TEST_CASE("a module whose reference is pulled down looks exactly like a dead one") {
  const Network network = small_vehicle();
  const Effects effects(network);
  const auto questions = all_questions(network, effects);
  const auto dead = effects.predict(test::faults_from(network, {"dead ECM"}), questions, {});
  for (const char* rival : {"short ECM/5V ground", "short ECM/5V supply", "open ECM/A1", "open ECM/A2", "open ECM/A3",
                            "open F1", "open F2", "open G1", "unconfigured ECM"}) {
    CAPTURE(rival);
    CHECK(effects.predict(test::faults_from(network, {rival}), questions, {}) == dead);
  }
}

TEST_CASE("a module that is not programmed yet is as silent as a dead one") {
  CHECK(silent("unconfigured ABS") == Ids{"ABS"});
  CHECK(silent("dead ABS") == Ids{"ABS"});
}

TEST_CASE("ignition feeds tell nothing with the key off") {
  const Network network = small_vehicle();
  const auto open_feed = test::faults_from(network, {"open F2"});
  CHECK(silent(network, open_feed, KeyState::run) == Ids{"ECM"});
  CHECK(silent(network, open_feed, KeyState::off).empty());
}

TEST_CASE("a plug forgotten after testing makes its neighbours store a code") {
  const Asking vehicle = by_effects(small_vehicle());
  CHECK(vehicle.hears("ECM", "ABS", {"open D5"}) == Level::down);
  CHECK(vehicle.hears("ECM", "ABS", {"open D5 comes-and-goes"}) == Level::was_down);  // plugged in again: history
  CHECK(vehicle.answers("ABS", {"open D5 comes-and-goes"}) == Level::up);
}

TEST_CASE("nothing answers: the tester's own connector, or the bus that it is on") {
  const Ids all = {"GWM", "ECM", "TCM", "ABS", "BCM", "HVA"};
  for (const char* fault : {"open DLC/6", "open DLC/14", "open DLC/feed", "open DLC/ground", "open D6",
                            "short D3 other-line", "holds ABS D", "babbles TCM D", "added-device D"}) {
    CAPTURE(fault);
    CHECK(silent(fault) == all);
  }
}

TEST_CASE("the tester's connector does not disturb what the modules say to each other") {
  const Asking vehicle = by_effects(small_vehicle());
  for (const char* fault : {"open DLC/feed", "open DLC/ground", "open D6"}) {
    CAPTURE(fault);
    CHECK(vehicle.hears("ECM", "TCM", {fault}) == Level::up);
  }
}

TEST_CASE("neighbours silent on one bus: the wire between them and the rest") {
  CHECK(silent("open D3") == Ids{"TCM", "ABS"});
  CHECK(silent("open D3 high") == Ids{"TCM", "ABS"});
}

TEST_CASE("a whole bus silent while others answer: a short, a holder, or the gateway's port to it") {
  for (const char* fault : {"short B3 high ground", "short B3 other-line", "holds HVA B", "port-dead GWM B", "open B1",
                            "not-forwarding GWM"}) {
    CAPTURE(fault);
    CHECK(silent(fault) == Ids{"BCM", "HVA"});
  }
  CHECK(silent("dead GWM") == Ids{"BCM", "GWM", "HVA"});
}

TEST_CASE("modules silent on different buses: the feed or ground that they share") {
  CHECK(silent("open F3") == Ids{"HVA", "TCM"});
  CHECK(silent("open G2") == Ids{"ABS", "BCM"});
  CHECK(silent("open IGN") == Ids{"ECM", "HVA", "TCM"});
}

TEST_CASE("a module that lost its feed can take the bus down, and the bus recovers when it is unplugged") {
  const Network network = small_vehicle();
  CHECK(silent(network, test::faults_from(network, {"back-feeds TCM D"})) ==
        Ids{"ABS", "BCM", "ECM", "GWM", "HVA", "TCM"});
  CHECK(silent(network, test::faults_from(network, {"back-feeds TCM D", "open D4"})) == Ids{"TCM"});
}

TEST_CASE("a break beyond a short brings the far side back") {
  const Network network = small_vehicle();
  CHECK(silent(network, test::faults_from(network, {"short D4 other-line", "open D3"})) == Ids{"ABS", "TCM"});
}
