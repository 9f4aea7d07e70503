// The circuits of the diagnosis literature through the search core.
// Sources: the three multipliers and two adders ("polybox"): J. de Kleer, B. Williams, "Diagnosing multiple faults",
// Artificial Intelligence 32 (1987) 97-130; conflicts and the sets after probing X as in published course slides of it.
// The full adder: R. Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32 (1987) 57-95;
// its second case: R. Stern, M. Kalech, S. Rogov, A. Feldman, Artificial Intelligence 2017, figure 2 (the inputs were
// inferred from the published diagnoses). The decimals of the polybox were recomputed from its 27 consistent sets.
#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "locate/list.hpp"
#include "locate/search.hpp"
#include "textbook.hpp"

using namespace whichwire;
using namespace whichwire::textbook;

namespace {

enum Wire : std::uint8_t { x, y, z };

/// F = A C + B D = 12 and G = B D + C E = 12 would be right; F = 10 is seen.
Circuit polybox() {
  using Values = std::vector<int>;
  constexpr int a = 3, b = 2, c = 2, d = 3, e = 3, f = 10, g = 12;
  Circuit circuit;
  circuit.gates = {{"M1", [](const Values& at) { return at[x] == a * c; }},
                   {"M2", [](const Values& at) { return at[y] == b * d; }},
                   {"M3", [](const Values& at) { return at[z] == c * e; }},
                   {"A1", [](const Values& at) { return at[x] + at[y] == f; }},
                   {"A2", [](const Values& at) { return at[y] + at[z] == g; }}};
  circuit.wires = {Circuit::unknown, Circuit::unknown, Circuit::unknown};
  circuit.most = 12;
  return circuit;
}

/// Two exclusive-or gates, two and gates, one or gate; inputs 1, 0, 1.
Circuit full_adder(int sum, int carry) {
  using Values = std::vector<int>;
  constexpr int a = 1, b = 0, c = 1;
  enum Inside : std::uint8_t { half, both, through };  // outputs of X1, A1, A2
  Circuit circuit;
  circuit.gates = {{"X1", [](const Values& at) { return at[half] == (a ^ b); }},
                   {"X2", [=](const Values& at) { return sum == (at[half] ^ c); }},
                   {"A1", [](const Values& at) { return at[both] == (a & b); }},
                   {"A2", [](const Values& at) { return at[through] == (c & at[half]); }},
                   {"O1", [=](const Values& at) { return carry == (at[both] | at[through]); }}};
  circuit.wires = {Circuit::unknown, Circuit::unknown, Circuit::unknown};
  return circuit;
}

Sets diagnoses_of(const Circuit& circuit) {
  return minimal_of(consistent_sets(circuit.names(), circuit.minimal_conflicts()));
}

constexpr double prior = 0.01;
const double log_odds = std::log(prior / (1 - prior));

double log_mass(const Circuit& circuit) {
  const auto conflicts = circuit.minimal_conflicts();
  const auto found = search::search(problem_of(circuit.names(), conflicts, log_odds), {1e-12});
  REQUIRE(found.root->slack() <= 1e-12);
  // The core's masses are relative to no fault, which each conflict makes impossible.
  return found.root->low + static_cast<double>(conflicts.size()) * never;
}

/// What a probe of the wire is expected to show: 6, another value that some whole gates predict, or none of these.
struct Probe {
  double six, other, none;
  double bits() const {
    double sum = 0;
    for (const double p : {six, other, none}) sum -= p * std::log2(p);
    return sum;
  }
};

/// A value's probability is the mass of the sets that predict it: those that no third value is consistent with.
Probe probe(Wire wire, int other) {
  constexpr int third = 5;  // no whole gate predicts it
  const double all = log_mass(polybox());
  const double none = std::exp(log_mass(polybox().with(wire, third)) - all);
  return {std::exp(log_mass(polybox().with(wire, 6)) - all) - none,
          std::exp(log_mass(polybox().with(wire, other)) - all) - none, none};
}

}  // namespace

TEST_CASE("the polybox has the published conflicts, 27 consistent sets and four minimal diagnoses") {
  const auto conflicts = polybox().minimal_conflicts();
  CHECK(conflicts == Sets{{"A1", "M1", "M2"}, {"A1", "A2", "M1", "M3"}});
  CHECK(consistent_sets(polybox().names(), conflicts).size() == 27);
  CHECK(diagnoses_of(polybox()) == Sets{{"A1"}, {"M1"}, {"A2", "M2"}, {"M2", "M3"}});
}

