// A technician whose meter, leads and eyes are those of lib/reading's and lib/checks' tables, before a vehicle with
// these faults.
#pragma once

#include <string>
#include <whichwire/planner.hpp>

#include "planner/prospects.hpp"
#include "planner/simulated_vehicle.hpp"

namespace whichwire::test {

class Technician {
 public:
  Technician(const Effects& effects, const SimulatedVehicle& vehicle, Dice& dice);

  /// Does the check; `said` becomes what was typed.
  Taken answer(const NextCheck& next, std::string& said);

 private:
  std::string seen(const std::string& check);
  std::string read(const Measurement& how);
  double value_within(const Interval& limits);
  std::vector<PresentFault> there_now();

  Electrical electrical_;
  const SimulatedVehicle& vehicle_;
  Hypothesis truth_;
  std::vector<Prospect> prospects_;
  Dice& dice_;
  int count_ = 0;
};

}  // namespace whichwire::test
