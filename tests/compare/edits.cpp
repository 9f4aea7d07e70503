// Each edit of a network is found, and only that: random edits of every sort, on every shipped network, made in either
// of the two. An edit that changes no wiring changes no prediction.
#include <set>
#include <whichwire/compare.hpp>

#include "compare/networks.hpp"
#include "compare/random_edit.hpp"
#include "effort.hpp"

using namespace whichwire;
using test::Dice;

namespace {

Difference::Sort turned(Difference::Sort sort) {
  if (sort == Difference::Sort::only_in_a) return Difference::Sort::only_in_b;
  return sort == Difference::Sort::only_in_b ? Difference::Sort::only_in_a : sort;
}

}  // namespace

TEST_CASE("a network does not differ from itself") {
  for (const std::string& name : test::shipped_names()) {
    CAPTURE(name);
    const Network network = test::shipped(name);
    CHECK(differences(network, network).empty());
    const Comparison same = compare(Effects(network), Effects(network));
    CHECK(same.looks_different.empty());
    CHECK(same.told_apart.empty());
    CHECK(same.faults_only_in_a == 0);
    CHECK(same.faults_only_in_b == 0);
    CHECK(same.faults_shared == faults_of(network).size());
  }
}

TEST_CASE("the order of keys means nothing") {
  std::size_t reordered = 0;
  for (const std::string& name : test::shipped_names()) {
    if (name == "van-high") continue;  // states only its differences from another file
    CAPTURE(name);
    const Network network = test::shipped(name), sorted = test::with_sorted_keys(name);
    const auto same_id = [](const Module& x, const Module& y) { return x.id == y.id; };
    if (!std::equal(network.modules.begin(), network.modules.end(), sorted.modules.begin(), same_id)) ++reordered;
    const Comparison same = compare(Effects(network), Effects(sorted));
    CHECK(same.differences.empty());
    CHECK(same.looks_different.empty());
    CHECK(same.told_apart.empty());
    CHECK(same.faults_shared == faults_of(network).size());
  }
  CHECK(reordered > 5);
}

TEST_CASE("each of 400 random edits is found, and only that" * doctest::skip(test::only_few())) {
  std::vector<Network> networks;
  for (const std::string& name : test::shipped_names()) networks.push_back(test::shipped(name));
  std::set<std::string> sorts;
  std::size_t made = 0, without_effect = 0;
  for (std::uint64_t seed = 1; made < 400; ++seed) {
    REQUIRE(seed < 4000);
    Dice dice(seed);
    const Network& before = dice.one_of(networks);
    Network after = before;
    const auto edit = test::random_edit(dice, after);
    if (!edit) continue;  // this network has nothing of that sort
    ++made;
    sorts.insert(edit->name);
    const bool in_a = dice.one_in(2);
    const Network &a = in_a ? after : before, &b = in_a ? before : after;
    CAPTURE(seed);
    CAPTURE(edit->name);
    CAPTURE(before.name);
    const auto found = differences(a, b);
    REQUIRE(found.size() == 1);
    CHECK(found.front().sort == (in_a ? turned(edit->sort) : edit->sort));
    CHECK(found.front().kind == edit->kind);
    CHECK(found.front().part == (in_a && !edit->after.empty() ? edit->after : edit->part));
    if (edit->sort == Difference::Sort::changed) CHECK(found.front().what == edit->what);
    if (edit->changes_wiring) continue;
    ++without_effect;
    const Comparison comparison = compare(Effects(a), Effects(b));
    CHECK(comparison.looks_different.empty());
    CHECK(comparison.told_apart.empty());
    CHECK(comparison.faults_only_in_a + comparison.faults_only_in_b == 0);
  }
  CHECK(sorts.size() == test::count_of_edits());
  CHECK(without_effect > 100);
}
