// The supply side as a circuit: battery, feeds in their tree, pin wires, modules as loads, ground points, body.
// A feed that is not live in this key state while the one above it is stands open: it is the switch.
// Source of its values: values.csv. Tests: tests/electrical/supply.cpp.
#pragma once

#include <vector>

#include "electrical/ready.hpp"

namespace whichwire {

struct SupplyCircuit {
  Circuit circuit;          ///< ground is the battery's negative post
  Node positive = no_node;  ///< the other post
  Node body = no_node;
  std::vector<Node> feed_in, feed_out, ground_points;
  std::vector<std::vector<Node>> power, ground;  ///< by module, then the connector; by pin, in the plug

  Node node_at(const Terminal& terminal) const;  ///< no_node: no such place
};

SupplyCircuit supply_circuit_of(const ReadyNetwork& ready, const std::vector<PresentFault>& faults,
                                const Situation& situation);

}  // namespace whichwire
