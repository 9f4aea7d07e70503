// Worked examples of makers' notes and manuals, recomputed. The source of each stands beside it.
#include <doctest/doctest.h>

#include <cmath>

#include "bench.hpp"
#include "electrical/bus_limits.hpp"
#include "electrical/nodal.hpp"
#include "electrical/values.hpp"
#include "electrical/wire.hpp"

namespace whichwire::test {
namespace {

/// Ohms of a bus of `modules` with this differential resistance each and two terminators of 120.
double loaded_bus(std::size_t modules, double differential) {
  Bench bench{trunk(modules), bare(), battery_off()};
  *row(bench.values, "can-hs.off.ohms") = exactly(differential / 2);
  return bench.pair({}).nominal;
}

/// Volts that reach the far end of a line of `length` when the sender puts out `sent`; all other nodes and one
/// terminator sit there, one terminator with the sender.
double received(double sent, double length, double ohms_per_m, double terminator, double differential, int nodes) {
  Circuit circuit;
  const Node high = circuit.add(), low = circuit.add(), far_high = circuit.add(), far_low = circuit.add();
  circuit.elements.push_back({high, low, exactly(least_ohms), exactly(sent), Way::both});
  circuit.resistor(high, far_high, exactly(length * ohms_per_m));
  circuit.resistor(low, far_low, exactly(length * ohms_per_m));
  circuit.resistor(far_high, far_low, exactly(terminator));
  for (int i = 1; i < nodes; ++i) circuit.resistor(far_high, far_low, exactly(differential));
  circuit.resistor(low, ground_node, exactly(1));  // so that there is a ground
  return volts_between(circuit, far_high, far_low, 1e12).nominal;
}

/// Longest line at which the far end still gets the threshold and a margin of what is above it.
double longest_by_drop(double ohms_per_m, int nodes) {
  constexpr double sent = 1.5, threshold = 1.0, margin = 0.2, terminator = 118, differential = 20000;
  const double wanted = threshold + margin * (sent - threshold);
  double low = 0, high = 2000;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (received(sent, middle, ohms_per_m, terminator, differential, nodes) > wanted ? low : high) = middle;
  }
  return low;
}

}  // namespace

TEST_CASE("W1, W2: so many nodes bring the bus to the 45 ohms that a driver must work down to") {
  // TI isolated CAN FAQ (ZHCAAG9B): 40 kohm, 222 nodes, 45 ohms. Recomputed: 45.01.
  CHECK(loaded_bus(222, 40000) == doctest::Approx(45.01).epsilon(5e-4));
  // TI SN65HVD255 (SLLSEA2C) p. 18: 30 kohm, 167 nodes, 45 ohms. Recomputed: 44.98.
  CHECK(loaded_bus(167, 30000) == doctest::Approx(44.98).epsilon(5e-4));
}

TEST_CASE("W4, W5, W6: the longest bus by what its wire loses, for 32, 64 and 100 nodes") {
  // Philips AN96116 eq. 11, parameters as in ABB FCAN-01 p. 34; lengths: CANopen cable table, in metres. The ohms per
  // metre were fitted to that table, so the nine values check the shape of the formula, not the three of them.
  struct Row {
    double ohms_per_m;
    std::array<double, 3> metres;
  };
  const std::array<Row, 3> table{Row{0.0907, {200, 170, 150}}, Row{0.0504, {360, 310, 270}},
                                 Row{0.0330, {550, 470, 410}}};
  const std::array<int, 3> nodes{32, 64, 100};
  for (const Row& each : table) {
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      CHECK(std::abs(longest_by_drop(each.ohms_per_m, nodes[i]) - each.metres[i]) <= 5);  // the table goes by tens
    }
  }
}

TEST_CASE("W7: the longest bus by the way there and back") {
  // Siemens MICROMASTER CANopen module manual, table 4-3.
  const std::vector<std::pair<double, double>> table{{1000, 18}, {800, 39},  {500, 103}, {250, 273},
                                                     {125, 613}, {50, 1633}, {20, 4183}, {10, 8433}};
  for (const auto& [kilobits, metres] : table) {
    CHECK(longest_bus_by_delay_m(kilobits * 1000) == doctest::Approx(metres).epsilon(0.5 / metres));
  }
}

