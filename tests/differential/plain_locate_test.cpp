// The plain reference for the ranking, on cases worked by hand.
#include "plain_locate.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "asking.hpp"
#include "plain_effects.hpp"
#include "random_network.hpp"

using namespace whichwire;
using test::Building;
using test::Dice;

namespace {

/// A and B on one bus at the diagnostic connector.
Network two_modules() {
  Building b;
  b.module("A");
  b.module("B");
  b.bus("X", Protocol::can_hs, 500000);
  b.segment("X", "1", "A", "S");
  b.segment("X", "2", "B", "S");
  b.segment("X", "3", "DLC", "S");
  b.connect("X", "6", "14");
  return b.network;
}

/// P(seen | up) = `if_up`, P(seen | anything worse) = `otherwise`.
Observation seen(std::size_t module, double if_up, double otherwise) {
  Observation observation{{Question::About::answers, module}, {}, "", true};
  observation.log_likelihood.fill(std::log(otherwise));
  observation.log_likelihood[static_cast<std::size_t>(Level::up)] = std::log(if_up);
  return observation;
}

}  // namespace

TEST_CASE("plain ranking: one silent module and two faults that can explain it") {
  const Network network = two_modules();
  std::vector<Fault> faults = test::faults_from(network, {"dead A", "open 1", "dead B"});
  faults[0].odds = 0.01;
  faults[1].odds = 0.03;
  faults[2].odds = 0.01;
  // A is silent: 0.02 if up, 0.98 if down. B answers: 0.9 if up, 0.001 if down.
  const std::vector<Observation> evidence = {seen(0, 0.02, 0.98), seen(1, 0.9, 0.001)};
  const auto ranking = test::plain_locate(network, faults, evidence, {});
  REQUIRE(ranking.sets.size() == 8);
  // By hand, with B answering: {} 0.02 * 0.9 = 0.018; {dead A} 0.01 * 0.98 * 0.9 = 0.00882; {open 1} 0.02646;
  // both 0.0002646. With dead B every one of them times 0.01 * 0.001 / 0.9.
  const double with_b_up = 0.018 + 0.00882 + 0.02646 + 0.0002646;
  const double total = with_b_up * (1 + 0.01 * 0.001 / 0.9);
  CHECK(std::exp(ranking.log_total) == doctest::Approx(total));
  CHECK(ranking.sets[0].faults == 2);
  CHECK(ranking.probability(ranking.sets[0]) == doctest::Approx(0.02646 / total));
  CHECK(ranking.sets[1].faults == 0);
  CHECK(ranking.sets[2].faults == 1);
  CHECK(ranking.marginals[0] == doctest::Approx((0.00882 + 0.0002646) / with_b_up));
  CHECK(ranking.marginals[1] == doctest::Approx((0.02646 + 0.0002646) / with_b_up));
  CHECK(ranking.marginals[2] == doctest::Approx(0.01 * 0.001 / 0.9 / (1 + 0.01 * 0.001 / 0.9)));
}

TEST_CASE("plain ranking: sets above the wanted size are left out") {
  const Network network = two_modules();
  const std::vector<Fault> faults = test::faults_from(network, {"dead A", "open 1", "dead B", "open 2"});
  const std::vector<Observation> evidence = {seen(0, 0.5, 0.5)};
  CHECK(test::plain_locate(network, faults, evidence, {}, 2).sets.size() == 11);
  CHECK(test::plain_locate(network, faults, evidence, {}).sets.size() == 16);
}

TEST_CASE("plain ranking: the levels of a set are those that the plain prediction gives it") {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice);
    const Circumstances circumstances = test::random_circumstances(dice);
    const auto questions = test::random_questions(dice, network, circumstances.key, 6);
    const std::vector<Fault> faults = test::random_faults(dice, faults_of(network), 5);
    std::vector<Observation> evidence;
    for (const Question& question : questions) evidence.push_back({question, {}, "", true});
    for (const auto& set : test::plain_locate(network, faults, evidence, circumstances).sets) {
      std::vector<Fault> members;
      for (std::size_t i = 0; i < faults.size(); ++i) {
        if ((set.faults >> i & 1U) != 0) members.push_back(faults[i]);
      }
      CHECK(set.levels == test::plain_predict(network, members, questions, circumstances));
    }
  }
}
