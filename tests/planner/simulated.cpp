// See simulated.hpp.
#include "planner/simulated.hpp"

#include <algorithm>
#include <whichwire/findings.hpp>

#include "planner/numbers.hpp"
#include "planner/suspects.hpp"
#include "planner/technician.hpp"

namespace whichwire::test {
namespace {

/// The repairs that the vehicle needs, as the planner names them.
std::set<std::string> needed_by(const Network& network, const SimulatedVehicle& vehicle) {
  std::size_t load = nowhere;
  for (const PresentFault& each : vehicle.there) {
    if (each.load != nowhere && load == nowhere) load = each.load;
  }
  Ranking only;
  only.explanations.push_back({{1, 1}, vehicle.faults, {}, {}, {}, {}, VerdictClass::none});
  const Suspects suspects = suspects_of(network, only, default_planner_numbers());
  const auto is_there = [&](const PresentFault& each) {
    return std::ranges::find(vehicle.there, each.fault, &PresentFault::fault) != vehicle.there.end();
  };
  const auto same = std::ranges::find_if(suspects.all, [&](const Suspect& suspect) {
    return suspect.load == load && std::ranges::all_of(suspect.variants.front().faults, is_there);
  });
  const Suspect& truth = same != suspects.all.end() ? *same : suspects.all.front();
  std::set<std::string> all;
  for (const std::size_t repair : truth.needs) all.insert(suspects.repairs[repair]);
  return all;
}

}  // namespace

double JobDone::minutes() const {
  double sum = 0;
  for (const StepDone& step : steps) sum += step.minutes;
  return sum;
}

bool JobDone::right() const { return needed.contains(last().decision.repair); }

JobDone simulated_job(const Effects& effects, SimulatedVehicle vehicle, Dice& dice) {
  constexpr std::size_t most_checks = 60;
  const Network& network = effects.network();
  JobDone done{std::move(vehicle), {}, {}, {}};
  done.needed = needed_by(network, done.vehicle);
  // The bound of the search is held to its promise elsewhere; here a coarser one does, and the planner ranks anew.
  const LocateOptions coarse{.outside = 0.0025};
  const auto planner_of = [&](const Scan& scan) {
    const Ranking ranking = locate(effects, faults_of(network), scan, coarse);
    return Planner(effects, ranking, scan, default_planner_numbers(), coarse);
  };
  Planner planner = planner_of(done.vehicle.scan);
  Technician technician(effects, done.vehicle, dice);
  std::vector<Taken> taken;
  done.at_first = planner.assess(taken);
  while (done.last().next.check && done.steps.size() < most_checks) {
    const NextCheck next = done.last().next;
    StepDone step{next.check->id, "", next.why, next.check->minutes, {}};
    if (next.by_scan()) {
      planner = planner_of(scan_after_clearing(effects, done.vehicle, dice));
      taken.insert(taken.begin(), not_scanned_once_more());
    } else {
      taken.push_back(technician.answer(next, step.said));
    }
    step.after = planner.assess(taken);
    done.steps.push_back(std::move(step));
  }
  return done;
}

}  // namespace whichwire::test
