// The nodal equations of a circuit at one choice of values: which nodes they have, and their factors.
// Tests: tests/electrical/closed_forms.cpp and ngspice.cpp, through nodal.hpp.
#pragma once

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>

#include "electrical/circuit.hpp"

namespace whichwire {

/// The values that the elements have in one solve.
struct Values {
  std::vector<double> siemens, volts;
};

inline double siemens_of(double ohms) { return std::isinf(ohms) ? 0.0 : 1.0 / std::max(ohms, least_ohms); }

using Limit = double Interval::*;

inline Values values_at(const Circuit& circuit, Limit limit) {
  Values values;
  for (const Element& element : circuit.elements) {
    values.siemens.push_back(siemens_of(element.ohms.*limit));
    values.volts.push_back(element.volts.*limit);
  }
  return values;
}

/// The nodes that conduct to `from` without passing the pinned node, numbered far ones first: on wiring, which is
/// nearly a tree, leaves are then eliminated before their trunk and hardly anything fills in.
class Reach {
 public:
  /// Begins at `from`; where that does not lead to `also`, there as well.
  Reach(const Circuit& circuit, const std::vector<double>& siemens, Node from, Node pinned, Node also = no_node)
      : row_(circuit.nodes, -1) {
    std::vector<std::uint32_t> first(circuit.nodes + 1, 0);
    for_each_edge(circuit, siemens, [&](Node a, Node) { ++first[a + 1]; });
    for (Node n = 0; n < circuit.nodes; ++n) first[n + 1] += first[n];
    std::vector<Node> next(first.back());
    std::vector<std::uint32_t> at(first.begin(), first.end() - 1);
    for_each_edge(circuit, siemens, [&](Node a, Node b) { next[at[a]++] = b; });
    std::vector<Node> order;
    std::size_t done = 0;
    const auto begin_at = [&](Node start) {
      bool meets = false;
      row_[start] = 0;
      order.push_back(start);
      for (; done < order.size(); ++done) {
        for (auto e = first[order[done]]; e < first[order[done] + 1]; ++e) {
          meets |= next[e] == pinned;
          if (next[e] == pinned || row_[next[e]] >= 0) continue;
          row_[next[e]] = 0;
          order.push_back(next[e]);
        }
      }
      return meets;
    };
    meets_pinned_ = begin_at(from);
    together_ = also == no_node || row_[also] >= 0;
    if (!together_ && also != pinned) also_meets_pinned_ = begin_at(also);
    count_ = static_cast<int>(order.size());
    for (int i = 0; i < count_; ++i) row_[order[static_cast<std::size_t>(i)]] = count_ - 1 - i;
  }

  int row(Node node) const { return row_[node]; }  ///< -1: not reached, or pinned
  int count() const { return count_; }
  bool meets_pinned() const { return meets_pinned_; }
  bool together() const { return together_; }  ///< `from` leads to `also` without the pinned node
  bool also_meets_pinned() const { return also_meets_pinned_; }

 private:
  template <class Take>
  static void for_each_edge(const Circuit& circuit, const std::vector<double>& siemens, Take take) {
    for (std::size_t i = 0; i < circuit.elements.size(); ++i) {
      if (siemens[i] <= 0) continue;
      take(circuit.elements[i].a, circuit.elements[i].b);
      take(circuit.elements[i].b, circuit.elements[i].a);
    }
  }

  std::vector<int> row_;
  int count_ = 0;
  bool meets_pinned_ = false, together_ = true, also_meets_pinned_ = false;
};

/// The nodal equations of the reached nodes, factored.
class System {
 public:
  System(const Circuit& circuit, const Values& values, const Reach& reach)
      : circuit_(circuit), values_(values), reach_(reach) {
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(circuit.elements.size() * 3);
    currents_.setZero(reach.count());
    for (std::size_t i = 0; i < circuit.elements.size(); ++i) add(i, entries);
    Eigen::SparseMatrix<double> matrix(reach.count(), reach.count());
    matrix.setFromTriplets(entries.begin(), entries.end());
    factors_.compute(matrix);
  }

  Eigen::VectorXd volts() const { return factors_.solve(currents_); }

  /// Volts at all nodes for one ampere into `red` and out of `black`.
  Eigen::VectorXd response(Node red, Node black) const {
    Eigen::VectorXd unit = Eigen::VectorXd::Zero(reach_.count());
    if (reach_.row(red) >= 0) unit[reach_.row(red)] += 1;
    if (reach_.row(black) >= 0) unit[reach_.row(black)] -= 1;
    return factors_.solve(unit);
  }

  double across(const Eigen::VectorXd& volts, Node a, Node b) const { return at(volts, a) - at(volts, b); }

 private:
  double at(const Eigen::VectorXd& volts, Node node) const {
    const int row = reach_.row(node);
    return row < 0 ? 0.0 : volts[row];
  }

  void add(std::size_t i, std::vector<Eigen::Triplet<double>>& entries) {
    const Element& element = circuit_.elements[i];
    const double siemens = values_.siemens[i];
    if (siemens <= 0 || element.a == element.b) return;
    const int a = reach_.row(element.a), b = reach_.row(element.b);
    if (a >= 0) entries.emplace_back(a, a, siemens);
    if (b >= 0) entries.emplace_back(b, b, siemens);
    if (a >= 0 && b >= 0) entries.emplace_back(std::max(a, b), std::min(a, b), -siemens);
    if (a >= 0) currents_[a] += siemens * values_.volts[i];
    if (b >= 0) currents_[b] -= siemens * values_.volts[i];
  }

  const Circuit& circuit_;
  const Values& values_;
  const Reach& reach_;
  Eigen::VectorXd currents_;
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower, Eigen::NaturalOrdering<int>> factors_;
};

}  // namespace whichwire
