// Feeds and grounds under load, and the lamp. Rules of the trade: common practice, no source; Ohm's law beside the
// check.
#include <doctest/doctest.h>

#include <cmath>

#include "bench.hpp"

namespace whichwire::test {
namespace {

/// Battery - IGN (switch) - F4 - ECM/2, battery - F1 - ECM/1; grounds G1 and G2; TCM shares F4 and G1.
Bench supplied() {
  Building made;
  made.module("ECM");
  made.module("TCM");
  made.feed("F1", "", true);
  made.feed("IGN", "", false, Feed::Kind::switched);
  made.feed("F4", "IGN");
  made.ground("G1");
  made.ground("G2");
  made.power_pin("ECM", "1", "F1");
  made.power_pin("ECM", "2", "F4");
  made.power_pin("TCM", "1", "F4");
  made.ground_pin("ECM", "3", "G1");
  made.ground_pin("ECM", "4", "G2");
  made.ground_pin("TCM", "3", "G1");
  Situation situation = awake();
  situation.unplugged = {0};
  return {made, default_electrical_values(), situation};
}

TestLoad lamp_at(const Terminal& from, const Terminal& to) { return {from, to, 5, std::nullopt}; }

double lamp(const Bench& bench, const std::vector<PresentFault>& faults) {
  const Predicted shown = Electrical(bench.built.network, bench.values).lamp(faults, bench.situation);
  REQUIRE_MESSAGE(shown.value.has_value(), shown.why);
  return shown.value->nominal;
}

std::vector<PresentFault> bad_contact(const Bench& bench, const char* words, double ohms) {
  std::vector<PresentFault> faults = bench.faults({words});
  faults.front().ohms = exactly(ohms);
  return faults;
}

}  // namespace

TEST_CASE("a good feed carries a lamp within half a volt of the battery, an open one nothing") {
  Bench bench = supplied();
  bench.situation.load = lamp_at(power_pin_of(0, 1), battery_negative());
  const double battery = bench.volts({}, battery_positive()).nominal;
  CHECK(lamp(bench, {}) > battery - 0.2);
  CHECK(std::abs(lamp(bench, bench.faults({"open F4"}))) < 1e-3);
  CHECK(std::abs(lamp(bench, bench.faults({"open IGN"}))) < 1e-3);
  CHECK(std::abs(lamp(bench, bench.faults({"open ECM/2"}))) < 1e-3);
  CHECK(lamp(bench, bench.faults({"open F1"})) > battery - 0.2);
  bench.situation.fuses_out = {2};
  CHECK(std::abs(lamp(bench, {})) < 1e-3);
}

TEST_CASE("a switched feed is dead with the key off") {
  Bench bench = supplied();
  bench.situation.key = KeyState::off;
  bench.situation.load = lamp_at(power_pin_of(0, 1), battery_negative());
  CHECK(std::abs(lamp(bench, {})) < 1e-3);
  bench.situation.load = lamp_at(power_pin_of(0, 0), battery_negative());
  CHECK(lamp(bench, {}) > 12);
}

TEST_CASE("a bad contact shows under load and hides from a meter alone") {
  Bench bench = supplied();
  const auto faults = bad_contact(bench, "open ECM/2", 20);
  const double alone = bench.volts(faults, power_pin_of(0, 1)).nominal;
  bench.situation.load = lamp_at(power_pin_of(0, 1), battery_negative());
  const double loaded = bench.volts(faults, power_pin_of(0, 1)).nominal;
  CHECK(alone > 12.4);
  CHECK(loaded < 9);
  // By Ohm's law: what the 20 ohms drop is what the lamp's current makes of it.
  const double drop = bench.volts(faults, battery_positive(), power_pin_of(0, 1)).nominal;
  CHECK(drop + loaded == doctest::Approx(bench.volts(faults, battery_positive()).nominal).epsilon(1e-6));
}

TEST_CASE("half an ohm drops 0.05 V at 0.1 A and 2.5 V at 5 A") {
  // CALC of the trade's notes; resistors as loads, chosen for the currents at about 12.6 V.
  Bench bench = supplied();
  const auto faults = bad_contact(bench, "open ECM/3", 0.5);
  const auto drop = [&](double amps, double battery) {
    bench.situation.load = TestLoad{battery_positive(), ground_pin_of(0, 0), 0, battery / amps - 0.5};
    const double with = bench.volts(faults, ground_pin_of(0, 0)).nominal;
    const double without = bench.volts({}, ground_pin_of(0, 0)).nominal;
    return with - without;
  };
  CHECK(drop(0.1, 12.6) == doctest::Approx(0.05).epsilon(0.02).scale(0));
  CHECK(drop(5, 12.6) == doctest::Approx(2.5).epsilon(0.03));
}

TEST_CASE("a good ground stays within a tenth of a volt with a module's own current, a bad one lifts it") {
  Bench bench = supplied();
  bench.situation.unplugged = {};
  CHECK(bench.volts({}, ground_pin_of(1, 0)).nominal < 0.1);
  // While the ECM is plugged in, its other ground helps out.
  CHECK(bench.volts(bad_contact(bench, "open G1", 10), ground_pin_of(1, 0)).nominal < 0.1);
  bench.situation.unplugged = {0};
  CHECK(bench.volts(bad_contact(bench, "open G1", 10), ground_pin_of(1, 0)).nominal > 0.3);
  CHECK(bench.volts(bad_contact(bench, "open G1", 10), ground_pin_of(1, 0), ground_pin_of(0, 1)).nominal > 0.3);
}

TEST_CASE("a lamp from battery positive to a ground pin lights where the ground is whole") {
  Bench bench = supplied();
  bench.situation.load = lamp_at(battery_positive(), ground_pin_of(0, 0));
  CHECK(lamp(bench, {}) > 12);
  CHECK(std::abs(lamp(bench, bench.faults({"open G1"}))) < 0.1);
  CHECK(std::abs(lamp(bench, bench.faults({"open ECM/3"}))) < 1e-3);
}

TEST_CASE("no lamp is put on data wires") {
  Bench bench{trunk(2), default_electrical_values(), awake()};
  bench.situation.load = lamp_at(bench.high("DLC"), battery_negative());
  const Predicted shown = Electrical(bench.built.network).lamp({}, bench.situation);
  CHECK_FALSE(shown.value.has_value());
  CHECK(shown.why == "no lamp on data wires");
}

}  // namespace whichwire::test
