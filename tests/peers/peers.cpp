// The search against solvers that share nothing with it: clasp's proved optimum of an answer set program, and
// toulbar2's full list of sets near the best of a weighted CSP. All costs are integers on both sides
// (tests/solvers.hpp), so they must be equal, and so must the sets.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "locate/list.hpp"
#include "peers/random_problem.hpp"
#include "published_net.hpp"
#include "solvers.hpp"

using namespace whichwire;
using test::Cost;
using test::Dice;
using test::SolvedSet;

namespace {

/// Every set within `within` thousandths of the best, by the search, in the solvers' order.
std::vector<SolvedSet> found_by_search(const search::Problem& problem, Cost within) {
  constexpr double rounding = 1e-7;
  std::vector<SolvedSet> sets;
  for (const auto& set : search::sets_within(problem, static_cast<double>(within) / 1000 + rounding)) {
    const double thousandths = -1000 * set.log_weight;
    REQUIRE(std::abs(thousandths - std::round(thousandths)) < 1e-4);
    sets.push_back({std::llround(thousandths), set.members});
  }
  std::sort(sets.begin(), sets.end(), [](const SolvedSet& a, const SolvedSet& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.members < b.members;
  });
  return sets;
}

struct Met {
  std::size_t instances = 0, sets = 0, ties_for_best = 0, with_several_faults = 0;
};

void compare(const search::Problem& problem, Cost within, Met& met) {
  const auto model = test::model_of(problem);
  const auto ours = found_by_search(problem, within);
  REQUIRE_FALSE(ours.empty());
  for (const auto& set : ours) CHECK(model.cost_of(set.members) == set.cost);
  const auto best = test::best_by_clasp(model);
  REQUIRE(best.proved);
  CHECK(ours.front().cost == best.sets.front().cost);
  CHECK(std::any_of(ours.begin(), ours.end(), [&](const SolvedSet& set) {
    return set.cost == ours.front().cost && set.members == best.sets.front().members;
  }));
  const auto all = test::all_by_toulbar2(model, best.sets.front().cost + within);
  REQUIRE(all.proved);
  REQUIRE(all.sets.size() == ours.size());
  for (std::size_t i = 0; i < ours.size(); ++i) {
    CHECK(ours[i].cost == all.sets[i].cost);
    CHECK(ours[i].members == all.sets[i].members);
  }
  ++met.instances;
  met.sets += ours.size();
  met.ties_for_best += ours.size() > 1 && ours[1].cost == ours[0].cost ? 1 : 0;
  met.with_several_faults += ours.front().members.size() > 1 ? 1 : 0;
}

}  // namespace

TEST_CASE("the best explanation and all near it are clasp's and toulbar2's on 130 random problems of all levels") {
  Met met;
  for (std::uint64_t seed = 1; seed <= 130; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const auto problem = test::random_problem(dice);
    compare(problem, dice.one_of(std::vector<Cost>{0, 1000, 2500, 4000}), met);
  }
  CHECK(met.instances == 130);
  CHECK(met.sets > 500);
  CHECK(met.ties_for_best > 5);
  CHECK(met.with_several_faults > 30);
}

TEST_CASE(
    "the best explanation and all near it are clasp's and toulbar2's on 80 generated nets with up to four faults") {
  Met met;
  for (std::uint32_t seed = 1; seed <= 80; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    test::NetShape shape{dice.between(1, 4), dice.between(2, 6), dice.between(2, 3), seed, {}};
    const auto faults = test::published_net(shape).faults;
    for (std::size_t i = dice.below(5); i > 0; --i) shape.present.push_back(dice.one_of(faults));
    const auto problem = rounded_problem_of(test::published_net(shape));
    compare(problem, dice.one_of(std::vector<Cost>{0, 4000, 6908, 9210}), met);
  }
  CHECK(met.instances == 80);
  CHECK(met.sets > 1000);
  CHECK(met.with_several_faults > 15);
}
