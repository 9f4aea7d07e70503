// How long a bus and a stub may be: by what the wire loses, and by what the signal's way there and back takes.
// Sources: Philips AN96116 eq. 11 (drop), a CANopen option module manual, table 4-3 (delay), TI SLLA270 (stubs).
// Tests: tests/electrical/worked_examples.cpp.
#pragma once

namespace whichwire {

/// Round trip within a share of the bit time that is left before the sample point.
struct DelayBudget {
  double share_of_bit = 0.85;
  double circuits_ns = 336;  ///< transceivers, controller and coupling on the way
  double ns_per_m = 5;
};

double longest_bus_by_delay_m(double bits_per_second, const DelayBudget& budget = {});

/// A third of the length at which the way there and back takes as long as the edge.
double longest_stub_m(double edge_ns, double ns_per_m = 5);

}  // namespace whichwire
