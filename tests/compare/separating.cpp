// The cheapest set of checks against plain enumeration of every set of checks, on random tables; and what the checks of
// a shipped network's blind spots leave together.
#include <doctest/doctest.h>

#include <random>
#include <set>
#include <whichwire/blindspots.hpp>

#include "checks/hypotheses.hpp"
#include "compare/networks.hpp"
#include "compare/separate.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

/// Checks with two to four outcomes, of which a fault may show one, sometimes two; whole minutes.
OutcomeTable random_table(std::mt19937& random, std::size_t faults, std::size_t checks) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  OutcomeTable table;
  for (std::size_t c = 0; c < checks; ++c) table.minutes.push_back(static_cast<double>(1 + below(12)));
  for (std::size_t f = 0; f < faults; ++f) {
    table.repair.push_back(below(3) == 0 && f > 0 ? table.repair[below(f)] : f);
    auto& row = table.shows.emplace_back();
    for (std::size_t c = 0; c < checks; ++c) {
      std::uint32_t outcomes = 1U << (below(3) == 0 ? below(4) : 0);
      if (below(5) == 0) outcomes |= 1U << below(4);
      row.push_back(outcomes);
    }
  }
  return table;
}

/// Whether these checks tell apart all that all checks together do.
bool enough(const OutcomeTable& table, std::uint32_t chosen) {
  for (std::size_t i = 0; i < table.repair.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (table.repair[i] == table.repair[j]) continue;
      bool by_any = false, by_chosen = false;
      for (std::size_t c = 0; c < table.minutes.size(); ++c) {
        const bool apart = (table.shows[i][c] & table.shows[j][c]) == 0;
        by_any = by_any || apart;
        by_chosen = by_chosen || (apart && (chosen >> c & 1U) != 0);
      }
      if (by_any && !by_chosen) return false;
    }
  }
  return true;
}

double minutes_of(const OutcomeTable& table, std::uint32_t chosen) {
  double sum = 0;
  for (std::size_t c = 0; c < table.minutes.size(); ++c) sum += (chosen >> c & 1U) != 0 ? table.minutes[c] : 0;
  return sum;
}

}  // namespace

TEST_CASE("on 400 random tables the cheapest checks cost what trying every set of checks finds") {
  std::mt19937 random(21);
  std::size_t told = 0;
  for (int i = 0; i < 400; ++i) {
    const std::size_t faults = 2 + random() % 9, checks = 1 + random() % 10;
    const OutcomeTable table = random_table(random, faults, checks);
    double best = -1;
    for (std::uint32_t chosen = 0; chosen < (1U << checks); ++chosen) {
      const double minutes = minutes_of(table, chosen);
      if ((best < 0 || minutes < best) && enough(table, chosen)) best = minutes;
    }
    const Cheapest found = cheapest_checks(table);
    std::uint32_t chosen = 0;
    for (const std::size_t check : found.checks) chosen |= 1U << check;
    CHECK(enough(table, chosen));
    CHECK(minutes_of(table, chosen) == doctest::Approx(found.minutes));
    CHECK(found.minutes == doctest::Approx(best));
    CHECK(found.at_least == doctest::Approx(best));
    told += found.checks.size();
  }
  CHECK(told > 800);
}

TEST_CASE("faults that one check alone tells from the rest need that check, and equal repairs need none") {
  OutcomeTable table;
  table.minutes = {5, 1};
  table.repair = {0, 1, 1};
  table.shows = {{1, 1}, {2, 1}, {2, 2}};
  CHECK(cheapest_checks(table).checks == std::vector<std::size_t>{0});
  table.repair = {0, 0, 0};
  CHECK(cheapest_checks(table).checks.empty());
}

TEST_CASE("in every shipped network the checks of a blind spot and what they leave hold each of its faults together") {
  std::size_t separated = 0;
  for (const std::string& name : shipped_names()) {
    CAPTURE(name);
    const Network network = shipped(name);
    for (const AlikeFaults& alike : blindspots(Effects(network)).alike) {
      const Separation& by = alike.separation;
      CHECK(by.at_least <= by.minutes + 1e-9);
      double sum = 0;
      for (const Check& check : by.checks) sum += check.minutes;
      CHECK(sum == doctest::Approx(by.minutes));
      separated += by.checks.size();
      for (const auto& group : by.left) {
        std::set<std::string> repairs;
        for (const Fault& fault : group) repairs.insert(repair_of(network, fault));
        CHECK((group.size() == 1 || repairs.size() > 1));
      }
    }
  }
  CHECK(separated > 500);
}
