// One bus as a circuit, as it stands with these faults and what is unplugged. Wires by segment and line, terminators,
// shorts, opens, joints, and what each module puts on its lines.
//
// Where the format leaves open where in a segment a fault lies, the wire's own ohms are given to either side within
// their limits, so that the limits of a reading hold for every place. A line that is open and shorted in one segment is
// shorted on both sides of the break, as meanings.md has it. Tests: tests/electrical/ngspice.cpp, worked_examples.cpp,
// bus_readings.cpp.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "electrical/ready.hpp"

namespace whichwire {

using LinePair = std::array<Node, 2>;  ///< by Line

struct BusCircuit {
  Circuit circuit;
  Node rail = no_node;                         ///< the feeds' battery side
  std::vector<LinePair> places;                ///< by end of the plan: the part itself
  std::vector<std::array<LinePair, 2>> plugs;  ///< by segment, at `from` and `to`; the place where it is plugged in
  LinePair connector_pins{no_node, no_node};
  std::vector<std::size_t> able;  ///< modules with supply, in order: they bias the bus and may send

  Node node_at(const BusPlan& plan, const Terminal& terminal) const;  ///< no_node: no such place
};

/// What the modules do: nothing is supplied (ohms with the battery off), asleep, or awake and silent.
BusCircuit circuit_of(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                      const Situation& situation);

/// Volts of a level in this situation.
Interval volts_of(const LineSource& level, const Interval& battery, const Interval& lifted);

Interval lift_of(const Situation& situation, std::size_t module);

}  // namespace whichwire
