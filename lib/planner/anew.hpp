// The ranking drawn up anew with the readings in it. A scan's own ranking may leave out what its evidence hardly speaks
// for; once readings have ruled out what it did speak for, that remainder is no longer small beside what is left. Then
// all faults are weighed again, with each reading as an observation: of single faults exactly, of sets as the worst of
// their faults where that is a loss that no other fault can undo, or a gain. Sets that are listed are then weighed by
// what the meter shows under all their faults. Tests: tests/locate/measured.cpp,
// tests/planner/simulated_jobs.cpp.
#pragma once

#include "locate/measured.hpp"
#include "planner/evidence.hpp"

namespace whichwire {

/// All single faults of the catalogue, each as a suspect.
struct SingleFaults {
  std::vector<Fault> faults;
  Suspects suspects;
  std::vector<std::size_t> fault_of;  ///< by suspect
};

SingleFaults single_faults_of(const Network& network, const PlannerNumbers& numbers);

/// By the scan and all answers that count in `weighing`.
Ranked rank_anew(const Effects& effects, const Scan& scan, const LocateOptions& options, const Bench& bench,
                 const SingleFaults& singles, const Weighing& weighing, const std::vector<Taken>& taken,
                 const Situation& now);

}  // namespace whichwire
