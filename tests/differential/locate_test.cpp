// The ranking against the plain truth, on random small networks and noisy scans of them. Nothing is left out of the
// reference: it weighs every set of the faults given, of any size. A thousand cases; WHICHWIRE_CASES=10000 runs more.
//
// What is compared follows findings.hpp: an explanation stands for sets that hold its faults, or alike ones, and others
// that improve nothing besides. So its probability is no more than that of all sets that hold faults which predict the
// same, and no set is counted twice.
// Two things are taken from the engine's description of the problem (locate/network_problem.hpp): which faults are
// candidates (one that comes and goes is only where something seen speaks for it), and which of them are listed. That
// unlisted ones account for nothing abnormal is checked here.
#include <doctest/doctest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>

#include "asking.hpp"
#include "effort.hpp"
#include "locate/list.hpp"
#include "locate/network_problem.hpp"
#include "locate/search.hpp"
#include "plain_effects.hpp"
#include "plain_locate.hpp"
#include "random_network.hpp"
#include "random_scan.hpp"

using namespace whichwire;
using test::cases;
using test::Dice;
using test::FaultSet;

namespace {

constexpr double rounding = 1e-9;

std::string words_of(const Network& network, const std::vector<Fault>& faults) {
  std::string words;
  for (const Fault& fault : faults) words.append(text_of(network, fault)).append("; ");
  return words;
}

/// A network, some of its faults, and a scan of a vehicle that has up to three of them.
struct Case {
  Network network;
  Circumstances circumstances;
  std::vector<Fault> faults;
  Scan scan;
  LocateOptions options;

  template <class Wanted>
  Case(Dice& dice, std::size_t least_faults, std::size_t most_faults, Wanted wanted) {
    network = test::random_network(dice, {6, 3});
    circumstances = test::random_circumstances(dice);
    std::vector<Fault> all = faults_of(network);
    std::erase_if(all, [&](const Fault& fault) { return !wanted(fault); });
    const std::size_t count = dice.between(least_faults, most_faults);
    for (std::size_t i = 0; i < 3 + count / 4; ++i) {
      for (const Fault& fault : test::random_faults(dice, all, count)) {
        const bool known = std::find(faults.begin(), faults.end(), fault) != faults.end();
        if (!known && faults.size() < count) faults.push_back(fault);
      }
    }
    std::vector<Fault> real(faults.begin(), faults.begin() + static_cast<std::ptrdiff_t>(
                                                                 std::min<std::size_t>(dice.below(4), faults.size())));
    const double scale = dice.one_of(std::vector<double>{1, 1, 10, 100});  // so that larger sets matter
    for (Fault& fault : faults) fault.odds *= scale;
    dice.shuffle(faults);
    scan = test::random_scan(dice, network, real, circumstances);
    options.outside = dice.one_of(std::vector<double>{1e-4, 1e-4, 1e-2, 1e-6});
    options.no_fault = dice.one_of(std::vector<double>{1, 0.1, 0.1, 0.01});
    if (dice.one_in(8)) options.most_explanations = dice.between(1, 4);
  }
};

bool any_fault(const Fault&) { return true; }

/// Breaks of the bus wiring and lost terminators: several may do together what none does alone.
bool may_part(const Fault& fault) {
  return (fault.part == PartKind::segment && fault.kind == FaultKind::open) || fault.part == PartKind::terminator ||
         fault.kind == FaultKind::dead;
}

/// The reference's view of the same case.
struct Truth {
  std::vector<Fault> candidates;
  FaultSet listed = 0;
  test::PlainRanking plain;
  std::map<FaultSet, const std::vector<Level>*> levels;

  Truth(const Case& made, const Effects& effects, const std::vector<Observation>& evidence) {
    const NetworkProblem problem = problem_of(effects, made.faults, evidence, made.circumstances);
    for (std::size_t c = 0; c < problem.faults.size(); ++c) {
      candidates.push_back(made.faults[problem.faults[c]]);
      if (problem.problem.listing(static_cast<search::Candidate>(c))) listed |= FaultSet{1} << c;
    }
    plain = test::plain_locate(made.network, candidates, evidence, made.circumstances, test::every_size,
                               made.options.no_fault);
    for (const auto& set : plain.sets) levels[set.faults] = &set.levels;
    for (const auto& set : plain.sets) {
      const std::vector<Level>& of_listed = *levels[set.faults & listed];
      for (std::size_t o = 0; o < evidence.size(); ++o) {
        if (evidence[o].abnormal) CHECK(set.levels[o] == of_listed[o]);
      }
    }
  }

