// The worth of a check in bits, against numbers worked by hand and one from information theory.
#include "checks/gain.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

/// A check with `outcomes` outcomes that is right with probability `right`, whatever it shows.
Candidate check_with(const CheckKind& kind, std::size_t outcomes, std::function<Sight(const Fault&)> sees) {
  Candidate made;
  made.kind = &kind;
  made.check.expect.resize(outcomes);
  made.sees = first_seen(std::move(sees));
  return made;
}

CheckKind right(double chance) {
  CheckKind kind;
  kind.fine = kind.seen = chance;
  return kind;
}

std::function<Sight(const Fault&)> sees_module(std::size_t module) {
  return [=](const Fault& fault) { return Sight{fault.owner == module ? 1U : 0U, 1, 0, 0}; };
}

Hypotheses even(const std::vector<std::vector<Fault>>& sets) {
  std::vector<Explanation> lines;
  for (const auto& set : sets) lines.push_back(explained(1.0 / static_cast<double>(sets.size()), set));
  return hypotheses_of(network(), ranked(lines));
}

double bits(const Candidate& candidate, const Hypotheses& hypotheses) {
  return gain_bits(outcomes_of(candidate, hypotheses), hypotheses);
}

double h(double p) { return -p * std::log2(p) - (1 - p) * std::log2(1 - p); }

}  // namespace

TEST_CASE("a sure check that halves four equally likely repairs gains one bit, one that singles one out gains less") {
  const CheckKind sure = right(1);
  const Hypotheses four = even({{dead(ECM)}, {dead(TCM)}, {dead(ABS)}, {dead(BCM)}});
  const auto halves = [](const Fault& fault) { return Sight{fault.owner <= TCM ? 1U : 0U, 1, 0, 0}; };
  CHECK(bits(check_with(sure, 2, halves), four) == doctest::Approx(1.0));
  // One of four: H(1/4) = 0.811278 bits, worked by hand: 1/4 log2 4 + 3/4 log2 4/3.
  CHECK(bits(check_with(sure, 2, sees_module(ECM)), four) == doctest::Approx(0.8112781245));
}

TEST_CASE("a check wrong one time in ten tells 0.531 bits of one: the binary symmetric channel") {
  // Source: capacity 1 - H(p) of the binary symmetric channel, Shannon, "A Mathematical Theory of Communication", 1948;
  // H(0.1) = 0.4689955936.
  const CheckKind unsure = right(0.9);
  const Hypotheses two = even({{dead(ECM)}, {dead(TCM)}});
  CHECK(bits(check_with(unsure, 2, sees_module(ECM)), two) == doctest::Approx(0.5310044064));
  CHECK(bits(check_with(unsure, 2, sees_module(ECM)), two) == doctest::Approx(1 - h(0.1)));
}

TEST_CASE("a check that tells apart only sets of the same repair gains nothing") {
  const CheckKind sure = right(1);
  const Hypotheses two = even({{open_segment(DRV, 3, Lines::high)}, {open_segment(DRV, 3, Lines::low)}});
  CHECK(two.repairs.size() == 1);
  const auto by_line = [](const Fault& fault) { return Sight{fault.lines == Lines::high ? 1U : 0U, 1, 0, 0}; };
  CHECK(bits(check_with(sure, 2, by_line), two) == doctest::Approx(0));
}

TEST_CASE("mass outside the list neither adds to a check nor takes from it but in proportion") {
  const CheckKind sure = right(1);
  const Ranking short_list = ranked({explained(0.4, {dead(ECM)}), explained(0.4, {dead(TCM)})});
  const Hypotheses partial = hypotheses_of(network(), short_list);
  CHECK(partial.neutral == doctest::Approx(0.2));
  CHECK(bits(check_with(sure, 2, sees_module(ECM)), partial) == doctest::Approx(0.8));
}

