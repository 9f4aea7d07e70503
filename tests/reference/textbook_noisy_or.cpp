// Noisy-or through the search core. Source: S. Russell, P. Norvig, "Artificial Intelligence: A Modern Approach", the
// fever example: what each cause alone fails to bring about: cold 0.6, flu 0.2, malaria 0.1.
// The core's causes are certain, so a cause that is present is expressed by its link: a candidate that is whole with
// the probability that the cause comes through. The probability of fever is then the mass of the sets that break it.
#include <doctest/doctest.h>

#include <cmath>

#include "locate/search.hpp"
#include "textbook.hpp"

using namespace whichwire;

namespace {

/// Probability of fever, or of none, when causes that fail with these probabilities are present.
double chance(bool fever, const std::vector<double>& fails) {
  search::Problem problem;
  search::Likelihood seen{};
  seen.fill(fever ? 0 : textbook::never);
  seen.front() = fever ? textbook::never : 0;
  problem.likelihood.push_back(seen);
  double no_link = 0;  // log probability that no cause comes through
  const std::vector<std::uint32_t> the_fever = {0};
  for (const double q : fails) {
    add_candidate(problem, std::log((1 - q) / q), the_fever);
    no_link += std::log(q);
  }
  const auto found = search::search(problem, {1e-12});
  REQUIRE(found.root->slack() <= 1e-12);
  return std::exp(found.root->low + seen.front() + no_link);
}

}  // namespace

TEST_CASE("the fever example has the eight published probabilities") {
  constexpr double cold = 0.6, flu = 0.2, malaria = 0.1;
  const std::pair<std::vector<double>, double> rows[] = {{{}, 0},
                                                         {{cold}, 0.4},
                                                         {{flu}, 0.8},
                                                         {{malaria}, 0.9},
                                                         {{cold, flu}, 0.88},
                                                         {{cold, malaria}, 0.94},
                                                         {{flu, malaria}, 0.98},
                                                         {{cold, flu, malaria}, 0.988}};
  for (const auto& [present, published] : rows) {
    CHECK(chance(true, present) == doctest::Approx(published).epsilon(1e-9));
    CHECK(chance(false, present) == doctest::Approx(1 - published).epsilon(1e-9));
  }
}
