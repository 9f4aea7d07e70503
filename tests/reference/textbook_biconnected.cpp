// Breaks in a wiring with circles, against the published parts of a graph.
// Source: the example biconnected_components.cpp of the Boost Graph Library: nine vertices A to I, eleven edges; four
// biconnected components {B,C,D}, {A,B,E,F}, {G,H,I}, {A,G}; articulation points B, G, A; so A-G is the one bridge.
// The graph is wired as one bus with a module at each vertex. Each larger component is a circle: one break in it parts
// nothing, two part it. An articulation point is a vertex without whose wires others no longer hear each other.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "asking.hpp"
#include "locate/list.hpp"
#include "locate/network_problem.hpp"

using namespace whichwire;

namespace {

using Edge = std::string;  // `AB`

const std::vector<Edge> edges = {"AF", "AB", "AG", "BC", "BD", "BE", "CD", "EF", "GI", "GH", "HI"};
const std::vector<std::set<Edge>> circles = {{"BC", "BD", "CD"}, {"AB", "BE", "EF", "AF"}, {"GH", "GI", "HI"}};
const Edge bridge = "AG";

Network graph() {
  test::Building building;
  for (const char vertex : std::string("ABCDEFGHI")) building.module({vertex});
  building.bus("NET", Protocol::can_hs, 500'000);
  for (const auto& edge : edges) building.segment("NET", edge, edge.substr(0, 1), edge.substr(1));
  return building.network;
}

std::vector<Fault> breaks(const Network& network) {
  std::vector<Fault> faults;
  for (const auto& edge : edges) faults.push_back(*parse_fault(network, "open " + edge).fault);
  return faults;
}

std::vector<Question> who_hears_whom(const Network& network) {
  std::vector<Question> questions;
  for (std::size_t a = 0; a < network.modules.size(); ++a) {
    for (std::size_t b = 0; b < network.modules.size(); ++b) {
      if (a != b) questions.push_back({Question::About::hears, a, b});
    }
  }
  return questions;
}

/// Whether two modules that are not named in `but` cannot hear each other.
bool parted(const Network& network, const std::vector<Fault>& faults, const std::string& but = "") {
  const auto questions = who_hears_whom(network);
  const auto levels = Effects(network).predict(faults, questions, {});
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const auto names = network.modules[questions[i].a].id + network.modules[questions[i].b].id;
    if (levels[i] == Level::down && (but.empty() || names.find(but) == std::string::npos)) return true;
  }
  return false;
}

bool in_one_circle(const Edge& a, const Edge& b) {
  return std::any_of(circles.begin(), circles.end(),
                     [&](const auto& circle) { return circle.count(a) != 0 && circle.count(b) != 0; });
}

/// Exact evidence that just what `faults` part is parted.
std::vector<Observation> evidence_under(const Network& network, const std::vector<Fault>& faults) {
  std::vector<Observation> evidence;
  const auto questions = who_hears_whom(network);
  const auto levels = Effects(network).predict(faults, questions, {});
  for (std::size_t i = 0; i < questions.size(); ++i) {
    Observation observation{questions[i], {}, "", levels[i] == Level::down};
    observation.log_likelihood.fill(-1000);
    observation.log_likelihood[static_cast<std::size_t>(levels[i])] = 0;
    evidence.push_back(observation);
  }
  return evidence;
}

}  // namespace

TEST_CASE("one break parts the published graph only at its bridge, two also within one component") {
  const Network network = graph();
  const auto faults = breaks(network);
  for (std::size_t i = 0; i < edges.size(); ++i) {
    CAPTURE(edges[i]);
    CHECK(parted(network, {faults[i]}) == (edges[i] == bridge));
    for (std::size_t j = i + 1; j < edges.size(); ++j) {
      CAPTURE(edges[j]);
      const bool expected = edges[i] == bridge || edges[j] == bridge || in_one_circle(edges[i], edges[j]);
      CHECK(parted(network, {faults[i], faults[j]}) == expected);
    }
  }
}

TEST_CASE("others lose each other without a vertex's wires exactly at the published articulation points") {
  const Network network = graph();
  const auto faults = breaks(network);
  std::string found;
  for (const auto& module : network.modules) {
    std::vector<Fault> around;
    for (std::size_t i = 0; i < edges.size(); ++i) {
      if (edges[i].find(module.id) != std::string::npos) around.push_back(faults[i]);
    }
    if (parted(network, around, module.id)) found += module.id;
  }
  CHECK(found == "ABG");
}

TEST_CASE("the search lists just the sets of breaks that leave the published graph in the pieces that were seen") {
  const Network network = graph();
  const Effects effects(network);
  auto faults = breaks(network);
  for (auto& fault : faults) fault.odds = 1;
  // Beside the bridge, each circle of n wires may have none or any one of them broken: (1+3)(1+4)(1+3) sets.
  for (const bool bridge_open : {false, true}) {
    CAPTURE(bridge_open);
    std::vector<Fault> real;
    if (bridge_open) real.push_back(*parse_fault(network, "open " + bridge).fault);
    const auto made = problem_of(effects, faults, evidence_under(network, real), {});
    std::set<std::set<Edge>> sets;
    for (const auto& set : search::sets_within(made.problem, 500)) {
      std::set<Edge> open;
      for (const auto member : set.members) open.insert(edges[made.faults[member]]);
      CHECK(sets.insert(open).second);
      CHECK(open.count(bridge) == (bridge_open ? 1 : 0));
      for (const auto& circle : circles) {
        CHECK(std::count_if(open.begin(), open.end(), [&](const Edge& edge) { return circle.count(edge) != 0; }) <= 1);
      }
    }
    CHECK(sets.size() == 80);
  }
}
