// See technician.hpp.
#include "planner/technician.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <sstream>
#include <whichwire/reading.hpp>

#include "planner/numbers.hpp"

namespace whichwire::test {

Technician::Technician(const Effects& effects, const SimulatedVehicle& vehicle, Dice& dice)
    : electrical_(effects.network()), vehicle_(vehicle), dice_(dice) {
  const Job job{effects.network(), vehicle.scan};
  std::set<std::size_t> modules;
  for (std::size_t m = 0; m < job.network.modules.size(); ++m) modules.insert(m);
  Suspects some;
  const auto add = [&] {
    for (Prospect& each : prospects_of(job, effects, places_of(job), some, modules))
      prospects_.push_back(std::move(each));
    some.all.clear();
  };
  for (Fault fault : faults_of(job.network)) {
    constexpr std::size_t not_too_few_each = 100;  // a check of its own goes to what has a share of the suspicion
    if (fault.comes_and_goes) continue;
    some.all.emplace_back().weight = 1;
    some.all.back().set.present = {fault};
    if (some.all.size() == not_too_few_each) add();
  }
  add();
  for (Fault fault : vehicle.faults) {
    if (!fault.comes_and_goes) {
      truth_.present.push_back(fault);
      continue;
    }
    fault.comes_and_goes = false;
    truth_.passing.push_back({fault});
  }
}

Taken Technician::answer(const NextCheck& next, std::string& said) {
  Taken taken{std::to_string(++count_), next.check->id, {}, {}, ""};
  if (next.measurement) {
    said = read(*next.measurement);
    taken.reading = *read_reading(said).reading;
  } else {
    said = taken.outcome = seen(next.check->id);
  }
  return taken;
}

std::string Technician::seen(const std::string& check) {
  const auto found =
      std::ranges::find_if(prospects_, [&](const Prospect& each) { return each.candidate.check.id == check; });
  if (found == prospects_.end()) return std::string(not_done);
  return found->candidate.outcomes[dice_.by_weight(chances_of(found->candidate, truth_))];
}

std::vector<PresentFault> Technician::there_now() {
  std::vector<PresentFault> all = vehicle_.there;
  const double share = number_of(default_planner_numbers(), "passing-now");
  for (const auto& each : vehicle_.at_times) {
    if (dice_.of(share)) all.insert(all.end(), each.begin(), each.end());
  }
  return all;
}

/// What is typed: the value with the spread of vehicles and meters; a few beside the terminal.
std::string Technician::read(const Measurement& how) {
  constexpr double beside = 0.02;
  const std::vector<PresentFault> faults = there_now();
  const bool slip = dice_.of(beside);
  if (how.kind == Reading::Kind::lamp) {
    const double share = slip ? dice_.fraction() : value_within(*electrical_.lamp(faults, how.situation).value) / 12;
    return std::string("lamp ") + (share > 0.8 ? "bright" : share > 0.3 ? "dim" : "dark");
  }
  const bool ohms = how.kind == Reading::Kind::ohms;
  double value = INFINITY;
  for (const auto& probes : how.probes) {
    const Predicted one = ohms ? electrical_.ohms(faults, how.situation, probes[0], probes[1])
                               : electrical_.volts(faults, how.situation, probes[0], probes[1]);
    if (one.value) value = std::min(value, value_within(*one.value));
  }
  if (slip) value = ohms ? (dice_.of(0.3) ? INFINITY : std::sinh(dice_.fraction() * 18)) : dice_.fraction() * 14;
  if (std::isinf(value) || value > 4e7) return "OL";
  value += dice_.bell() * (ohms ? (0.01 * value + 0.2) / 2 : (0.006 * std::abs(value) + 0.01) / 2);
  std::ostringstream text;
  text << std::round(value * 100) / 100 << (ohms ? " ohm" : " V");
  return text.str();
}

/// Half of all parts near their usual value, the rest anywhere within the limits.
double Technician::value_within(const Interval& limits) {
  if (std::isinf(limits.nominal) || std::isinf(limits.high)) return limits.nominal;
  if (!dice_.of(0.5)) return limits.low + (limits.high - limits.low) * dice_.fraction();
  const double off = dice_.bell();
  return limits.nominal + off * 0.25 * (off < 0 ? limits.nominal - limits.low : limits.high - limits.nominal);
}

}  // namespace whichwire::test
