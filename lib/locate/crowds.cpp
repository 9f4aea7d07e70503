#include "locate/crowds.hpp"

#include <algorithm>
#include <map>

namespace whichwire::search {
namespace {

/// What it raises with the chosen as they are, what it still would if others undid some of that, and what it lowers.
std::vector<Stake> stakes_of(const Prospect& minor, const std::vector<Raised>& raised, const Context& context) {
  std::map<std::uint32_t, Stake> stakes;
  const auto at = [&](std::uint32_t observation) -> Stake& {
    return stakes.try_emplace(observation, Stake{observation}).first->second;
  };
  for (const auto& [observation, level] : raised) at(observation).raises = level;
  for (const auto& [observation, level] : minor.raises) {
    if (level > context.floor(observation)) at(observation).raises = std::max(at(observation).raises, level);
  }
  for (const auto& [observation, alone] : minor.lowers) {
    at(observation).lower_loss = context.most_lost_by_lowering(observation);
  }
  std::vector<Stake> sorted;
  for (auto& [observation, stake] : stakes) {
    if (stake.raises != Level::up) stake.loss = context.loss_at(observation, stake.raises);
    sorted.push_back(stake);
  }
  return sorted;
}

}  // namespace

Crowds::Crowds(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors)
    : at(problem.observations()) {
  std::map<Crowd::Kind, std::uint32_t> known;
  std::vector<Raised> raised;
  for (std::uint32_t k = 0; k < minors.size(); ++k) {
    const Prospect& minor = *minors[k];
    log_odds.push_back(context.alone(minor, raised));
    Crowd::Kind kind{stakes_of(minor, raised, context),
                     std::max(0.0, problem.log_odds[minor.candidate] + minor.gain - log_odds.back()),
                     shown(problem, minor), minor.raises_jointly(), !minor.beside && minor.lowers.empty()};
    const auto [found, fresh] = known.try_emplace(std::move(kind), static_cast<std::uint32_t>(all.size()));
    if (fresh) all.push_back({found->first, {}});
    crowd_of.push_back(found->second);
    place.push_back(all[found->second].members.size());
    all[found->second].members.push_back(k);
  }
  for (std::uint32_t c = 0; c < all.size(); ++c) {
    for (const Stake& stake : all[c].kind.stakes) at[stake.observation].push_back({c, &stake});
  }
}

}  // namespace whichwire::search