TEST_CASE("a fault that comes and goes shows itself only as often as the table says") {
  CheckKind kind = right(0.9);
  kind.at_times = 0.3;
  const Candidate candidate = check_with(kind, 3, sees_module(ECM));
  const Hypotheses sets = even({{passing(dead(ECM))}});
  const std::vector<double> chances = chances_of(candidate, sets.sets[0]);
  CHECK(chances[1] == doctest::Approx(0.3));
  CHECK(chances[0] == doctest::Approx(0.7));
}

TEST_CASE("the chances of every outcome sum to one, in part seen faults and two outcomes included") {
  CheckKind kind = right(0.8);
  kind.at_times = 0.2;
  const auto partly = [](const Fault& fault) { return Sight{fault.owner == ECM ? 1U : 0U, 0.4, 2, 0.25}; };
  const Candidate candidate = check_with(kind, 4, partly);
  for (const Hypotheses& sets : {even({{dead(ECM)}}), even({{dead(TCM)}}), even({{dead(ECM), passing(dead(ECM))}})}) {
    double sum = 0;
    for (const double chance : chances_of(candidate, sets.sets[0])) sum += chance;
    CHECK(sum == doctest::Approx(1));
  }
  // 0.4 in sight, a quarter of it as outcome 2: 0.1 * 0.8, and a third of the errors: 0.3 * 0.2/3 + 0.6 * 0.2/3.
  CHECK(chances_of(candidate, even({{dead(ECM)}}).sets[0])[2] == doctest::Approx(0.08 + 0.02 + 0.04));
}

TEST_CASE("a check that was done leaves nothing to one that asks the same, and all to one that asks another thing") {
  const CheckKind sure = right(1);
  const Hypotheses four = even({{dead(ECM)}, {dead(TCM)}, {dead(ABS)}, {dead(BCM)}});
  const auto first_two = [](const Fault& fault) { return Sight{fault.owner <= TCM ? 1U : 0U, 1, 0, 0}; };
  const auto odd = [](const Fault& fault) {
    return Sight{fault.owner == ECM || fault.owner == ABS ? 1U : 0U, 1, 0, 0};
  };
  const Outcomes halves = outcomes_of(check_with(sure, 2, first_two), four);
  const Outcomes other_halves = outcomes_of(check_with(sure, 2, odd), four);
  CHECK(gain_bits_of_both(halves, halves, four) == doctest::Approx(1));
  CHECK(gain_bits_of_both(halves, other_halves, four) == doctest::Approx(2));
  // After the halves are known, one of the two left: half of the time one bit.
  const Outcomes one = outcomes_of(check_with(sure, 2, sees_module(ECM)), four);
  CHECK(gain_bits_of_both(halves, one, four) == doctest::Approx(1.5));
}

TEST_CASE("the worth by groups equals the worth added up over every repair and outcome") {
  const CheckKind unsure = right(0.8);
  std::vector<Explanation> lines;
  for (std::size_t i = 0; i < 6; ++i) lines.push_back(explained(0.05 + 0.03 * static_cast<double>(i), {dead(i)}));
  const Hypotheses sets = hypotheses_of(network(), ranked(lines));
  const auto some = [](const Fault& fault) {
    return Sight{fault.owner == 1 ? 1U : fault.owner == 4 ? 2U : 0U, 1, 0, 0};
  };
  const Candidate candidate = check_with(unsure, 3, some);
  double sum = 0;
  std::array<double, 3> of_outcome{};
  for (const Hypothesis& set : sets.sets) {
    sum += set.weight;
    for (std::size_t i = 0; i < 3; ++i) of_outcome[i] += set.weight * chances_of(candidate, set)[i];
  }
  double expected = 0;
  for (const Hypothesis& set : sets.sets) {
    for (std::size_t i = 0; i < 3; ++i) {
      const double chance = chances_of(candidate, set)[i];
      expected += set.weight * chance * std::log2(chance * sum / of_outcome[i]);
    }
  }
  CHECK(expected > 0.1);
  CHECK(bits(candidate, sets) == doctest::Approx(expected));
}
