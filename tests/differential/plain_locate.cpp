#include "plain_locate.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>
#include <stdexcept>

#include "plain_effects.hpp"

namespace whichwire::test {

namespace {

std::vector<Level> levels_of(const Network& network, const std::vector<Fault>& faults,
                             std::span<const Observation> evidence, const Circumstances& circumstances) {
  std::vector<Question> questions;
  for (const Observation& observation : evidence) questions.push_back(observation.question);
  return plain_predict(network, faults, questions, circumstances);
}

/// Predictions of sets. Faults that come and go act alone (page lib/effects/meanings.md, part 2), so the levels of a
/// set are the worst of those of its present faults together and those of each of the others by itself.
class Predictions {
 public:
  Predictions(const Network& network, std::span<const Fault> faults, std::span<const Observation> evidence,
              const Circumstances& circumstances)
      : network_(network), faults_(faults), evidence_(evidence), circumstances_(circumstances) {}

  std::vector<Level> of(FaultSet set) {
    FaultSet present = 0;
    for (std::size_t i = 0; i < faults_.size(); ++i) {
      if ((set >> i & 1U) != 0 && !faults_[i].comes_and_goes) present |= FaultSet{1} << i;
    }
    std::vector<Level> levels = exactly(present);
    for (std::size_t i = 0; i < faults_.size(); ++i) {
      if ((set >> i & 1U) == 0 || !faults_[i].comes_and_goes) continue;
      const std::vector<Level> others = exactly(FaultSet{1} << i);
      for (std::size_t o = 0; o < levels.size(); ++o) levels[o] = std::max(levels[o], others[o]);
    }
    return levels;
  }

 private:
  std::vector<Level> exactly(FaultSet set) {
    const auto known = known_.find(set);
    if (known != known_.end()) return known->second;
    std::vector<Fault> members;
    for (std::size_t i = 0; i < faults_.size(); ++i) {
      if ((set >> i & 1U) != 0) members.push_back(faults_[i]);
    }
    return known_[set] = levels_of(network_, members, evidence_, circumstances_);
  }

  const Network& network_;
  std::span<const Fault> faults_;
  std::span<const Observation> evidence_;
  const Circumstances& circumstances_;
  std::map<FaultSet, std::vector<Level>> known_;
};

double log_weight_of(const WeighedSet& set, std::span<const Fault> faults, std::span<const Observation> evidence) {
  double weight = 0;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    if ((set.faults >> i & 1U) != 0) weight += std::log(faults[i].odds);
  }
  for (std::size_t o = 0; o < evidence.size(); ++o) {
    weight += evidence[o].log_likelihood[static_cast<std::size_t>(set.levels[o])];
  }
  return weight;
}

}  // namespace

double PlainRanking::probability(const WeighedSet& set) const { return std::exp(set.log_weight - log_total); }

PlainRanking plain_locate(const Network& network, std::span<const Fault> faults, std::span<const Observation> evidence,
                          const Circumstances& circumstances, std::size_t most_faults, double no_fault) {
  if (faults.size() > 24) throw std::logic_error("too many faults for plain enumeration");
  Predictions predictions(network, faults, evidence, circumstances);
  PlainRanking ranking;
  for (FaultSet faults_of_set = 0; faults_of_set < FaultSet{1} << faults.size(); ++faults_of_set) {
    if (static_cast<std::size_t>(std::popcount(faults_of_set)) > most_faults) continue;
    WeighedSet set{faults_of_set, 0, predictions.of(faults_of_set)};
    set.log_weight = log_weight_of(set, faults, evidence) + (faults_of_set == 0 ? std::log(no_fault) : 0);
    ranking.sets.push_back(std::move(set));
  }
  std::stable_sort(ranking.sets.begin(), ranking.sets.end(),
                   [](const WeighedSet& a, const WeighedSet& b) { return a.log_weight > b.log_weight; });
  const double best = ranking.sets.front().log_weight;
  double total = 0;
  for (const WeighedSet& set : ranking.sets) total += std::exp(set.log_weight - best);
  ranking.log_total = best + std::log(total);
  ranking.marginals.assign(faults.size(), 0);
  for (const WeighedSet& set : ranking.sets) {
    for (std::size_t i = 0; i < faults.size(); ++i) {
      if ((set.faults >> i & 1U) != 0) ranking.marginals[i] += ranking.probability(set);
    }
  }
  return ranking;
}

}  // namespace whichwire::test
