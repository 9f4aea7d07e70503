// A whole job on a vehicle that is not there: scanned, ranked, and then what is next is done until nothing is.
#pragma once

#include <set>
#include <string>
#include <vector>
#include <whichwire/planner.hpp>

#include "planner/dice.hpp"
#include "planner/simulated_vehicle.hpp"

namespace whichwire::test {

struct StepDone {
  std::string check, said;
  NextCheck::Why why;
  double minutes = 0;
  Assessment after;
};

struct JobDone {
  SimulatedVehicle vehicle;
  Assessment at_first;
  std::vector<StepDone> steps;
  std::set<std::string> needed;  ///< the repairs that the vehicle needs, as the planner names them

  const Assessment& last() const { return steps.empty() ? at_first : steps.back().after; }
  double minutes() const;
  /// The repair named is one that is needed: nothing whole is touched. Of two faults the other shows on the next scan.
  bool right() const;
};

JobDone simulated_job(const Effects& effects, SimulatedVehicle vehicle, Dice& dice);

}  // namespace whichwire::test