  template <class Which>
  double mass(Which which) const {
    double sum = 0;
    for (const auto& set : plain.sets) sum += which(set.faults) ? plain.probability(set) : 0;
    return sum;
  }
};

std::vector<Level> predicted(const Case& made, const std::vector<Fault>& faults, const Ranking& ranking) {
  std::vector<Question> questions;
  for (const Observation& observation : ranking.evidence) questions.push_back(observation.question);
  return test::plain_predict(made.network, faults, questions, made.circumstances);
}

void check_explanations(const Case& made, const Truth& truth, const Ranking& ranking) {
  double listed = 0;
  std::map<std::vector<Level>, int> seen;
  for (const Explanation& explanation : ranking.explanations) {
    const std::string words = words_of(made.network, explanation.faults);
    CAPTURE(words);
    const auto levels = predicted(made, explanation.faults, ranking);
    CHECK(++seen[levels] == 1);
    for (const auto& other : explanation.alike) CHECK(predicted(made, other, ranking) == levels);
    std::vector<FaultSet> same;
    for (const auto& [set, its_levels] : truth.levels) {
      if (*its_levels == levels) same.push_back(set);
    }
    const double most = truth.mass([&](FaultSet set) {
      return std::any_of(same.begin(), same.end(), [&](FaultSet one) { return (set & one) == one; });
    });
    CHECK(explanation.probability.low <= most + rounding);
    CHECK(explanation.probability.high >= explanation.probability.low);
    listed += explanation.probability.low;
  }
  CHECK(listed <= 1 + rounding);
  CHECK(1 - listed <= ranking.outside + rounding);
  if (made.options.most_explanations >= 1000) CHECK(ranking.outside <= made.options.outside);
}

void check_marginals(const Case& made, const Truth& truth, const Ranking& ranking) {
  for (std::size_t c = 0; c < truth.candidates.size(); ++c) {
    const std::string words = text_of(made.network, truth.candidates[c]);
    CAPTURE(words);
    const auto is_it = [&](const Marginal& marginal) { return marginal.fault == truth.candidates[c]; };
    const auto found = std::find_if(ranking.marginals.begin(), ranking.marginals.end(), is_it);
    const double real = truth.plain.marginals[c];
    if (found == ranking.marginals.end()) {
      CHECK(real <= 1e-4 + made.options.outside);
      continue;
    }
    CHECK(found->probability.low <= real + rounding);
    CHECK(found->probability.high >= real - rounding);
  }
}

Ranking checked_ranking(const Case& made) {
  const Effects effects(made.network);
  Ranking ranking = locate(effects, made.faults, made.scan, made.options);
  REQUIRE_FALSE(ranking.explanations.empty());
  const std::string faults = words_of(made.network, made.faults);
  CAPTURE(faults);
  const Truth truth(made, effects, ranking.evidence);
  check_explanations(made, truth, ranking);
  check_marginals(made, truth, ranking);
  return ranking;
}

}  // namespace

TEST_CASE("the ranking agrees with plain enumeration within its own certificate") {
  int with_evidence = 0, with_rivals = 0;
  for (std::uint64_t seed = 50'000; seed < 50'000 + cases(); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Case made(dice, 1, 10, any_fault);
    const Ranking ranking = checked_ranking(made);
    with_evidence += ranking.evidence.empty() ? 0 : 1;
    with_rivals += ranking.explanations.size() > 1 ? 1 : 0;
  }
  // The cases must be worth something.
  CHECK(with_evidence > static_cast<int>(cases() / 2));
  CHECK(with_rivals > static_cast<int>(cases() / 4));
}

TEST_CASE("breaks that only together part a bus, or a way of several, are weighed as plain enumeration weighs them") {
  int with_evidence = 0;
  for (std::uint64_t seed = 0; seed < 3 * cases(); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    with_evidence += checked_ranking(Case(dice, 4, 10, may_part)).evidence.empty() ? 0 : 1;
  }
  CHECK(with_evidence > static_cast<int>(cases() / 2));
}

namespace {

/// A random case as the search sees it, and what all its sets weigh, by plain enumeration.
struct Weighed {
  const Case made;
  const Effects effects;
  NetworkProblem problem;
  double log_mass = 0;
  std::vector<std::pair<FaultSet, double>> weights;  ///< of sets, against the empty one

  Weighed(Dice& dice, bool (*which)(const Fault&)) : made(dice, 4, 10, which), effects(made.network) {
    const auto evidence = evidence_of(effects, made.scan).observations;
    problem = problem_of(effects, made.faults, evidence, made.circumstances);
    std::vector<Fault> candidates;
    for (const std::size_t fault : problem.faults) candidates.push_back(made.faults[fault]);
    const auto plain = test::plain_locate(made.network, candidates, evidence, made.circumstances, test::every_size);
    double empty = 0, mass = 0;
    for (const auto& set : plain.sets) empty = set.faults == 0 ? set.log_weight : empty;
    for (const auto& set : plain.sets) {
      weights.emplace_back(set.faults, std::exp(set.log_weight - empty));
      mass += weights.back().second;
    }
    log_mass = std::log(mass);
  }