TEST_CASE("W8, W9: a ground that lies 7.5 V higher moves the resting level to the middle of both") {
  // Microchip AN228 p. 8-9: receiver +12 V, dominant CAN_H at most 4.5 V: 7.5 V; the bus then rests at 6.25 V for the
  // one and at -1.25 V for the other node.
  CHECK(12 - 4.5 == doctest::Approx(7.5));
  Bench bench{trunk(2), with({{"can-hs.rest.volts", exactly(2.5)}, {"can-hs.rest.ohms", exactly(25000)}}), awake()};
  bench.situation.bus_load = exactly(0);
  bench.situation.lifted = {{1, exactly(7.5)}};
  const double at_first = bench.volts({}, bench.high("DLC")).nominal;
  CHECK(at_first == doctest::Approx(6.25).epsilon(2e-3));  // the meter itself takes 0.06 % away
  CHECK(at_first - 7.5 == doctest::Approx(-1.25).epsilon(1e-2));
  // W9, the other sign: -12 V and CAN_L at least 0.5 V allow -12.5 V; the bus rests at -6.25 and +6.25 V by a bias of
  // 0.
  *row(bench.values, "can-hs.rest.volts") = exactly(0);
  bench.situation.lifted = {{1, exactly(-12 - 0.5)}};
  const double other = bench.volts({}, bench.high("DLC")).nominal;
  CHECK(other == doctest::Approx(-6.25).epsilon(2e-3));
  CHECK(other + 12.5 == doctest::Approx(6.25).epsilon(2e-3));
}

TEST_CASE("W10: stubs of a third of the length whose way there and back is the edge") {
  // CAN hardware notes citing TI SLLA270: 1.1 m and 2.3 m for edges of 35 and 70 ns (1.17 and 2.33 unrounded).
  CHECK(longest_stub_m(35) == doctest::Approx(1.17).epsilon(5e-3));
  CHECK(longest_stub_m(70) == doctest::Approx(2.33).epsilon(5e-3));
}

TEST_CASE("W15: two unit loads on a single-wire bus come to at most 4596 ohms") {
  // Melexis TH8055 p. 10.
  Bench bench{trunk(2, Protocol::can_sw), bare(), battery_off()};
  *row(bench.values, "can-sw.off.ohms") = {9009, 9100, 9191};
  CHECK(bench.ohms({}, bench.high("DLC"), battery_negative()).high == doctest::Approx(4595.5).epsilon(1e-6));
}

TEST_CASE("W17: 2.5 square millimetres with a factor of 1.03 have 7.10 ohms a kilometre") {
  // Summary of IEC 60228. The stranding factor is the example's own.
  const WireTable wires(with({{"wire.strand-factor", exactly(1.03)}, {"wire.length-share", exactly(1)}}));
  CHECK(wires.bus_wire(1000, 2.5).nominal == doctest::Approx(7.10).epsilon(1e-3));
}

TEST_CASE("wires of the usual gauges stay below the maximum of IEC 60228 class 5 when they are cold") {
  // IEC 60228 class 5, plain, in mohm/m at 20 degrees, as printed by cable engineers.
  const WireTable wires(with({{"wire.temperature", exactly(20)}, {"wire.length-share", exactly(1)}}));
  for (const auto& [area, most] :
       std::vector<std::pair<double, double>>{{0.5, 39.0}, {0.75, 26.0}, {1, 19.5}, {1.5, 13.3}, {2.5, 7.98}}) {
    const Interval ohms = wires.bus_wire(1, area);
    CHECK(ohms.nominal * 1000 < most);
    CHECK(ohms.high * 1000 == doctest::Approx(most).epsilon(0.03));
  }
}

TEST_CASE("W20: two FlexRay terminators of 90 ohms read 45") {
  // A vehicle maker's training document: 90 ohms at each end, 45 with the bus off.
  Building built = trunk(2, Protocol::flexray);
  for (Terminator& each : built.network.buses[0].terminators) each.ohms = 90;
  Bench bench{built, bare(), battery_off()};
  CHECK(bench.pair({}).nominal == doctest::Approx(45).epsilon(1e-4));
}

}  // namespace whichwire::test
