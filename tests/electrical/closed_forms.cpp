// Ohms of networks of equal resistors whose answers are known in closed form: effective resistance of complete graphs,
// cycles, the cube, K3,3, the ladder whose sections are Fibonacci numbers, the bridge, Foster's theorem.
// Sources: textbook effective resistances (Doyle and Snell, "Random Walks and Electric Networks"); Foster 1949.
#include <doctest/doctest.h>

#include <cmath>

#include "electrical/nodal.hpp"

namespace whichwire {
namespace {

using Edge = std::pair<Node, Node>;

/// Resistors of one ohm; nodes from 0.
Circuit of_edges(Node nodes, const std::vector<Edge>& edges) {
  Circuit circuit;
  circuit.nodes = nodes;
  for (const auto& [a, b] : edges) circuit.resistor(a, b, exactly(1));
  return circuit;
}

double ohms(const Circuit& circuit, Node a, Node b) { return ohms_between(circuit, a, b).nominal; }

std::vector<Edge> complete(Node n) {
  std::vector<Edge> edges;
  for (Node a = 0; a < n; ++a) {
    for (Node b = a + 1; b < n; ++b) edges.emplace_back(a, b);
  }
  return edges;
}

std::vector<Edge> cycle(Node n) {
  std::vector<Edge> edges;
  for (Node a = 0; a < n; ++a) edges.emplace_back(a, (a + 1) % n);
  return edges;
}

std::vector<Edge> cube() {
  std::vector<Edge> edges;
  for (Node a = 0; a < 8; ++a) {
    for (const Node bit : {1U, 2U, 4U}) {
      if ((a & bit) == 0) edges.emplace_back(a, a | bit);
    }
  }
  return edges;
}

}  // namespace

TEST_CASE("a complete graph of n nodes has 2/n ohms between any two") {
  for (const Node n : {3U, 5U, 9U}) {
    CHECK(ohms(of_edges(n, complete(n)), 0, n - 1) == doctest::Approx(2.0 / n).epsilon(1e-12));
  }
}

TEST_CASE("around a cycle of n the ohms over k edges are k(n-k)/n") {
  CHECK(ohms(of_edges(7, cycle(7)), 0, 3) == doctest::Approx(12.0 / 7).epsilon(1e-12));
}

TEST_CASE("the cube has 7/12, 3/4 and 5/6 ohms over one, two and three edges") {
  const Circuit circuit = of_edges(8, cube());
  CHECK(ohms(circuit, 0, 1) == doctest::Approx(7.0 / 12).epsilon(1e-12));
  CHECK(ohms(circuit, 0, 3) == doctest::Approx(3.0 / 4).epsilon(1e-12));
  CHECK(ohms(circuit, 0, 7) == doctest::Approx(5.0 / 6).epsilon(1e-12));
}

TEST_CASE("in K3,3 there are 2/3 ohms on one side and 5/9 across") {
  std::vector<Edge> edges;
  for (Node a = 0; a < 3; ++a) {
    for (Node b = 3; b < 6; ++b) edges.emplace_back(a, b);
  }
  CHECK(ohms(of_edges(6, edges), 0, 1) == doctest::Approx(2.0 / 3).epsilon(1e-12));
  CHECK(ohms(of_edges(6, edges), 0, 3) == doctest::Approx(5.0 / 9).epsilon(1e-12));
}

TEST_CASE("a ladder of n sections has a quotient of Fibonacci numbers") {
  // Sections of one ohm in series and one to ground; the input of three is 13/8.
  std::vector<double> fibonacci{0, 1};
  Circuit circuit;
  Node input = ground_node;
  for (int n = 1; n <= 12; ++n) {
    fibonacci.push_back(fibonacci[fibonacci.size() - 1] + fibonacci[fibonacci.size() - 2]);
    fibonacci.push_back(fibonacci[fibonacci.size() - 1] + fibonacci[fibonacci.size() - 2]);
    const Node shunted = n == 1 ? circuit.add() : input;
    circuit.resistor(shunted, ground_node, exactly(1));
    input = circuit.add();
    circuit.resistor(shunted, input, exactly(1));
    const auto k = static_cast<std::size_t>(2 * n);
    const double answer = fibonacci[k + 1] / fibonacci[k];
    CHECK(ohms(circuit, input, ground_node) == doctest::Approx(answer).epsilon(1e-12));
  }
  CHECK(ohms(circuit, input, ground_node) == doctest::Approx((1 + std::sqrt(5.0)) / 2).epsilon(1e-8));
}

TEST_CASE("the unbalanced bridge of 1 to 5 ohms has 61/21 ohms") {
  Circuit circuit;
  circuit.nodes = 4;  // s, a, b, t
  circuit.resistor(0, 1, exactly(1));
  circuit.resistor(0, 2, exactly(2));
  circuit.resistor(1, 2, exactly(3));
  circuit.resistor(1, 3, exactly(4));
  circuit.resistor(2, 3, exactly(5));
  CHECK(ohms(circuit, 0, 3) == doctest::Approx(61.0 / 21).epsilon(1e-12));
}

TEST_CASE("the ohms across all edges add up to one less than the nodes") {
  const Circuit circuit = of_edges(8, cube());
  double sum = 0;
  for (const auto& [a, b] : cube()) sum += ohms(circuit, a, b);
  CHECK(sum == doctest::Approx(7).epsilon(1e-12));
}

TEST_CASE("between places that nothing joins there is an open circuit") {
  Circuit circuit;
  circuit.nodes = 5;
  circuit.resistor(1, 2, exactly(1));
  circuit.resistor(3, 4, exactly(open_circuit));
  CHECK(std::isinf(ohms(circuit, 1, 3)));
  CHECK(std::isinf(ohms(circuit, 3, 4)));
  CHECK(ohms(circuit, 1, 2) == doctest::Approx(1));
}

}  // namespace whichwire
