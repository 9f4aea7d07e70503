// See repairs.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/repairs.hpp"

#include <algorithm>
#include <numeric>

#include "locate/coarse.hpp"

namespace whichwire {

std::vector<Repair> repairs_of(const Network& network, const Weighing& weighing) {
  const Suspects& suspects = weighing.suspects;
  std::vector<Repair> all;
  const std::vector<double> sums = by_repair(suspects);
  const double total = 1 + suspects.outside;
  std::vector<double> passing(sums.size());
  for (const Suspect& suspect : suspects.all) passing[suspect.repair] += suspect.passing() ? suspect.weight : 0;
  std::vector<std::size_t> order(sums.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return coarse(sums[a]) > coarse(sums[b]); });
  for (const std::size_t r : order) {
    std::vector<const Suspect*> own;
    for (const Suspect& suspect : suspects.all) {
      if (suspect.repair == r) own.push_back(&suspect);
    }
    if (own.empty()) continue;
    Repair& made = all.emplace_back();
    made.what = suspects.repairs[r];
    made.probability = {sums[r] / total, (sums[r] + suspects.outside) / total};
    made.at_first = weighing.at_first[r];
    made.passing = passing[r] > sums[r] / 2;
    std::stable_sort(own.begin(), own.end(), [](const auto* a, const auto* b) { return a->weight > b->weight; });
    for (const Suspect* suspect : own) {
      std::string words;
      const auto add = [&](const Fault& fault, const char* after) {
        words += (words.empty() ? "" : " + ") + text_of(network, fault) + after;
      };
      for (const Fault& fault : suspect->set.present) add(fault, "");
      for (const auto& alone : suspect->set.passing) add(alone.front(), " comes and goes");
      if (std::find(made.faults.begin(), made.faults.end(), words) == made.faults.end()) made.faults.push_back(words);
    }
    made.likeliest = faults_to_repair(*own.front());
    made.load = own.front()->load_name;
  }
  return all;
}

}  // namespace whichwire
