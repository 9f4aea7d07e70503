#include "locate/stakes.hpp"

#include <algorithm>

namespace whichwire::search {

Stakes::Stakes(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors)
    : at(problem.observations()) {
  std::vector<Raised> raised;
  for (std::uint32_t k = 0; k < minors.size(); ++k) {
    log_odds.push_back(context.alone(*minors[k], raised));
    const auto stake = [&](std::uint32_t observation) -> Stake& {
      auto& stakes = at[observation];
      if (stakes.empty() || stakes.back().minor != k) stakes.push_back({k});
      return stakes.back();
    };
    // What it raises with the chosen as they are, and what it still would if others undid some of that.
    for (const auto& [observation, level] : raised) stake(observation).raises = level;
    for (const auto& [observation, level] : minors[k]->raises) {
      if (level <= context.floor(observation)) continue;
      Stake& own = stake(observation);
      own.raises = std::max(own.raises, level);
    }
    for (const auto observation : minors[k]->lowers) {
      stake(observation).lower_loss = context.most_lost_by_lowering(observation);
    }
  }
  for (std::uint32_t o = 0; o < at.size(); ++o) {
    for (Stake& stake : at[o]) stake.loss = stake.raises == Level::up ? 0 : context.loss_at(o, stake.raises);
  }
}

}  // namespace whichwire::search
