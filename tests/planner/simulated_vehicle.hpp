// A vehicle that is not there: faults drawn by their odds, as a meter finds them, and the scan that they give with the
// noise of life.
#pragma once

#include <optional>
#include <whichwire/electrical.hpp>
#include <whichwire/expected_scan.hpp>

#include "planner/dice.hpp"

namespace whichwire::test {

struct SimulatedVehicle {
  std::vector<Fault> faults;                        ///< those there now, and those that come and go
  std::vector<PresentFault> there;                  ///< what a meter finds at any time
  std::vector<std::vector<PresentFault>> at_times;  ///< and what it finds while one that comes and goes is there
  Scan scan;
};

/// One fault, in one vehicle of ten two. nullopt where nobody would complain: all answers, all works, nothing is
/// stored.
std::optional<SimulatedVehicle> simulated_vehicle(const Effects& effects, Dice& dice);

/// Another scan of it, after its codes were cleared: only what is there now has stored any since.
Scan scan_after_clearing(const Effects& effects, const SimulatedVehicle& vehicle, Dice& dice);

}  // namespace whichwire::test
