// The published diagnosis nets through the search core: net30 (94 faults, 78 observations) and net300 (841, 844).
// Source: the figures published with the generator (tests/published_net.hpp): log masses by plain enumeration of all
// sets of up to five faults, numbers of sets near the best by gringo/clasp and toulbar2.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "locate/list.hpp"
#include "locate/search.hpp"
#include "published_net.hpp"
#include "running.hpp"

using namespace whichwire;
using test::PublishedNet;

namespace {

std::size_t near_the_best(const search::Problem& problem, double nats) {
  constexpr double rounding = 1e-9;  // costs are whole thousandths
  return search::sets_within(problem, nats + rounding).size();
}

std::vector<std::string> names_of(const PublishedNet& net, const search::PlainSet& set) {
  std::vector<std::string> names;
  for (const auto member : set.members) names.push_back(net.faults[member]);
  return names;
}

}  // namespace

TEST_CASE("the nets are those that were published, by the checksum of their text") {
  const auto checksum = [](const PublishedNet& net) { return test::run("sha256sum", text_of(net)).out.substr(0, 64); };
  const std::string of_net30 = checksum(test::net30());
  CHECK(of_net30.starts_with("7ec566c1"));
  CHECK(of_net30.ends_with("b4e5ad"));
  CHECK(test::net30().faults.size() == 94);
  CHECK(test::net30().observations.size() == 78);
  CHECK(test::net300().faults.size() == 841);
  CHECK(test::net300().observations.size() == 844);
}

TEST_CASE("net30 has its published mass, and the certificate's interval contains it") {
  const auto net = test::net30();
  const auto problem = problem_of(net);
  const double none = log_of_no_fault(net);
  CHECK(std::abs(none - -52.282580) < 1e-6);
  for (const double outside : {1e-2, 1e-4, 1e-6}) {
    CAPTURE(outside);
    const auto found = search::search(problem, {outside});
    REQUIRE(found.root->slack() <= outside);
    CHECK(none + found.root->low <= -12.483431 + 1e-6);
    CHECK(none + found.root->low + std::log1p(found.root->slack()) >= -12.483431 - 1e-6);
  }
  const auto exact = search::search(problem, {1e-9});
  CHECK(std::abs(none + exact.root->low - -12.483431) < 1e-6);
}

TEST_CASE("net30 has its published posteriors and marginals, and a hidden fault keeps its prior") {
  const auto net = test::net30();
  const auto problem = problem_of(net);
  const auto found = search::search(problem, {1e-9});
  const auto sets = search::sets_within(problem, 7);
  REQUIRE(sets.size() > 2);
  CHECK(names_of(net, sets[0]) == std::vector<std::string>{"trunk_1_3"});
  CHECK(std::abs(std::exp(sets[0].log_weight - found.root->low) - 0.954496) < 1e-6);
  CHECK(std::abs(std::exp(sets[1].log_weight - found.root->low) - 0.003833) < 1e-6);
  CHECK(names_of(net, sets[1]).back().starts_with("stub_1_"));
  const auto shares = search::shares(problem, *found.root);
  const auto share = [&](const std::string& fault) {
    const auto& its = shares[net.index_of(fault)];
    CHECK(its.high - its.low < 1e-6);
    return its.low;
  };
  CHECK(std::abs(share("trunk_1_3") - 0.99980675) < 1e-7);
  CHECK(std::abs(share("stub_1_3_1") - 0.00410642) < 1e-7);
  CHECK(std::abs(share("trunk_1_4") - 0.00219283) < 1e-7);
  CHECK(std::abs(share("stub_1_4_0") - 0.00399996) < 1e-7);
  CHECK(std::abs(share("stub_1_4_0") - 0.004) < 1e-6);
}

TEST_CASE("net30 has 15, 16 and 126 sets within 6.908, 9.210 and 13.816 of the best, which costs 10713") {
  const auto problem = rounded_problem_of(test::net30());
  CHECK(near_the_best(problem, 6.908) == 15);
  CHECK(near_the_best(problem, 9.210) == 16);
  CHECK(near_the_best(problem, 13.816) == 126);
  // The published cost counts what the best set leaves from the cheapest conceivable outcome.
  double cheapest = 0;
  for (const auto& likelihood : problem.likelihood) cheapest += std::max(likelihood.front(), likelihood.back());
  double none = 0;
  for (const auto& likelihood : problem.likelihood) none += likelihood.front();
  const double best = search::sets_within(problem, 0.5).front().log_weight;
  CHECK(std::lround(1000 * (cheapest - none - best)) == 10713);
}

TEST_CASE("net300 has 5, 63, 168, 1136 and 4109 sets near the best, and the true set is third") {
  const auto net = test::net300();
  const auto problem = rounded_problem_of(net);
  CHECK(near_the_best(problem, 4.0) == 5);
  CHECK(near_the_best(problem, 6.908) == 63);
  CHECK(near_the_best(problem, 9.210) == 168);
  CHECK(near_the_best(problem, 11.5) == 1136);
  CHECK(near_the_best(problem, 13.816) == 4109);
  const auto first = search::sets_within(problem, 4.0);
  REQUIRE(first.size() >= 3);
  CHECK(names_of(net, first[0]) == std::vector<std::string>{"trunk_2_6", "fuse_17"});
  CHECK(std::lround(1000 * (first[0].log_weight - first[1].log_weight)) == 74206 - 72600);
  CHECK(std::lround(1000 * (first[0].log_weight - first[2].log_weight)) == 74495 - 72600);
  auto third = names_of(net, first[2]);
  std::sort(third.begin(), third.end());
  CHECK(third == std::vector<std::string>{"fuse_17", "mod_7_3_1", "trunk_2_6"});
}

TEST_CASE("net300's mass lies in the sets near the best as published") {
  const auto sets = search::sets_within(rounded_problem_of(test::net300()), 16.1);
  CHECK(sets.size() == 9698);
  double all = 0;
  for (const auto& set : sets) all += std::exp(set.log_weight - sets.front().log_weight);
  const auto share_of_first = [&](std::size_t count) {
    double sum = 0;
    for (std::size_t i = 0; i < count; ++i) sum += std::exp(sets[i].log_weight - sets.front().log_weight);
    return sum / all;
  };
  CHECK(std::abs(share_of_first(1) - 0.59) < 0.005);
  CHECK(std::abs(share_of_first(7) - 0.84) < 0.005);
  CHECK(std::abs(share_of_first(63) - 0.946) < 0.0005);
  CHECK(std::abs(share_of_first(1136) - 0.993) < 0.0005);
}
