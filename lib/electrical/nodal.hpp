// Nodal analysis: ohms and volts between two nodes of a circuit, with their limits.
// Ohms: exact limits from two solves, all elements low and all high (Rayleigh's law: Doyle and Snell, "Random Walks and
// Electric Networks", 1.4). Volts are a quotient of two functions linear in each single conductance and linear in each
// source, so they rise or fall throughout with each value alone and their extremes lie at corners. The corner is found
// by following the signs of the sensitivities (adjoint method) from the nominal point until they hold. That is a climb,
// not a proof: where a circuit has several such hills, the limit may be a lower one.
// Tests: tests/electrical/closed_forms.cpp, limits.cpp and ngspice.cpp.
#pragma once

#include "electrical/circuit.hpp"

namespace whichwire {

/// Ohms between two nodes; sources count as their ohms. Infinite where nothing joins them.
Interval ohms_between(const Circuit& circuit, Node red, Node black);

/// Volts from `red` to `black` as shown by a meter whose input has `meter_ohms`.
Interval volts_between(const Circuit& circuit, Node red, Node black, double meter_ohms);

}  // namespace whichwire
