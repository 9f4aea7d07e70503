#include "locate/crowds.hpp"

#include <algorithm>
#include <map>

namespace whichwire::search {
namespace {

/// What it raises with the chosen as they are, what it still would if others undid some of that, and what it lowers.
std::vector<Stake> stakes_of(const Prospect& minor, const std::vector<Raised>& raised, const Context& context) {
  std::vector<Stake> all;
  for (const auto& [observation, level] : raised) all.push_back({observation, level});
  for (const auto& [observation, level] : minor.raises) {
    if (level > context.floor(observation)) all.push_back({observation, level});
  }
  for (const auto& [observation, alone] : minor.lowers) {
    all.push_back({observation, Level::up, 0, context.most_lost_by_lowering(observation)});
  }
  std::sort(all.begin(), all.end(), [](const Stake& a, const Stake& b) { return a.observation < b.observation; });
  std::vector<Stake> stakes;
  for (const Stake& one : all) {
    if (stakes.empty() || stakes.back().observation != one.observation) stakes.push_back({one.observation});
    stakes.back().raises = std::max(stakes.back().raises, one.raises);
    stakes.back().lower_loss = std::max(stakes.back().lower_loss, one.lower_loss);
  }
  for (Stake& stake : stakes) {
    if (stake.raises != Level::up) stake.loss = context.loss_at(stake.observation, stake.raises);
  }
  return stakes;
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