TEST_CASE("each result of probing X in the polybox leaves the published diagnoses") {
  CHECK(diagnoses_of(polybox().with(x, 4)) == Sets{{"M1"}});
  CHECK(polybox().with(x, 6).minimal_conflicts() == Sets{{"A1", "M2"}, {"A1", "A2", "M3"}});
  CHECK(diagnoses_of(polybox().with(x, 6)) == Sets{{"A1"}, {"A2", "M2"}, {"M2", "M3"}});
  CHECK(diagnoses_of(polybox().with(x, 5)) == Sets{{"A1", "M1"}, {"M1", "M2", "M3"}, {"A2", "M1", "M2"}});
}

TEST_CASE("equal priors of 0.01 give the polybox's posteriors and marginals to their six decimals") {
  const auto names = polybox().names();
  const auto problem = problem_of(names, polybox().minimal_conflicts(), log_odds);
  const auto found = search::search(problem, {1e-12});
  std::map<Parts, double> posterior;
  for (const auto& set : search::sets_within(problem, -never / 2)) {
    Parts parts;
    for (const auto member : set.members) parts.insert(names[member]);
    posterior[parts] = std::exp(set.log_weight - found.root->low);
  }
  REQUIRE(posterior.size() == 27);
  CHECK(posterior[{"M1"}] == doctest::Approx(0.478026).epsilon(1e-6));
  CHECK(posterior[{"A1"}] == doctest::Approx(0.478026).epsilon(1e-6));
  CHECK(posterior[{"M2", "M3"}] == doctest::Approx(0.004829).epsilon(2e-4).scale(0));
  CHECK(posterior[{"A2", "M2"}] == doctest::Approx(0.004829).epsilon(2e-4).scale(0));
  const auto shares = search::shares(problem, *found.root);
  const double expected[] = {0.49764, 0.01961, 0.01478, 0.49764, 0.01478};  // M1, M2, M3, A1, A2
  for (std::size_t part = 0; part < names.size(); ++part) {
    CAPTURE(names[part]);
    CHECK(shares[part].low == doctest::Approx(shares[part].high).epsilon(1e-9));
    CHECK(std::abs(shares[part].low - expected[part]) < 5e-6);
  }
}

TEST_CASE("the polybox's wires have the published outlook, and X tells most") {
  const auto of_x = probe(x, 4), of_y = probe(y, 4), of_z = probe(z, 8);
  const auto near = [](double value, double published) { return std::abs(value - published) < 6e-7; };
  CHECK(near(of_x.other, 0.492561));
  CHECK(near(of_x.six, 0.502365));
  CHECK(near(of_x.none, 0.005074));
  CHECK(near(of_y.six, 0.990097));
  CHECK(near(of_y.other, 0.009706));
  CHECK(near(of_y.none, 0.000197));
  CHECK(near(of_z.six, 0.994926));
  CHECK(near(of_z.other, 0.004829));
  CHECK(near(of_z.none, 0.000246));
  CHECK(std::abs(of_x.bits() - 1.0408) < 6e-5);
  CHECK(std::abs(of_y.bits() - 0.0815) < 6e-5);
  CHECK(std::abs(of_z.bits() - 0.0474) < 6e-5);
}

TEST_CASE("Reiter's full adder has the published conflicts, 22 consistent sets and three minimal diagnoses") {
  const auto adder = full_adder(1, 0);
  CHECK(adder.minimal_conflicts() == Sets{{"X1", "X2"}, {"A2", "O1", "X1"}});
  CHECK(consistent_sets(adder.names(), adder.minimal_conflicts()).size() == 22);
  CHECK(diagnoses_of(adder) == Sets{{"X1"}, {"A2", "X2"}, {"O1", "X2"}});
}

TEST_CASE("a full adder that loses its carry has 26 consistent sets and the published diagnoses") {
  const auto adder = full_adder(0, 0);
  CHECK(consistent_sets(adder.names(), adder.minimal_conflicts()).size() == 26);
  CHECK(diagnoses_of(adder) == Sets{{"X1", "X2"}, {"O1"}, {"A2"}});
}