  void check(const search::Both& root) const {
    CHECK(root.low <= log_mass + rounding);
    CHECK(log_mass <= root.low + std::log1p(root.slack()) + rounding);
    const FaultSet all = (FaultSet{1} << problem.faults.size()) - 1;
    for (FaultSet one = 1; one <= all; one <<= 1U) check_share(root, one);
    check_share(root, all & 0x2b5U);
  }

  /// Of the sets that hold any of a group: no more mass than they have is said to be found, nor a larger share.
  void check_share(const search::Both& root, FaultSet group) const {
    CAPTURE(group);
    double real = 0;
    for (const auto& [set, weight] : weights) real += (set & group) != 0 ? weight : 0;
    std::vector<std::uint8_t> in_group;
    for (std::size_t c = 0; c < problem.faults.size(); ++c) in_group.push_back(group >> c & 1U);
    const search::Without without = search::without(problem.problem, root, in_group);
    const double with = std::exp(root.low) - std::exp(without.found);
    const double mass = std::exp(log_mass);
    CHECK(with <= real + rounding * mass);
    CHECK(mass - real <= std::exp(without.most) + rounding * mass);
  }
};

}  // namespace

TEST_CASE("at any threshold the search bounds the mass of all sets, and of all without some faults") {
  int bounded = 0;
  for (std::uint64_t seed = 0; seed < 3 * cases(); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Weighed weighed(dice, seed % 3 == 0 ? any_fault : may_part);
    for (double below = 0.3; below < 16; below += 0.9) {
      CAPTURE(below);
      const auto found = search::search_above(weighed.problem.problem, weighed.log_mass - below);
      if (found.root == nullptr) continue;
      weighed.check(*found.root);
      ++bounded;
    }
  }
  CHECK(bounded > static_cast<int>(10 * cases()));
}

TEST_CASE("stopped after any amount of work the search still bounds the mass of all sets") {
  int stopped = 0, without_spares = 0;
  for (std::uint64_t seed = 60'000; seed < 60'000 + cases(); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Weighed weighed(dice, any_fault);
    const search::Effort effort{.outside = 1e-9,
                                .most_work = dice.one_of(std::vector<std::size_t>{1, 60, 500, 3000, 10'000, 30'000}),
                                .most_spared = dice.one_of(std::vector<std::size_t>{0, 20, 1'000'000})};
    const auto found = search::search(weighed.problem.problem, effort);
    weighed.check(*found.root);
    if (!found.done) CHECK(found.work <= 2 * effort.most_work + 1000);
    stopped += found.done ? 0 : 1;
    without_spares += effort.most_spared < 1000 && found.done ? 1 : 0;
  }
  CHECK(stopped > static_cast<int>(cases() / 10));
  CHECK(without_spares > static_cast<int>(cases() / 10));
}

TEST_CASE("every set of up to four of twenty faults that weighs near the best is found, with its weight") {
  constexpr double within = 9.2;
  const std::uint64_t networks = test::share_of(20);
  std::size_t compared = 0;
  for (std::uint64_t seed = 80'000; seed < 80'000 + networks; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Case made(dice, 14, 20, any_fault);
    const Effects effects(made.network);
    const auto evidence = evidence_of(effects, made.scan).observations;
    const NetworkProblem problem = problem_of(effects, made.faults, evidence, made.circumstances);
    std::vector<Fault> candidates;
    for (const std::size_t fault : problem.faults) candidates.push_back(made.faults[fault]);
    const auto plain = test::plain_locate(made.network, candidates, evidence, made.circumstances, 4);
    std::map<FaultSet, double> found;
    double best = -1e300;
    for (const auto& set : search::sets_within(problem.problem, within)) {
      FaultSet faults = 0;
      for (const auto member : set.members) faults |= FaultSet{1} << member;
      CHECK(found.emplace(faults, set.log_weight).second);
      best = std::max(best, set.log_weight);
    }
    const auto empty =
        std::find_if(plain.sets.begin(), plain.sets.end(), [](const auto& set) { return set.faults == 0; });
    for (const auto& set : plain.sets) {
      const double weight = set.log_weight - empty->log_weight;  // the search weighs against the empty set
      if (weight < best - within + rounding) break;
      ++compared;
      REQUIRE(found.contains(set.faults));
      CHECK(found[set.faults] == doctest::Approx(weight).epsilon(rounding));
      found.erase(set.faults);
    }
    for (const auto& [faults, weight] : found) {
      CHECK((std::popcount(faults) > 4 || weight < best - within + 2 * rounding));
    }
  }
  CHECK(compared > networks);  // more than the best set of each
}
