// The limits of a predicted reading: no choice of values within the tolerances lies outside, and some choice comes
// there.
#include <doctest/doctest.h>

#include <cmath>

#include "differential/random_network.hpp"
#include "electrical/nodal.hpp"
#include "spice.hpp"

namespace whichwire::test {
namespace {

Interval random_ohms(Dice& dice) {
  const double low = std::pow(10.0, dice.fraction() * 4 - 1);
  const double nominal = low * (1 + dice.fraction());
  return {low, nominal, dice.one_in(8) ? open_circuit : nominal * (1 + 2 * dice.fraction())};
}

/// A connected circuit with sources to ground; small enough for all its corners.
Circuit random_circuit(Dice& dice, Node nodes, std::size_t elements, bool one_way) {
  Circuit circuit;
  circuit.nodes = nodes;
  for (Node n = 1; n < nodes; ++n) circuit.resistor(n, static_cast<Node>(dice.below(n)), random_ohms(dice));
  while (circuit.elements.size() < elements) {
    const auto a = static_cast<Node>(1 + dice.below(nodes - 1));
    if (dice.one_in(2)) {
      const auto b = static_cast<Node>(dice.below(nodes));
      if (a != b) circuit.resistor(a, b, random_ohms(dice));
      continue;
    }
    const double low = dice.fraction() * 5;
    const Way way = !one_way ? Way::both : dice.one_in(2) ? Way::into_a : Way::out_of_a;
    circuit.source(a, {low, low + 1, low + 1 + dice.fraction()}, random_ohms(dice), way);
  }
  return circuit;
}

/// The circuit with every element at one of its limits, or, without `bits`, anywhere between.
Circuit fixed(const Circuit& circuit, Dice* dice, std::size_t bits) {
  Circuit chosen = circuit;
  for (Element& element : chosen.elements) {
    const auto pick = [&](const Interval& of) {
      if (dice != nullptr) {
        const double high = std::isinf(of.high) ? of.nominal * 100 : of.high;
        return exactly(of.low + dice->fraction() * (high - of.low));
      }
      const bool high = (bits & 1) != 0;
      bits >>= 1;
      return exactly(high ? of.high : of.low);
    };
    element.ohms = pick(element.ohms);
    if (element.volts != Interval{}) element.volts = pick(element.volts);
  }
  return chosen;
}

std::size_t choices(const Circuit& circuit) {
  std::size_t bits = 0;
  for (const Element& element : circuit.elements) bits += element.volts != Interval{} ? 2 : 1;
  return std::size_t{1} << bits;
}

constexpr double meter = 1e7;

}  // namespace

TEST_CASE("no choice of ohms within the tolerances leaves the limits of a reading") {
  Dice dice(11);
  for (int round = 0; round < 200; ++round) {
    const auto nodes = static_cast<Node>(dice.between(3, 12));
    const Circuit circuit = random_circuit(dice, nodes, nodes + 6, false);
    const auto a = static_cast<Node>(dice.below(nodes)), b = static_cast<Node>(dice.below(nodes));
    const Interval limits = ohms_between(circuit, a, b);
    for (int i = 0; i < 20; ++i) {
      const double ohms = ohms_between(fixed(circuit, &dice, 0), a, b).nominal;
      CHECK(ohms >= limits.low * (1 - 1e-9));
      CHECK(ohms <= limits.high * (1 + 1e-9));
    }
  }
}

TEST_CASE("the limits of volts are those of the worst of all corners, but for one circuit in fifty") {
  Dice dice(12);
  std::size_t compared = 0, missed = 0;
  double worst = 0;
  for (int round = 0; round < 150; ++round) {
    const Circuit circuit = random_circuit(dice, 4, 8, round % 2 == 1);
    const auto red = static_cast<Node>(dice.below(4));
    const auto black = static_cast<Node>((red + 1 + dice.below(3)) % 4);
    const Interval limits = volts_between(circuit, red, black, meter);
    double low = limits.nominal, high = limits.nominal;
    for (std::size_t bits = 0; bits < choices(circuit); ++bits) {
      const double volts = volts_between(fixed(circuit, nullptr, bits), red, black, meter).nominal;
      low = std::min(low, volts);
      high = std::max(high, volts);
    }
    for (const double gap : {limits.low - low, high - limits.high}) {
      ++compared;
      if (gap > 1e-6) ++missed;
      worst = std::max(worst, gap);
    }
  }
  MESSAGE("limits of volts short of the worst corner: " << missed << " of " << compared << ", by at most " << worst
                                                        << " V");
  CHECK(missed * 50 <= compared);
}

TEST_CASE("no choice of values within the tolerances leaves the limits of a bus's volts") {
  Dice dice(13);
  const std::array protocols{Protocol::can_hs, Protocol::can_ft, Protocol::can_sw, Protocol::lin, Protocol::flexray};
  for (std::size_t round = 0; round < 100; ++round) {
    SpiceCase its = random_case(dice, protocols[round % protocols.size()]);
    its.situation.key = KeyState::run;
    its.situation.asleep = dice.one_in(3);
    const auto limits = Electrical(its.network).volts(its.faults, its.situation, its.red, its.black);
    REQUIRE(limits.value.has_value());
    for (int i = 0; i < 20; ++i) {
      ElectricalValues values = default_electrical_values();
      for (ElectricalValue& each : values.rows) {
        const double high = std::isinf(each.value.high) ? 1e7 : each.value.high;
        each.value = exactly(each.value.low + dice.fraction() * (high - each.value.low));
      }
      for (PresentFault& each : its.faults) {
        if (each.ohms) each.ohms = exactly(each.ohms->nominal);
      }
      const double volts =
          Electrical(its.network, values).volts(its.faults, its.situation, its.red, its.black).value->nominal;
      CAPTURE(round);
      CHECK(volts >= limits.value->low - 1e-3);
      CHECK(volts <= limits.value->high + 1e-3);
    }
  }
}

}  // namespace whichwire::test
