// The wires of a bus, with what is open, corroded or shorted in them. Rules and tests: see bus_circuit.hpp.
#pragma once

#include "electrical/bus_circuit.hpp"

namespace whichwire {

/// Joins the plugs of each segment in `made`.
void add_segments(BusCircuit& made, const BusPlan& plan, std::size_t bus, const PartValues& parts,
                  const std::vector<PresentFault>& faults);

/// Whether the fault is in this line.
bool concerns(const Fault& fault, std::size_t line);

}  // namespace whichwire
