// A sensor supply of 5 V: good, pulled down by a load, pulled down by its wire, not put out, pulled up.
// The method is the trade's (common practice, no source): unplug the loads one by one, then lamp or ohms on the wire.
#include <doctest/doctest.h>

#include <cmath>

#include "bench.hpp"

namespace whichwire::test {
namespace {

Bench sensors() {
  Building made;
  made.reference("ECM", "5V-1");
  made.the_module("ECM").references.front().loads = {"pedal sensor", "rail sensor", "cam sensor"};
  return {made, default_electrical_values(), awake()};
}

const Terminal wire = reference_of(0, 0);

std::vector<PresentFault> shorted_in(const Bench& bench, std::size_t load, const char* to = "ground") {
  auto faults = bench.faults({(std::string("short ECM/5V-1 ") + to).c_str()});
  faults.front().load = load;
  return faults;
}

Predicted lamp(const Bench& bench, const std::vector<PresentFault>& faults) {
  return Electrical(bench.built.network, bench.values).lamp(faults, bench.situation);
}

}  // namespace

TEST_CASE("a good reference lies within 4.8 and 5.2 V, with all loads and with none") {
  Bench bench = sensors();
  CHECK(bench.volts({}, wire).low > 4.8);
  CHECK(bench.volts({}, wire).high < 5.2);
  bench.situation.loads_off = {{0, 0, 0}, {0, 0, 1}, {0, 0, 2}};
  CHECK(bench.volts({}, wire).nominal == doctest::Approx(5).epsilon(1e-3));
}

TEST_CASE("a reference pulled down by one load comes back when just that load is unplugged") {
  Bench bench = sensors();
  const auto faults = shorted_in(bench, 1);
  CHECK(bench.volts(faults, wire).nominal < 0.5);
  bench.situation.loads_off = {{0, 0, 0}};
  CHECK(bench.volts(faults, wire).nominal < 0.5);
  bench.situation.loads_off = {{0, 0, 0}, {0, 0, 1}};
  CHECK(bench.volts(faults, wire).nominal == doctest::Approx(5).epsilon(0.01));
}

TEST_CASE("shorted in the wire it stays down with all loads off, and the lamp to battery positive lights") {
  Bench bench = sensors();
  const auto faults = shorted_in(bench, nowhere);
  bench.situation.loads_off = {{0, 0, 0}, {0, 0, 1}, {0, 0, 2}};
  CHECK(bench.volts(faults, wire).nominal < 0.5);
  bench.situation.load = TestLoad{battery_positive(), wire, 5, std::nullopt};
  CHECK(lamp(bench, faults).why == "no lamp on a reference while its module is plugged in");
  bench.situation.unplugged = {0};
  REQUIRE(lamp(bench, faults).value.has_value());
  CHECK(lamp(bench, faults).value->nominal > 11);
  CHECK(std::abs(lamp(bench, {}).value->nominal) < 0.1);
  bench.situation.battery_connected = false;
  bench.situation.load = std::nullopt;
  CHECK(bench.ohms(faults, wire, battery_negative()).high < 20);
  CHECK(bench.ohms({}, wire, battery_negative()).nominal > 1e9);
}

TEST_CASE("not put out: nothing on the wire, and no short either") {
  Bench bench = sensors();
  for (const char* words : {"dead ECM", "open ECM/5V-1"}) {
    CHECK(bench.volts(bench.faults({words}), wire).high < 0.1);
  }
  bench.situation.unplugged = {0};
  CHECK(bench.volts({}, wire).high < 0.1);
  bench.situation.load = TestLoad{battery_positive(), wire, 5, std::nullopt};
  CHECK(std::abs(lamp(bench, {}).value->nominal) < 0.5);  // what the loads draw does not light it
}

TEST_CASE("shorted to supply it shows the battery") {
  Bench bench = sensors();
  CHECK(bench.volts(shorted_in(bench, nowhere, "supply"), wire).nominal == doctest::Approx(12.6).epsilon(0.02));
}

TEST_CASE("a short with more ohms pulls the reference down less") {
  Bench bench = sensors();
  double before = 0;
  for (const double ohms : {1.0, 10.0, 30.0, 100.0, 1000.0}) {
    auto faults = shorted_in(bench, nowhere);
    faults.front().ohms = exactly(ohms);
    const double volts = bench.volts(faults, wire).nominal;
    CHECK(volts > before);
    before = volts;
  }
  CHECK(before == doctest::Approx(5).epsilon(0.01));
}

}  // namespace whichwire::test
