// lib/effects against the plain reference of the same page, on random networks: every single fault, and random pairs,
// triples and quadruples. The seeds are fixed; a failure prints its seed and the faults in words.
#include <doctest/doctest.h>

#include "asking.hpp"
#include "effort.hpp"
#include "plain_effects.hpp"
#include "random_network.hpp"

using namespace whichwire;
using test::Dice;

namespace {

std::string words_of(const Network& network, const std::vector<Fault>& faults) {
  std::string words;
  for (const Fault& fault : faults) words += (words.empty() ? "" : "; ") + text_of(network, fault);
  return words;
}

std::string words_of(const Network& network, const Question& question) {
  const std::string& a =
      question.about == Question::About::function ? network.functions[question.a].id : network.modules[question.a].id;
  switch (question.about) {
    case Question::About::answers:
      return "answers " + a;
    case Question::About::hears:
      return "hears " + a + " " + network.modules[question.b].id;
    case Question::About::bus:
      return "bus " + a + " " + network.buses[question.b].id;
    case Question::About::function:
      return "function " + a;
    case Question::About::fitted:
      return "fitted " + a;
  }
  return "";
}

struct Comparison {
  Network network;
  Effects effects{network};
  Circumstances circumstances;
  std::vector<Question> questions;

  Comparison(Dice& dice, const Network& its_network)
      : network(its_network),
        circumstances(test::random_circumstances(dice)),
        questions(test::random_questions(dice, network, circumstances.key, 12)) {}

  void check(const std::vector<Fault>& faults) const {
    const auto plain = test::plain_predict(network, faults, questions, circumstances);
    const auto fast = effects.predict(faults, questions, circumstances);
    if (plain == fast) return;
    REQUIRE(plain.size() == fast.size());
    INFO("faults: ", words_of(network, faults), ", key ", word_for(circumstances.key));
    for (std::size_t q = 0; q < questions.size(); ++q) {
      INFO("question: ", words_of(network, questions[q]));
      CHECK(fast[q] == plain[q]);
    }
  }
};

}  // namespace

TEST_CASE("effects agree with the plain reference on every single fault of random networks") {
  for (std::uint64_t seed = 0; seed < test::share_of(300); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice);
    const Comparison comparison(dice, network);
    comparison.check({});
    for (const Fault& fault : faults_of(network)) comparison.check({fault});
  }
}

TEST_CASE("what a network lets be asked is as the plain reference has it, every module being awake") {
  for (std::uint64_t seed = 20'000; seed < 20'000 + test::share_of(1000); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice);
    const Effects effects(network);
    const KeyState key = KeyState::run;
    bool awake = true;
    for (std::size_t m = 0; m < network.modules.size(); ++m) awake = awake && effects.awake(m, key);
    if (!awake) continue;
    for (const Question& question : test::all_questions(network)) {
      INFO("question: ", words_of(network, question));
      CHECK(effects.answerable(question) == test::plain_askable(network, question, key));
    }
  }
}

TEST_CASE("effects agree with the plain reference on pairs, triples and quadruples of faults of random networks") {
  for (std::uint64_t seed = 10'000; seed < 10'000 + test::share_of(500); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice);
    const Comparison comparison(dice, network);
    const std::vector<Fault> all = faults_of(network);
    for (int round = 0; round < 30; ++round) {
      for (const std::size_t count : {2U, 3U, 4U}) comparison.check(test::random_faults(dice, all, count));
    }
  }
}
