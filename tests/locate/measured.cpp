// Readings as observations of the search, on the invented Hollin Moor. By Bayes' rule a reading that one fault makes
// r times as likely as nothing wrong does is the same as odds of that fault r times as high; of two faults that a
// reading speaks for, both together are no likelier by it than one.
#include "locate/measured.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <whichwire/expected_scan.hpp>

#include "checks/moor.hpp"

namespace whichwire::test {
namespace {

struct Bench {
  Network network = moor::network();
  Effects effects{network};
  std::vector<Fault> faults = faults_of(network);
  Scan scan;

  explicit Bench(const char* words) {
    const std::vector<Fault> truth = {*parse_fault(network, words).fault};
    scan = expected_scan(effects, truth).scan;
  }
  std::size_t index(const char* words) const {
    return static_cast<std::size_t>(std::find(faults.begin(), faults.end(), *parse_fault(network, words).fault) -
                                    faults.begin());
  }
  Measured reading(std::vector<std::size_t> of, double ratio) const {
    Measured made;
    made.levels.assign(faults.size(), Level::up);
    for (const std::size_t fault : of) made.levels[fault] = Level::down;
    made.log_likelihood[static_cast<std::size_t>(Level::down)] = std::log(ratio);
    return made;
  }
  double probability(const Ranking& ranking, std::size_t fault) const {
    for (const Marginal& each : ranking.marginals) {
      if (each.fault.kind == faults[fault].kind && each.fault == faults[fault]) return each.probability.low;
    }
    return 0;
  }
};

}  // namespace

TEST_CASE("without readings it is the ranking of the scan") {
  const Bench bench("open ECM/A-27");
  const Ranking plain = locate(bench.effects, bench.faults, bench.scan);
  const Ranking same = locate_measured(bench.effects, bench.faults, bench.scan, {}, {});
  REQUIRE(plain.explanations.size() == same.explanations.size());
  for (std::size_t i = 0; i < plain.explanations.size(); ++i) {
    CHECK(plain.explanations[i].probability.low == same.explanations[i].probability.low);
  }
  CHECK(plain.outside == same.outside);
}

TEST_CASE("a reading about one fault is the same as other odds of that fault") {
  const Bench bench("open ECM/A-27");
  const std::size_t fault = bench.index("open ECM/A-27");
  for (const double ratio : {0.02, 0.4, 3.0, 40.0}) {
    const Measured reading = bench.reading({fault}, ratio);
    const Ranking measured = locate_measured(bench.effects, bench.faults, bench.scan, {}, std::span(&reading, 1));
    std::vector<Fault> other = bench.faults;
    other[fault].odds *= ratio;
    const Ranking scaled = locate(bench.effects, other, bench.scan);
    INFO("ratio " << ratio);
    CHECK(measured.outside <= 1e-4);
    for (const char* words : {"open ECM/A-3", "open ECM/A-1", "dead ECM"}) {
      const std::size_t each = bench.index(words);
      CHECK(bench.probability(measured, each) ==
            doctest::Approx(bench.probability(scaled, each)).epsilon(3e-4).scale(0));
    }
  }
}

TEST_CASE("of two faults that a reading speaks for, both together gain no more than one") {
  const Bench bench("open ECM/A-27");
  const std::size_t one = bench.index("open ECM/A-27"), other = bench.index("open ECM/A-3");
  constexpr double ratio = 40;
  const Measured both = bench.reading({one, other}, ratio);
  const Ranking ranking = locate_measured(bench.effects, bench.faults, bench.scan, {}, std::span(&both, 1));
  const double a = bench.probability(ranking, one), b = bench.probability(ranking, other);
  // Equal odds and equal effects: each alone weighs w, both together w times their odds, not times the ratio again.
  CHECK(a == doctest::Approx(b).epsilon(1e-3));
  CHECK(a + b < 1 + 2 * bench.faults[one].odds);
  CHECK(a + b > 0.9);
}

}  // namespace whichwire::test
