#include "locate/overlaps.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace whichwire::search {
namespace {

using Profile = std::vector<Raised>;  ///< which observations with a gain it raises, by rising observation

std::vector<Profile> profiles_of(const Stakes& stakes) {
  std::vector<Profile> profiles(stakes.log_odds.size());
  for (std::uint32_t o = 0; o < stakes.at.size(); ++o) {
    const auto& here = stakes.at[o];
    if (std::none_of(here.begin(), here.end(), [](const Stake& stake) { return stake.loss < 0; })) continue;
    for (const Stake& stake : here) {
      if (stake.raises != Level::up) profiles[stake.minor].push_back({o, stake.raises});
    }
  }
  return profiles;
}

/// Log of how much less two weigh together than each alone.
double overlap(const Context& context, const Profile& a, const Profile& b) {
  double sum = 0;
  for (auto one = a.begin(), other = b.begin(); one != a.end() && other != b.end();) {
    if (one->question != other->question) {
      ++(one->question < other->question ? one : other);
      continue;
    }
    const auto loss = [&](Level level) { return context.loss_at(one->question, level); };
    sum += std::max(0.0, loss(std::max(one->level, other->level)) - loss(one->level) - loss(other->level));
    ++one;
    ++other;
  }
  return sum;
}

}  // namespace

void Overlaps::Sum::add(double one) {
  odds += one;
  squares += one * one;
}

double Overlaps::Sum::pairs() const { return std::max(0.0, odds * odds - squares) / 2; }

Overlaps::Overlaps(const Context& context, const Stakes& stakes, const std::vector<std::uint8_t>& listed) {
  const auto profiles = profiles_of(stakes);
  std::map<std::vector<std::pair<std::uint32_t, Level>>, std::uint32_t> known;
  std::vector<const Profile*> of_crowd;
  for (std::uint32_t k = 0; k < profiles.size(); ++k) {
    std::vector<std::pair<std::uint32_t, Level>> key;
    for (const auto& [question, level] : profiles[k]) key.emplace_back(question, level);
    const auto [at, fresh] = known.try_emplace(std::move(key), static_cast<std::uint32_t>(crowds_.size()));
    if (fresh) {
      crowds_.emplace_back();
      of_crowd.push_back(&profiles[k]);
    }
    crowd_.push_back(at->second);
    odds_.push_back(std::exp(stakes.log_odds[k]));
    crowds_[at->second].all.add(odds_.back());
    if (listed[k] != 0) crowds_[at->second].listed.add(odds_.back());
  }
  between_.resize(crowds_.size() * crowds_.size());
  for (std::size_t a = 0; a < crowds_.size(); ++a) {
    for (std::size_t b = a; b < crowds_.size(); ++b) {
      const double share = -std::expm1(-overlap(context, *of_crowd[a], *of_crowd[b]));
      between_[a * crowds_.size() + b] = between_[b * crowds_.size() + a] = share;
    }
  }
  sum_up();
}

void Overlaps::sum_up() {
  for (std::size_t a = 0; a < crowds_.size(); ++a) {
    Crowd& crowd = crowds_[a];
    for (std::size_t b = 0; b < crowds_.size(); ++b) {
      const Crowd& other = crowds_[b];
      const double share = between_[a * crowds_.size() + b];
      if (share == 0) continue;
      crowd.partners += other.all.odds;
      crowd.lost += share * other.all.odds;
      if (b > a) continue;
      const double pairs = a == b ? crowd.all.pairs() : crowd.all.odds * other.all.odds;
      losing_ += pairs;
      lost_ += share * pairs;
      lost_listed_ += share * (a == b ? crowd.listed.pairs() : crowd.listed.odds * other.listed.odds);
    }
  }
}

double Overlaps::partners(std::uint32_t k) const {
  return crowds_[crowd_[k]].partners - (between(k, k) > 0 ? odds_[k] : 0);
}

double Overlaps::lost_beside(std::uint32_t k) const { return crowds_[crowd_[k]].lost - between(k, k) * odds_[k]; }

}  // namespace whichwire::search
