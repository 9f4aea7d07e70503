#include "locate/minor_help.hpp"

#include <algorithm>

namespace whichwire::search {
namespace {

/// How much of what both lose at an observation, each alone, is not lost when both are present.
double shared(const Context& context, std::uint32_t observation, const Stake& a, const Stake& b) {
  double most = 0;
  if (a.raises != Level::up && b.raises != Level::up) {
    most = std::max(0.0, a.loss + b.loss + context.at_best(observation, std::max(a.raises, b.raises)));
  }
  if (a.lower_loss > 0) most += b.raises != Level::up ? a.lower_loss : std::min(a.lower_loss, b.lower_loss);
  if (b.lower_loss > 0 && a.raises != Level::up) most += b.lower_loss;
  return most;
}

/// Whether none of its stakes gains, and a worse level never loses less, so that of several the worst loses alone.
bool only_loses(std::vector<Stake> stakes) {
  std::sort(stakes.begin(), stakes.end(), [](const Stake& a, const Stake& b) { return a.raises < b.raises; });
  double before = 0;
  for (const Stake& stake : stakes) {
    if (stake.loss < before) return false;
    before = stake.loss;
  }
  return true;
}

/// Minors of which every set weighs at least what the worst of them loses at each observation.
std::vector<std::uint8_t> plain_ones(const Among& among, const std::vector<MinorPair>& met) {
  std::vector<std::uint8_t> plain(among.minors.size(), 1);
  for (const auto& [a, b] : met) plain[a] = plain[b] = 0;
  for (const auto& here : among.stakes.at) {
    if (here.size() < 2 || only_loses(here)) continue;
    for (const Stake& stake : here) plain[stake.minor] = 0;
  }
  for (std::uint32_t k = 0; k < plain.size(); ++k) {
    if (among.minors[k]->beside || !among.minors[k]->lowers.empty()) plain[k] = 0;
  }
  return plain;
}

class Sparings {
 public:
  Sparings(const Among& among, const std::vector<MinorPair>& met)
      : among_(among), plain_(plain_ones(among, met)), places_(plain_.size()), sparing_(plain_.size()) {
    for (std::uint32_t o = 0; o < among.stakes.at.size(); ++o) {
      const auto& here = among.stakes.at[o];
      if (here.size() < 2) continue;
      for (const Stake& stake : here) places_[stake.minor].emplace_back(o, &stake);
    }
  }

  Helped of(std::uint32_t k) {
    const double alone = among_.stakes.log_odds[k];
    Helped helped{alone, 0, among_.listed[k] != 0, {}};
    for (const auto& [o, own] : places_[k]) helped.spared_at_most += at(o, *own);
    const Prospect& minor = *among_.minors[k];
    const double at_best = among_.problem.log_odds[minor.candidate] + minor.gain;
    helped.spared_at_most = std::min(helped.spared_at_most, std::max(0.0, at_best - alone));
    for (const auto other : helpers_) {
      sparing_[other].other = other;
      helped.by_other.push_back(sparing_[other]);
      sparing_[other] = {};
    }
    helpers_.clear();
    return helped;
  }

 private:
  /// Notes what each other spares one at an observation; the most that one of them does.
  double at(std::uint32_t observation, const Stake& own) {
    double most = 0;
    for (const Stake& other : among_.stakes.at[observation]) {
      if (other.minor == own.minor) continue;
      const double save = shared(among_.context, observation, own, other);
      if (save <= 0) continue;
      most = std::max(most, save);
      Sparing& by = sparing_[other.minor];
      if (by.most == 0) helpers_.push_back(other.minor);
      by.most += save;
      if (plain_[own.minor] != 0 && plain_[other.minor] != 0) by.surely += std::min(own.loss, other.loss);
    }
    return most;
  }

  const Among& among_;
  const std::vector<std::uint8_t> plain_;
  std::vector<std::vector<std::pair<std::uint32_t, const Stake*>>> places_;  ///< by minor: where others have stakes too
  std::vector<Sparing> sparing_;                                             ///< scratch, by minor
  std::vector<std::uint32_t> helpers_;
};

}  // namespace

Help help_among(const Among& among, const std::vector<MinorPair>& met, std::size_t& work) {
  Sparings sparings(among, met);
  std::vector<Helped> helped;
  for (std::uint32_t k = 0; k < among.minors.size(); ++k) {
    helped.push_back(sparings.of(k));
    work += helped.back().by_other.size();
  }
  return Help(std::move(helped));
}

}  // namespace whichwire::search
