#include "locate/together.hpp"

#include <algorithm>

namespace whichwire::search {

std::size_t Together::Hash::operator()(const std::vector<Candidate>& set) const {
  std::uint64_t hash = 0x9e3779b97f4a7c15ULL;
  for (const auto candidate : set) hash = (hash ^ candidate) * 0xff51afd7ed558ccdULL + (hash >> 29);
  return static_cast<std::size_t>(hash);
}

const std::vector<Raised>& Together::of(std::span<const Candidate> connected) {
  const auto first = connected.front();
  if (connected.size() == 1 && (first == bare(first) || !problem_.disturbing(bare(first)))) {
    return problem_.signatures[problem_.signature[bare(first)]];
  }
  key_.assign(connected.begin(), connected.end());
  std::sort(key_.begin(), key_.end());
  const auto [at, fresh] = remembered_.try_emplace(key_);
  if (fresh) problem_.together(at->first, at->second);
  return at->second;
}

void Together::companions(std::span<const Candidate> set, Candidate candidate, std::vector<Candidate>& out) const {
  out.clear();
  if (!problem_.meets_any(bare(candidate))) return;
  std::vector<Candidate> left(set.begin(), set.end());
  const auto move_those_that_meet = [&](Candidate one) {
    const auto met = std::stable_partition(left.begin(), left.end(),
                                           [&](Candidate other) { return !problem_.meets(bare(one), bare(other)); });
    out.insert(out.end(), met, left.end());
    left.erase(met, left.end());
  };
  move_those_that_meet(candidate);
  for (std::size_t i = 0; i < out.size(); ++i) move_those_that_meet(out[i]);
}

void Together::levels(std::span<const Candidate> set, std::vector<Level>& level) {
  level.assign(problem_.observations(), Level::up);
  std::vector<Candidate> left(set.begin(), set.end()), group;
  while (!left.empty()) {
    const auto first = left.back();
    left.pop_back();
    companions(left, first, group);
    std::erase_if(left, [&](Candidate one) { return std::count(group.begin(), group.end(), one) != 0; });
    group.push_back(first);
    for (const auto& [observation, raised] : of(group)) level[observation] = std::max(level[observation], raised);
  }
}

double Together::log_weight(std::span<const Candidate> set) {
  levels(set, level_);
  double weight = 0;
  for (const auto candidate : set) weight += problem_.log_odds[candidate];
  for (std::size_t o = 0; o < level_.size(); ++o) {
    if (level_[o] == Level::up) continue;
    weight += problem_.likelihood[o][static_cast<std::size_t>(level_[o])] - problem_.likelihood[o][0];
  }
  return weight;
}

}  // namespace whichwire::search
