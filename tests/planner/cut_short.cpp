// What a search that was cut short holds for likeliest, against what is there: a set that weighs less than the faults
// that made the scan is not the likeliest.
#include <doctest/doctest.h>

#include <algorithm>

#include "effort.hpp"
#include "locate/network_problem.hpp"
#include "locate/search.hpp"
#include "locate/together.hpp"
#include "planner/simulated_vehicle.hpp"
#include "shipped.hpp"

namespace whichwire::test {
namespace {

/// By place in `faults`; none where one of them cannot account for anything in this scan.
std::vector<search::Candidate> candidates_of(const std::vector<Fault>& there, const std::vector<Fault>& faults,
                                             const NetworkProblem& problem) {
  std::vector<search::Candidate> set;
  for (search::Candidate c = 0; c < problem.faults.size(); ++c) {
    if (std::ranges::find(there, faults[problem.faults[c]]) != there.end()) set.push_back(c);
  }
  return set.size() == there.size() ? set : std::vector<search::Candidate>{};
}

}  // namespace

TEST_CASE("a search that leaves most out has seldom found less than what is there") {
  const Network network = shipped("electric-car");
  const Effects effects(network);
  const std::vector<Fault> faults = faults_of(network);
  constexpr double rounding = 1e-6;
  int most_left_out = 0, not_below = 0;
  for (std::uint32_t seed = 1; seed <= share_of(40); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const auto vehicle = simulated_vehicle(effects, dice);
    if (!vehicle) continue;
    const Evidence evidence = evidence_of(effects, vehicle->scan);
    const NetworkProblem problem = problem_of(effects, faults, evidence.observations, {});
    const auto there = candidates_of(vehicle->faults, faults, problem);
    const auto found = search::search(problem.problem, {.most_work = 200'000});
    if (there.empty() || found.root->slack() <= 1) continue;
    search::Together together(problem.problem);
    ++most_left_out;
    not_below += found.root->best >= together.log_weight(there) - rounding ? 1 : 0;
  }
  CHECK(most_left_out >= static_cast<int>(share_of(20)));
  CHECK(not_below >= 0.95 * most_left_out);
}

}  // namespace whichwire::test
