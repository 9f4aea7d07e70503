// See anew.hpp. Tests: tests/planner/simulated_jobs.cpp.
#include "planner/anew.hpp"

#include <algorithm>
#include <cmath>

#include "planner/numbers.hpp"

namespace whichwire {
namespace {

/// Whether no other fault can hide what this one does to a reading, as a break hides a short, or an added terminator
/// makes up for one that a break took away.
bool cannot_be_hidden(const Fault& fault, bool at_bus_wires) {
  if (fault.comes_and_goes) return false;
  switch (fault.part) {
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::feed:
    case PartKind::ground:
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return true;
    case PartKind::segment:
    case PartKind::connector_bus_pin:
      return fault.kind == FaultKind::open && !at_bus_wires;
    case PartKind::module:
      return fault.kind == FaultKind::dead || fault.kind == FaultKind::unconfigured ||
             fault.kind == FaultKind::not_fitted;
    default:
      return false;
  }
}

/// By fault: how much likelier the reading is with it than with nothing wrong; of several variants the likeliest.
std::vector<double> ratios(const SingleFaults& singles, const Says& says) {
  std::vector<double> best(singles.faults.size());
  for (std::size_t s = 0; s < says.by_suspect.size(); ++s) {
    double& own = best[singles.fault_of[s]];
    own = std::max(own, says.by_suspect[s].likelihood / says.whole.likelihood);
  }
  return best;
}

/// Two levels, each with the largest ratio in it: what speaks for faults, or else what speaks against them.
Measured measured_of(const SingleFaults& singles, const Says& says, bool at_bus_wires) {
  constexpr double matters = 1.5;
  const std::vector<double> ratio = ratios(singles, says);
  const double most = *std::max_element(ratio.begin(), ratio.end());
  const bool gain = most > matters;
  Measured made;
  made.levels.assign(ratio.size(), Level::up);
  double mild = 0, strong = 0;
  for (std::size_t f = 0; f < ratio.size(); ++f) {
    const bool counts =
        gain ? ratio[f] > 1 : ratio[f] < 1 / matters && cannot_be_hidden(singles.faults[f], at_bus_wires);
    if (!counts) continue;
    constexpr double half_way = 0.3;
    const bool much = gain ? ratio[f] > std::sqrt(most) : ratio[f] < half_way;
    made.levels[f] = much ? Level::down : Level::unsure;
    (much ? strong : mild) = std::max(much ? strong : mild, ratio[f]);
  }
  made.log_likelihood[static_cast<std::size_t>(Level::unsure)] = mild > 0 ? std::log(mild) : 0;
  made.log_likelihood[static_cast<std::size_t>(Level::down)] = strong > 0 ? std::log(strong) : 0;
  return made;
}

/// A reading at the wires of a bus.
bool on_bus(const Bench& bench, const Taken& taken) {
  const auto place = bench.places.find(taken.check);
  const bool known = place != bench.places.end();
  if (!taken.measurement && !known) return false;
  const Measurement& how = taken.measurement ? *taken.measurement : place->second;
  return std::any_of(how.probes.begin(), how.probes.end(), [](const auto& probes) {
    return probes[0].kind == Terminal::Kind::bus_line || probes[1].kind == Terminal::Kind::bus_line;
  });
}

/// Whether any fault makes it alike, as codes that come back. What is not fitted is no fault, and takes no part in it.
bool by_any_fault(const std::vector<Fault>& faults, const Measured& reading) {
  for (std::size_t f = 0; f < faults.size(); ++f) {
    if (reading.levels[f] != Level::down && faults[f].kind != FaultKind::not_fitted) return false;
  }
  return true;
}

double log_likelihood(const Measured& reading, const std::vector<std::size_t>& faults) {
  Level worst = Level::up;
  for (const std::size_t fault : faults) worst = std::max(worst, reading.levels[fault]);
  return reading.log_likelihood[static_cast<std::size_t>(worst)];
}

/// What any fault makes alike makes a suspect of every fault of the vehicle, and where that is too much to weigh it is
/// taken to speak against one thing only: that nothing is wrong.
Ranking ranking_with(const Effects& effects, const Scan& scan, LocateOptions options, const SingleFaults& singles,
                     std::vector<Measured>& readings) {
  Ranking ranking = locate_measured(effects, singles.faults, scan, options, readings);
  std::vector<Measured> of_some;
  for (Measured& reading : readings) {
    if (!ranking.unsettled || !by_any_fault(singles.faults, reading)) {
      of_some.push_back(reading);
      continue;
    }
    reading.levels.assign(reading.levels.size(), Level::down);
    options.no_fault *= std::exp(-reading.log_likelihood[static_cast<std::size_t>(Level::down)]);
  }
  if (of_some.size() < readings.size()) ranking = locate_measured(effects, singles.faults, scan, options, of_some);
  return ranking;
}

}  // namespace

SingleFaults single_faults_of(const Network& network, const PlannerNumbers& numbers) {
  SingleFaults made;
  made.faults = faults_of(network);
  for (std::size_t f = 0; f < made.faults.size(); ++f) {
    Ranking only;
    only.explanations.push_back({{1, 1}, {made.faults[f]}, {}, {}, {}, {}, VerdictClass::none});
    for (Suspect& suspect : suspects_of(network, only, numbers).all) {
      made.suspects.all.push_back(std::move(suspect));
      made.fault_of.push_back(f);
    }
  }
  return made;
}

Ranked rank_anew(const Effects& effects, const Scan& scan, const LocateOptions& options, const Bench& bench,
                 const SingleFaults& singles, const Weighing& weighing, const std::vector<Taken>& taken,
                 const Situation& now) {
  Ranked made;
  std::vector<Measured> readings;
  for (std::size_t i = 0; i < weighing.answers.size(); ++i) {
    const Answered& answer = weighing.answers[i];
    if (!answer.weighed.counted) continue;
    made.answers.push_back(i);
    std::optional<std::size_t> outcome;
    const Says says = say_about(bench, singles.suspects, taken[i], now, answer.repeats, outcome);
    const bool at_bus_wires = !outcome && on_bus(bench, taken[i]);
    readings.push_back(measured_of(singles, says, at_bus_wires));
  }
  const Ranking ranking = ranking_with(effects, scan, options, singles, readings);
  made.suspects = suspects_of(effects.network(), ranking, bench.numbers);
  for (Suspect& suspect : made.suspects.all) {
    std::vector<std::size_t> own;
    for (const Fault& fault : faults_in(suspect)) {
      own.push_back(static_cast<std::size_t>(std::find(singles.faults.begin(), singles.faults.end(), fault) -
                                             singles.faults.begin()));
    }
    double log = 0;
    for (const Measured& reading : readings) log += log_likelihood(reading, own);
    suspect.weight *= std::exp(-log);
  }
  return made;
}

}  // namespace whichwire
