// See confirm.hpp. Tests: tests/planner/confirm.cpp.
#include "planner/confirm.hpp"

#include <algorithm>
#include <cmath>

#include "checks/collector.hpp"
#include "checks/supply_checks.hpp"
#include "planner/numbers.hpp"
#include "planner/offer.hpp"

namespace whichwire {
namespace {

/// How far apart a check's results lie with this fault and with nothing wrong: 0 alike, 1 never the same.
double shown(const Court& court, const Prospect& prospect, const Suspect& suspect, const Fault& fault) {
  Suspects two;
  two.all.resize(2);
  two.all[0].set.present = {fault};
  two.all[1].variants = {Variant{}};
  for (const Variant& variant : suspect.variants) {
    Variant& own = two.all[0].variants.emplace_back(Variant{variant.share, {}});
    for (const PresentFault& each : variant.faults) {
      if (each.fault == fault) own.faults.push_back(each);
    }
  }
  const ReadingForecast forecast(court.bench.meter, two, court.bench.numbers);
  const auto rows = forecast.chances(prospect, {});
  if (rows.empty()) return 0;
  double apart = 0;
  for (std::size_t o = 0; o < rows[0].size(); ++o) apart += std::abs(rows[0][o] - rows[1][o]) / 2;
  return apart;
}

/// Those of the candidates that are prospects.
std::vector<const Prospect*> prospects_among(const Court& court, const std::vector<Candidate>& candidates) {
  std::vector<const Prospect*> all;
  for (const Candidate& candidate : candidates) {
    const Prospect* prospect = court.bench.find(candidate.check.id);
    if (prospect != nullptr) all.push_back(prospect);
  }
  return all;
}

/// The checks that a fault of this part calls for.
std::vector<const Prospect*> about(const Court& court, const Job& job, const Fault& fault) {
  Collector collector(job);
  collector.add_for(fault);
  return prospects_among(court, collector.candidates);
}

/// Those that are made at the part itself: what a module without supply shows elsewhere tells no pin from another.
std::vector<const Prospect*> at_part(const Court& court, const Job& job, const Fault& fault) {
  if (fault.part == PartKind::power_pin) return prospects_among(court, {feed_pin_check(job, fault.owner, fault.item)});
  if (fault.part == PartKind::ground_pin)
    return prospects_among(court, {ground_pin_check(job, fault.owner, fault.item)});
  return about(court, job, fault);
}

bool can_be_had(const Court& court, const Prospect& prospect) {
  return !answered(court.weighing, prospect.candidate.check.id) && refused_for(prospect.candidate).empty();
}

Confirmation confirmation_of(const Court& court, const Suspect& suspect, const Fault& fault) {
  constexpr double surely = 0.7;
  const Network& network = court.effects.network();
  Confirmation made{"a direct check of " + part_of(network, fault), "", nullptr};
  for (const Prospect* prospect : at_part(court, {network, court.scan}, fault)) {
    const Check& check = prospect->candidate.check;
    if (shown(court, *prospect, suspect, fault) < surely) continue;
    if (made.by.empty())
      made.by = answered_by(court.weighing, check.id, [](const Answered& each) { return !each.weighed.good; });
    const bool quick = check.minutes <= number_of(court.bench.numbers, "confirm-minutes");
    if (quick && can_be_had(court, *prospect) &&
        (made.check == nullptr || check.minutes < made.check->candidate.check.minutes))
      made.check = prospect;
  }
  return made;
}

/// By an answer of any outcome, or only by the good one.
Confirmation seen_by(const Court& court, std::string what, const std::string& check, bool only_good) {
  const Prospect* prospect = court.bench.find(check);
  if (answered(court.weighing, check)) prospect = nullptr;
  const auto counts = [&](const Answered& each) { return !only_good || each.weighed.good; };
  return {std::move(what), answered_by(court.weighing, check, counts), prospect};
}

/// Codes that return speak for a fault. Then whoever found that the module is not there looks for it once more.
Confirmation not_there(const Court& court, const std::string& id) {
  const std::string check = "fitted:" + id;
  const auto bad = [](const Answered& each) { return !each.weighed.good; };
  const bool doubted = !answered_by(court.weighing, "rescan", bad).empty();
  Confirmation made = seen_by(court, "whether " + id + " is fitted", check, false);
  if (!doubted || made.by.empty() || times_answered(court.weighing, check) > 1) return made;
  return {"a second look whether " + id + " is fitted: codes return", "", court.bench.find(check)};
}

std::vector<Confirmation> nothing_is_wrong(const Court& court, const Suspect& suspect) {
  std::vector<Confirmation> all;
  for (const Fault& fault : suspect.set.present) {
    all.push_back(not_there(court, court.effects.network().modules[fault.owner].id));
  }
  all.push_back(seen_by(court, "a scan after clearing all codes", "rescan", true));
  return all;
}

}  // namespace

const Prospect* best_look(const Court& court, const Suspect& suspect) {
  const Network& network = court.effects.network();
  const Prospect* best = nullptr;
  double most = 0.1;
  for (const Fault& fault : faults_to_repair(suspect)) {
    for (const Prospect* prospect : about(court, {network, court.scan}, fault)) {
      if (!can_be_had(court, *prospect)) continue;
      const double here = shown(court, *prospect, suspect, fault);
      if (here <= most) continue;
      most = here;
      best = prospect;
    }
  }
  return best;
}

std::vector<Confirmation> confirmations_of(const Court& court, const Suspect& suspect) {
  const bool nothing =
      std::all_of(suspect.needs.begin(), suspect.needs.end(), [](std::size_t repair) { return repair == nowhere; });
  if (nothing) return nothing_is_wrong(court, suspect);
  std::vector<Confirmation> all;
  for (Fault fault : faults_to_repair(suspect)) {
    fault.comes_and_goes = false;  // a look shows it while it is there
    if (inside_module(fault)) continue;
    all.push_back(confirmation_of(court, suspect, to_make_good(suspect, fault)));
  }
  return all;
}

}  // namespace whichwire
