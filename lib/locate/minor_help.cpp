#include "locate/minor_help.hpp"

#include <algorithm>

namespace whichwire::search {
namespace {

/// How much of what both lose at an observation, each alone, is not lost when both are present.
double shared(const Context& context, const Stake& a, const Stake& b) {
  double most = 0;
  if (a.raises != Level::up && b.raises != Level::up) {
    most = std::max(0.0, a.loss + b.loss + context.at_best(a.observation, std::max(a.raises, b.raises)));
  }
  if (a.lower_loss > 0) most += b.raises != Level::up ? a.lower_loss : std::min(a.lower_loss, b.lower_loss);
  if (b.lower_loss > 0 && a.raises != Level::up) most += b.lower_loss;
  return most;
}

/// Whether none of the stakes gains, and a worse level never loses less, so that of several the worst loses alone.
bool only_loses(std::vector<Crowds::Holder> holders) {
  std::sort(holders.begin(), holders.end(),
            [](const auto& a, const auto& b) { return a.stake->raises < b.stake->raises; });
  double before = 0;
  for (const auto& [crowd, stake] : holders) {
    if (stake->loss < before) return false;
    before = stake->loss;
  }
  return true;
}

/// Crowds of which every set weighs at least what the worst of them loses at each observation.
std::vector<std::uint8_t> plain_ones(const Crowds& crowds, const std::vector<MinorPair>& met) {
  std::vector<std::uint8_t> plain;
  for (const Crowd& crowd : crowds.all) plain.push_back(crowd.kind.alone ? 1 : 0);
  for (const auto& [a, b] : met) plain[crowds.crowd_of[a]] = plain[crowds.crowd_of[b]] = 0;
  for (const auto& here : crowds.at) {
    const bool one = here.size() == 1 && crowds.all[here.front().crowd].members.size() == 1;
    if (one || only_loses(here)) continue;
    for (const auto& holder : here) plain[holder.crowd] = 0;
  }
  return plain;
}

/// What one loses at an observation that another takes back, beyond what that one loses there itself.
double taken_back(const Stake& by, const Stake& from) {
  if (by.raises == Level::up) return 0;
  const double raised =
      from.raises != Level::up && from.raises < by.raises ? std::max(0.0, from.loss - std::max(0.0, by.loss)) : 0;
  return raised + from.lower_loss;
}

/// Log of how much likelier one is made by all others at most.
struct Spared {
  double each = 0;  ///< as the sum over observations
  double back = 0;  ///< of what it takes back from others
};

/// Notes what each crowd spares one of `own` at an observation.
void note_sparing(const Context& context, const Crowds& crowds, const std::vector<std::uint8_t>& plain,
                  std::uint32_t own, const Stake& stake, std::vector<Sparing>& by, Spared& spared) {
  double most = 0, back = 0;
  for (const auto& [other, its] : crowds.at[stake.observation]) {
    if (other == own && crowds.all[own].members.size() == 1) continue;
    const double save = shared(context, stake, *its);
    if (save <= 0) continue;
    most = std::max(most, save);
    back = std::max(back, taken_back(stake, *its));
    by[other].most += save;
    if (plain[own] != 0 && plain[other] != 0) by[other].surely += std::min(stake.loss, its->loss);
  }
  spared.each += most;
  spared.back += back;
}

}  // namespace

Help help_among(const Context& context, const Crowds& crowds, const std::vector<MinorPair>& met, double least) {
  const auto plain = plain_ones(crowds, met);
  std::vector<HelpedCrowd> all;
  std::vector<Sparing> by;
  for (std::uint32_t c = 0; c < crowds.all.size(); ++c) {
    const Crowd& crowd = crowds.all[c];
    HelpedCrowd& helped = all.emplace_back();
    helped.listed = crowd.kind.listed;
    for (const auto k : crowd.members) helped.log_odds.push_back(crowds.log_odds[k]);
    by.clear();
    for (std::uint32_t other = 0; other < crowds.all.size(); ++other) by.push_back({other, 0, 0});
    Spared spared;
    for (const Stake& stake : crowd.kind.stakes) note_sparing(context, crowds, plain, c, stake, by, spared);
    helped.lost = crowd.kind.lost;
    helped.spared_at_most = std::min(spared.each, crowd.kind.lost + spared.back);
    std::copy_if(by.begin(), by.end(), std::back_inserter(helped.by), [](const Sparing& one) { return one.most > 0; });
  }
  return {std::move(all), least};
}

}  // namespace whichwire::search
