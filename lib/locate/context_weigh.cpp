// What each free candidate is worth at best where the search stands.
#include <algorithm>
#include <cmath>

#include "locate/context.hpp"

namespace whichwire::search {

double Context::joint_change(std::uint32_t observation, Level most) const {
  double best = 0;
  for (const auto level : {Level::unsure, Level::down}) {
    if (level <= most) best = std::max(best, change(observation, level));
  }
  return best;
}

void Context::weigh(Prospect& prospect) {
  prospect.ratio = problem_.log_odds[prospect.candidate];
  prospect.gain = prospect.penalty = 0;
  prospect.hidden = true;
  for (const auto& [observation, level] : prospect.raises) {
    if (level <= floor_[observation]) continue;
    prospect.hidden = false;
    const double worth = change(observation, level);
    prospect.ratio += worth;
    (worth > 0 ? prospect.gain : prospect.penalty) += std::abs(worth);
  }
}

void Context::weigh() {
  if (weighed_.size() < problem_.signatures.size()) weighed_.resize(problem_.signatures.size());
  for (Prospect& prospect : prospects_) {
    const auto signature = problem_.signature[prospect.candidate];
    const bool plain = raises_signature(problem_, prospect);
    Weighed& known = weighed_[signature];
    if (plain && known.node == node_) {
      prospect.ratio = problem_.log_odds[prospect.candidate] + known.ratio;
      prospect.gain = known.gain;
      prospect.penalty = known.penalty;
      prospect.hidden = !known.effect;
    } else {
      weigh(prospect);
      if (plain) {
        known = {node_, prospect.ratio - problem_.log_odds[prospect.candidate], prospect.gain, prospect.penalty,
                 !prospect.hidden};
      }
    }
    prospect.joins = false;
    prospect.hope = 0;  // its shares of what it may gain jointly
    visit_lowered(prospect, [&](std::uint32_t, double alone, double best) {
      prospect.hidden = false;
      prospect.gain += best;
      prospect.joins = prospect.joins || best > 0;
      prospect.ratio += alone;
      prospect.hope += joint_share() * (best - alone);
    });
    visit_joint(prospect, [&](std::uint32_t observation, Level most) {
      prospect.hidden = false;
      prospect.joins = prospect.joins || joint_change(observation, most) > 0;
    });
    visit_only_jointly(prospect, [&](std::uint32_t, double worth, const std::optional<double>& alone) {
      const double more = worth - alone.value_or(0);
      prospect.gain += more;
      prospect.hope += joint_share() * more;
    });
  }
  for (Prospect& prospect : prospects_) {
    prospect.hope += prospect.ratio;
    prospect.sure = prospect.disturbs && prospect.company ? 0 : prospect.penalty;
  }
  unhide();
  total();
}

/// A candidate that changes nothing by itself but may undo a disturbance still to come is not hidden.
void Context::unhide() {
  std::vector<const Prospect*> disturbers;
  for (const Prospect& prospect : prospects_) {
    if (prospect.disturbs && !prospect.hidden) disturbers.push_back(&prospect);
  }
  for (const Prospect* disturber : disturbers) {
    visit_cuts(*disturber, [&](const Prospect& cut) { prospects_[place_[cut.candidate] - 1].hidden = false; });
  }
}

void Context::total() {
  counted_.assign(level_.size(), 0);
  total_gain_ = 0;
  for (const Prospect& prospect : prospects_) {
    if (prospect.hidden || prospect.gain == 0) continue;
    visit_reach(prospect, [&](std::uint32_t observation) {
      if (counted_[observation] != 0) return;
      counted_[observation] = 1;
      total_gain_ += std::max(0.0, at_best(observation, Level::up));
    });
  }
}

}  // namespace whichwire::search
