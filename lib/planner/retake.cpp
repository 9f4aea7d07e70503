// See retake.hpp. Tests: tests/planner/retake.cpp.
#include "planner/retake.hpp"

#include <algorithm>

#include "planner/numbers.hpp"
#include "planner/offer.hpp"

namespace whichwire {
namespace {

/// Probability that the answer slipped and another repair is needed.
double slipped(const Suspects& suspects, const Repair& repair, const Answered& answer) {
  double sum = 0;
  for (std::size_t h = 0; h < suspects.all.size(); ++h) {
    const Suspect& suspect = suspects.all[h];
    if (suspects.repairs[suspect.repair] != repair.what) sum += suspect.weight * (1 - answer.fitting[h]);
  }
  return sum / (1 + suspects.outside);
}

}  // namespace

double cost_of_wrong(const Court& court, const Repair& repair) {
  const bool module = std::any_of(repair.likeliest.begin(), repair.likeliest.end(), inside_module);
  const PlannerNumbers& numbers = court.bench.numbers;
  return number_of(numbers, module ? "cost-wrong-part" : "cost-wrong-repair") + number_of(numbers, "cost-come-back");
}

const Prospect* retake_before(const Court& court, const Repair& repair) {
  const double wrong = cost_of_wrong(court, repair), minute = number_of(court.bench.numbers, "cost-minute");
  const Prospect* best = nullptr;
  double most = 0;
  for (const Prospect& prospect : court.bench.prospects) {
    const Answered* const answer = worth_once_more(court.weighing, prospect.candidate.check.id);
    if (answer == nullptr || !refused_for(prospect.candidate).empty()) continue;
    const double saved = slipped(court.weighing.suspects, repair, *answer) * wrong;
    const double worth = saved - minutes_once_more(court.bench, court.weighing, prospect) * minute;
    if (worth <= most) continue;
    most = worth;
    best = &prospect;
  }
  return best;
}

}  // namespace whichwire
