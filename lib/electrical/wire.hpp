// Ohms of a piece of wire from its length and gauge: 17.241/area times stranding and temperature factors.
// Source: IEC 60228 as in the table of values. Tests: tests/electrical/worked_examples.cpp.
#pragma once

#include <optional>

#include "electrical/circuit.hpp"

namespace whichwire {

/// The numbers of the table that wires need.
class WireTable {
 public:
  explicit WireTable(const ElectricalValues& values);

  /// One conductor of a bus; what is not known is taken from the table.
  Interval bus_wire(std::optional<double> length_m, std::optional<double> area_mm2) const;

  /// The wire of a feed or ground pin.
  Interval supply_wire() const;

 private:
  Interval ohms(const Interval& length_m, const Interval& area_mm2) const;

  Interval ohm_mm2_per_m_, length_, share_, area_, supply_length_, supply_area_;
};

}  // namespace whichwire
