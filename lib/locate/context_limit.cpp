// What disturbers may improve while they lose less than a price.
#include <algorithm>
#include <cmath>

#include "locate/context.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {

double Context::limit(double allowance) {
  std::vector<Prospect*> disturbers;
  for (Prospect& prospect : prospects_) {
    if (!prospect.hidden && prospect.disturbs && prospect.company && prospect.gain > 0 && prospect.penalty > 0)
      disturbers.push_back(&prospect);
  }
  if (disturbers.empty()) return -INFINITY;
  double others = total_gain_;
  for (const Prospect& prospect : prospects_) {
    if (!prospect.hidden) others += prospect.log1p_odds;
  }
  // Together they take a tenth of what is allowed.
  const double each = allowance - std::log(10.0 * static_cast<double>(disturbers.size()));
  double sum = -INFINITY;
  for (Prospect* prospect : disturbers) {
    const double all = problem_.log_odds[prospect->candidate] + others;
    if (all - prospect->penalty > each) continue;  // it may lose all and still count
    const auto& cuts = problem_.undo.cuts_of(prospect->candidate);
    if (!spares_.spend(prospect->raises.size() * (cuts.size() + prospect->raises.size()))) break;
    limit(*prospect, all - each);
    sum = log_sum(sum, each);
  }
  return sum;
}

/// At what it loses it is spared only by certain others, and beside each of them it reaches only so far. So it improves
/// an observation only at the price of all that none of those spares it beside which it still gets there.
void Context::limit(Prospect& prospect, double price) {
  const Undoers& undoers = spares_.of(prospect.candidate);
  const auto& signature = problem_.signatures[problem_.signature[prospect.candidate]];
  lost_.assign(undoers.sorts.size(), 0);
  for (const auto& [observation, level] : prospect.raises) {
    if (level <= floor_[observation]) continue;
    const double loss = -at_best(observation, level);
    if (loss <= 0) continue;
    const auto alone = std::lower_bound(signature.begin(), signature.end(), observation,
                                        [](const Raised& raised, std::uint32_t o) { return raised.question < o; });
    // What it raises only beside the chosen may be spared in other ways.
    if (alone == signature.end() || alone->question != observation || alone->level != level) continue;
    lost_[undoers.sort_at(observation)] += loss;
  }
  price_.assign(level_.size(), 0);
  prospect.kept = 0;
  for (std::size_t s = 0; s < lost_.size(); ++s) {
    if (lost_[s] == 0) continue;
    reached_.resize(level_.size());
    reached_.reset();
    bool any = false;
    for (const auto i : undoers.sorts[s]) {
      const Beside& one = undoers.beside[i];
      if (place_[one.cut] == 0) continue;
      any = true;
      reached_ |= one.raised;
    }
    if (!any) prospect.kept += lost_[s];
    for (const auto& [other, its_level] : prospect.raises) {
      if (!reached_.test(other)) price_[other] += lost_[s];
    }
  }
  auto& only = only_store_.emplace_back(level_.size());
  for (const auto& [observation, level] : prospect.raises) {
    if (price_[observation] < price) only.set(observation);
  }
  prospect.only = &only;
}

double Context::denied(const Prospect& prospect) const {
  double sum = 0;
  if (prospect.only == nullptr) return sum;
  const auto denied_at = [&](std::uint32_t observation, Level level) {
    return level > floor_[observation] && !allowed(prospect, observation) ? std::max(0.0, change(observation, level))
                                                                          : 0;
  };
  for (const auto& [observation, level] : prospect.raises) sum += denied_at(observation, level);
  // Together with others it may improve them all the same.
  auto raised = prospect.raises.begin();
  visit_joint(prospect, [&](std::uint32_t observation, Level most) {
    while (raised != prospect.raises.end() && raised->question < observation) ++raised;
    if (raised == prospect.raises.end() || raised->question != observation) return;
    sum -= joint_share() * std::min(denied_at(observation, raised->level), joint_change(observation, most));
  });
  return sum;
}

}  // namespace whichwire::search
