// The ceilings of random coverings against plain enumeration, and the fitted one against a thousand other u, each of
// which gives a bound by the formula of ceiling.hpp.
#include "locate/ceiling.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "effort.hpp"
#include "random_network.hpp"

namespace whichwire::test {
namespace {

using search::Candidate;

double between(Dice& dice, double low, double high) { return low + (high - low) * dice.fraction(); }

/// Of ten candidates some explain several of eight observations, some do harm only.
struct Covering {
  search::Problem problem;

  explicit Covering(Dice& dice) {
    constexpr std::uint32_t observations = 8;
    for (std::uint32_t o = 0; o < observations; ++o) {
      problem.likelihood.emplace_back().back() = dice.one_in(4) ? between(dice, -2, -0.1) : between(dice, 0.5, 6);
    }
    for (Candidate c = 0; c < 10; ++c) {
      std::vector<std::uint32_t> raised;
      for (std::uint32_t o = 0; o < observations; ++o) {
        if (dice.one_in(3)) raised.push_back(o);
      }
      search::add_candidate(problem, between(dice, -7, 1), raised);
    }
  }

  double worth(std::uint32_t observation) const { return std::max(0.0, problem.likelihood[observation].back()); }

  double log_mass() const {
    double mass = 0;
    for (std::uint32_t set = 0; set < 1U << problem.candidates(); ++set) {
      double weight = 0;
      std::vector<bool> raised(problem.observations());
      for (Candidate c = 0; c < problem.candidates(); ++c) {
        if ((set >> c & 1U) == 0) continue;
        weight += problem.log_odds[c];
        for (const Raised& one : problem.signatures[problem.signature[c]]) raised[one.question] = true;
      }
      for (std::size_t o = 0; o < raised.size(); ++o) weight += raised[o] ? problem.likelihood[o].back() : 0;
      mass += std::exp(weight);
    }
    return std::log(mass);
  }

  /// Candidates that raise the same count as one of them or more.
  double bound_with(const std::vector<double>& u) const {
    double bound = 0;
    for (const double each : u) bound += each;
    for (std::uint32_t s = 0; s < problem.signatures.size(); ++s) {
      double any = 0, beyond = 0;
      for (Candidate c = 0; c < problem.candidates(); ++c) {
        if (problem.signature[c] == s) any += std::log1p(std::exp(problem.log_odds[c]));
      }
      for (const Raised& one : problem.signatures[s]) beyond += std::max(0.0, worth(one.question) - u[one.question]);
      bound += std::log1p(std::expm1(any) * std::exp(beyond));
    }
    return bound;
  }
};

}  // namespace

TEST_CASE(
    "a ceiling is never below the mass of all sets, fitted or not, and no other u is much closer than fitted ones") {
  int closer = 0, seen = 0;
  for (std::uint64_t seed = 0; seed < cases(); ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Covering covering(dice);
    const auto& problem = covering.problem;
    search::Together together(problem);
    search::Spares spares(problem, together, 0);
    search::Context context(problem, together, spares);
    std::vector<Candidate> all;
    for (Candidate c = 0; c < problem.candidates(); ++c) all.push_back(c);
    context.look({}, all);
    std::vector<search::Ceiling::Entry> entries;
    for (const search::Prospect& prospect : context.prospects())
      entries.push_back({problem.log_odds[prospect.candidate], prospect.log1p_odds, &prospect});
    const search::Ceiling ceiling(problem, context, entries, nullptr);
    const double mass = covering.log_mass();
    double wanted = mass;  // below what one brings by itself no bound can be
    for (const auto& entry : entries) wanted = std::max(wanted, entry.log_odds + entry.prospect->gain + 1e-6);
    constexpr double rounding = 1e-9;
    CHECK(ceiling.whole() >= mass - rounding);
    const double fitted = ceiling.fitted(wanted);
    CHECK(fitted >= mass - rounding);
    closer += fitted < ceiling.whole() - rounding ? 1 : 0;
    if (std::isinf(fitted)) continue;  // nothing likely is gained
    // It stops below what is wanted, or where it hardly falls.
    const double least = fitted - 0.1 * std::max(0.0, fitted - wanted) - 0.05;
    std::vector<double> u(problem.observations());
    for (int turn = 0; turn < 1000; ++turn) {
      for (std::uint32_t o = 0; o < u.size(); ++o) u[o] = between(dice, 0, covering.worth(o));
      CHECK(covering.bound_with(u) >= least);
    }
    ++seen;
  }
  CHECK(seen > static_cast<int>(cases() / 2));
  CHECK(closer > seen / 20);
}

}  // namespace whichwire::test
