// A circuit of resistors and sources whose values lie within limits: what the builders make and the solver takes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>
#include <whichwire/electrical.hpp>

namespace whichwire {

using Node = std::uint32_t;
constexpr Node ground_node = 0;
constexpr Node no_node = static_cast<Node>(-1);
constexpr double open_circuit = std::numeric_limits<double>::infinity();

/// Nothing conducts better than this: far below what a meter shows, and not so little that the equations lose digits.
constexpr double least_ohms = 1e-4;

/// Which way current may flow through an element.
enum class Way : std::uint8_t { both, into_a, out_of_a };

/// Between two nodes: `volts` that lift `a` above `b`, behind `ohms`. A resistor has no volts.
struct Element {
  Node a = ground_node, b = ground_node;
  Interval ohms, volts = {};
  Way way = Way::both;
};

struct Circuit {
  Node nodes = 1;  ///< the first is ground
  std::vector<Element> elements;

  Node add() { return nodes++; }
  void resistor(Node a, Node b, const Interval& ohms) { elements.push_back({a, b, ohms, {}, Way::both}); }
  void source(Node a, const Interval& volts, const Interval& ohms, Way way = Way::both) {
    elements.push_back({a, ground_node, ohms, volts, way});
  }
};

constexpr Interval operator+(const Interval& x, const Interval& y) {
  return {x.low + y.low, x.nominal + y.nominal, x.high + y.high};
}

/// Both without a sign.
constexpr Interval operator*(const Interval& x, const Interval& y) {
  return {x.low * y.low, x.nominal * y.nominal, x.high * y.high};
}

constexpr Interval operator*(double factor, const Interval& x) {
  return {factor * x.low, factor * x.nominal, factor * x.high};
}

}  // namespace whichwire
