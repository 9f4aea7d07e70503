// Idea, source and tests: see wire.hpp.
#include "electrical/wire.hpp"

#include "electrical/values.hpp"

namespace whichwire {

WireTable::WireTable(const ElectricalValues& values)
    : length_(value_of(values, "wire.length")),
      share_(value_of(values, "wire.length-share")),
      area_(value_of(values, "wire.area")),
      supply_length_(value_of(values, "supply.length")),
      supply_area_(value_of(values, "supply.area")) {
  constexpr double reference_celsius = 20;
  constexpr double metres_a_km = 1000;
  const double coefficient = value_of(values, "wire.temperature-coefficient").nominal;
  const Interval celsius = value_of(values, "wire.temperature");
  const auto factor = [&](double t) { return 1 + coefficient * (t - reference_celsius); };
  const Interval warmth{factor(celsius.low), factor(celsius.nominal), factor(celsius.high)};
  ohm_mm2_per_m_ =
      (1 / metres_a_km) * (value_of(values, "wire.resistivity") * value_of(values, "wire.strand-factor") * warmth);
}

Interval WireTable::ohms(const Interval& length_m, const Interval& area_mm2) const {
  const Interval thinner{1 / area_mm2.high, 1 / area_mm2.nominal, 1 / area_mm2.low};
  return ohm_mm2_per_m_ * length_m * thinner;
}

Interval WireTable::bus_wire(std::optional<double> length_m, std::optional<double> area_mm2) const {
  return ohms(length_m ? *length_m * share_ : length_, area_mm2 ? exactly(*area_mm2) : area_);
}

Interval WireTable::supply_wire() const { return ohms(supply_length_, supply_area_); }

}  // namespace whichwire
