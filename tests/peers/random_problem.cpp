#include "peers/random_problem.hpp"

#include <algorithm>

namespace whichwire::test {

namespace {

/// A log probability of minus `low` … `high` steps of a quarter of a nat.
double log_of(Dice& dice, std::size_t low, std::size_t high) {
  return -0.25 * static_cast<double>(dice.between(low, high));
}

search::Likelihood normal(Dice& dice) {
  return {0, log_of(dice, 0, 2), log_of(dice, 0, 4), log_of(dice, 0, 6), log_of(dice, 1, 70)};
}

search::Likelihood abnormal(Dice& dice) {
  const double up = log_of(dice, 12, 28);
  return {up, up, up, log_of(dice, 2, 12), log_of(dice, 0, 4)};
}

/// Likely where something was down and works now.
search::Likelihood of_the_past(Dice& dice) {
  return {log_of(dice, 14, 20), log_of(dice, 4, 8), log_of(dice, 1, 4), log_of(dice, 6, 12), log_of(dice, 8, 14)};
}

}  // namespace

search::Problem random_problem(Dice& dice) {
  search::Problem problem;
  const std::size_t observations = dice.between(4, 40), candidates = dice.between(4, 48);
  for (std::size_t o = 0; o < observations; ++o) {
    const auto sort = dice.below(6);
    problem.likelihood.push_back(sort == 0 ? of_the_past(dice) : sort <= 2 ? abnormal(dice) : normal(dice));
  }
  for (std::size_t c = 0; c < candidates; ++c) {
    problem.log_odds.push_back(log_of(dice, 10, 32));
    const bool as_before = c > 0 && dice.one_in(8);  // alike faults are merged
    if (as_before) {
      problem.signature.push_back(problem.signature.back());
      continue;
    }
    std::vector<Raised> raised;
    const std::size_t first = dice.below(observations), reach = dice.between(1, 8);
    for (std::size_t i = 0; i < reach && first + i < observations; ++i) {
      if (dice.one_in(4)) continue;
      const auto level =
          static_cast<Level>(dice.one_in(2) ? static_cast<int>(Level::down) : 1 + static_cast<int>(dice.below(4)));
      raised.push_back({static_cast<std::uint32_t>(first + i), level});
    }
    problem.signature.push_back(static_cast<std::uint32_t>(problem.signatures.size()));
    problem.signatures.push_back(std::move(raised));
  }
  return problem;
}

}  // namespace whichwire::test
