// Ohms and volts on one bus. A quiet or sleeping bus is one circuit. On a busy one a meter shows the average over time:
// the resting volts for the share of time in which nobody sends a dominant bit, and what each sender drives for its
// share. Senders that are joined by whole wires drive alike, so one of each such group stands for all of them: the
// first. Source: Ohm's law; the share of dominant bits is an own estimate. Tests: tests/electrical/bus_readings.cpp,
// ngspice.cpp.
#pragma once

#include "electrical/bus_circuit.hpp"

namespace whichwire {

Predicted bus_ohms(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                   const Situation& situation, const Terminal& red, const Terminal& black);

Predicted bus_volts(const ReadyNetwork& ready, std::size_t bus, const std::vector<PresentFault>& faults,
                    const Situation& situation, const Terminal& red, const Terminal& black);

}  // namespace whichwire
