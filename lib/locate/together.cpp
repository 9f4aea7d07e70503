#include "locate/together.hpp"

#include <algorithm>

#include "locate/tree.hpp"

namespace whichwire::search {

Together::Together(const Problem& problem) : problem_(problem), firm_(problem.candidates()) {
  forget();
  for (const double log_odds : problem.log_odds) log1p_odds_.push_back(log1p_exp(log_odds));
}

std::size_t Together::Hash::operator()(const Set& set) const {
  std::uint64_t hash = 0x9e3779b97f4a7c15ULL;
  for (const auto candidate : set) hash = (hash ^ candidate) * 0xff51afd7ed558ccdULL + (hash >> 29);
  return static_cast<std::size_t>(hash);
}

void Together::forget() {
  remembered_.reset();
  memory_.release();
  remembered_.emplace(&memory_);
}

void Together::ask(std::span<const Candidate> set) {
  constexpr std::size_t each = 4;
  work_ += each;
  problem_.together(set, raised_);
}

std::span<const Raised> Together::of(std::span<const Candidate> connected) {
  const auto first = connected.front();
  if (connected.size() == 1) {
    if (first == bare(first) || !problem_.disturbing(bare(first)))
      return problem_.signatures[problem_.signature[bare(first)]];
    auto& firm = firm_[bare(first)];
    if (!firm) {
      ask(connected);
      firm = raised_;
    }
    return *firm;
  }
  // What disturbs nothing acts firmly in any case.
  const auto mark = [&](Candidate one) { return problem_.disturbing(bare(one)) ? one : bare(one); };
  if (connected.size() == 2) return of_pair(mark(first), mark(connected.back()));
  key_.clear();
  for (const auto one : connected) key_.push_back(mark(one));
  std::sort(key_.begin(), key_.end());
  if (remembered_->size() >= most_remembered) forget();
  const auto [at, fresh] = remembered_->try_emplace(key_);
  if (fresh) {
    ask(at->first);
    at->second.assign(raised_.begin(), raised_.end());
  }
  return at->second;
}

std::span<const Raised> Together::of_pair(Candidate a, Candidate b) {
  const auto [low, high] = std::minmax(a, b);
  if (pairs_.size() >= most_pairs || by_pairs_.size() >= most_by_pairs) {
    pairs_.clear();
    by_pairs_.clear();
  }
  const auto [at, fresh] = pairs_.try_emplace(std::uint64_t{low} << 32 | high);
  if (fresh) {
    const Candidate both[] = {low, high};
    ask(both);
    at->second = {static_cast<std::uint32_t>(by_pairs_.size()), static_cast<std::uint32_t>(raised_.size())};
    by_pairs_.insert(by_pairs_.end(), raised_.begin(), raised_.end());
  }
  return std::span(by_pairs_).subspan(at->second.from, at->second.count);
}

void Together::companions(std::span<const Candidate> set, Candidate candidate, std::vector<Candidate>& out) {
  out.clear();
  if (!problem_.meets_any(bare(candidate))) return;
  left_.assign(set.begin(), set.end());
  const auto move_those_that_meet = [&](Candidate one) {
    std::erase_if(left_, [&](Candidate other) {
      if (!problem_.meets(bare(one), bare(other))) return false;
      out.push_back(other);
      return true;
    });
  };
  move_those_that_meet(candidate);
  for (std::size_t i = 0; i < out.size() && !left_.empty(); ++i) move_those_that_meet(out[i]);
}

void Together::levels(std::span<const Candidate> set, std::vector<Level>& level) {
  level.assign(problem_.observations(), Level::up);
  rest_.assign(set.begin(), set.end());
  while (!rest_.empty()) {
    const auto first = rest_.back();
    rest_.pop_back();
    companions(rest_, first, group_);
    if (!group_.empty()) {
      std::erase_if(rest_, [&](Candidate one) { return std::count(group_.begin(), group_.end(), one) != 0; });
    }
    group_.push_back(first);
    for (const auto& [observation, raised] : of(group_)) level[observation] = std::max(level[observation], raised);
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
