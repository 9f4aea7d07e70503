#include "locate/overlaps.hpp"

#include <algorithm>
#include <cmath>

namespace whichwire::search {
namespace {

/// By observation: whether any crowd gains there.
std::vector<std::uint8_t> gainful(const Crowds& crowds) {
  std::vector<std::uint8_t> gains(crowds.at.size(), 0);
  for (std::uint32_t o = 0; o < crowds.at.size(); ++o) {
    for (const auto& holder : crowds.at[o]) gains[o] |= holder.stake->loss < 0 ? 1 : 0;
  }
  return gains;
}

}  // namespace

Overlaps::Overlaps(const Context& context, const Crowds& crowds)
    : crowds_(crowds), sums_(crowds.all.size()), between_(sums_.size() * sums_.size(), 0) {
  for (std::size_t c = 0; c < sums_.size(); ++c) {
    for (const auto k : crowds.all[c].members) {
      const double odds = std::exp(crowds.log_odds[k]);
      sums_[c].odds += odds;
      sums_[c].squares += odds * odds;
    }
  }
  const auto gains = gainful(crowds);
  for (std::uint32_t o = 0; o < gains.size(); ++o) {
    if (gains[o] == 0) continue;
    for (const auto& [a, one] : crowds.at[o]) {
      for (const auto& [b, other] : crowds.at[o]) {
        if (one->raises == Level::up || other->raises == Level::up) continue;
        const double both = context.loss_at(o, std::max(one->raises, other->raises));
        between_[a * sums_.size() + b] += std::max(0.0, both - one->loss - other->loss);
      }
    }
  }
  for (double& overlap : between_) overlap = -std::expm1(-overlap);
  sum_up();
}

void Overlaps::sum_up() {
  for (std::size_t a = 0; a < sums_.size(); ++a) {
    Sum& sum = sums_[a];
    for (std::size_t b = 0; b < sums_.size(); ++b) {
      const Sum& other = sums_[b];
      const double share = between_[a * sums_.size() + b];
      if (share == 0) continue;
      sum.partners += other.odds;
      sum.lost += share * other.odds;
      if (b > a) continue;
      const double pairs = a == b ? std::max(0.0, sum.odds * sum.odds - sum.squares) / 2 : sum.odds * other.odds;
      losing_ += pairs;
      lost_ += share * pairs;
      if (crowds_.all[a].kind.listed && crowds_.all[b].kind.listed) lost_listed_ += share * pairs;
    }
  }
}

double Overlaps::partners(std::uint32_t k) const {
  return sums_[crowds_.crowd_of[k]].partners - (between(k, k) > 0 ? std::exp(crowds_.log_odds[k]) : 0);
}

double Overlaps::lost_beside(std::uint32_t k) const {
  return sums_[crowds_.crowd_of[k]].lost - between(k, k) * std::exp(crowds_.log_odds[k]);
}

}  // namespace whichwire::search
