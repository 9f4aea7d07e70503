// Idea, source and tests: see nodal.hpp.
#include "electrical/nodal.hpp"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>

namespace whichwire {
namespace {

/// The values that the elements have in one solve.
struct Values {
  std::vector<double> siemens, volts;
};

double siemens_of(double ohms) { return std::isinf(ohms) ? 0.0 : 1.0 / std::max(ohms, least_ohms); }

using Limit = double Interval::*;

Values values_at(const Circuit& circuit, Limit limit) {
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

double ohms_at(const Circuit& circuit, Node red, Node black, Limit limit) {
  if (red == black) return 0;
  const Values values = values_at(circuit, limit);
  if (red == ground_node) std::swap(red, black);
  // Ground has by far the most neighbours: pinned, it fills nothing in.
  const Reach reach(circuit, values.siemens, red, ground_node, black);
  const bool through_ground = reach.meets_pinned() && (black == ground_node || reach.also_meets_pinned());
  if (!through_ground && (black == ground_node || !reach.together())) return open_circuit;
  if (reach.meets_pinned()) {
    const System system(circuit, values, reach);
    return system.across(system.response(red, black), red, black);
  }
  const Reach floating(circuit, values.siemens, red, black);
  const System system(circuit, values, floating);
  return system.across(system.response(red, black), red, black);
}

/// Volts in one state of the circuit, and how they move with each element.
struct Solved {
  double volts = 0;
  std::vector<double> with_siemens, with_volts;
};

/// Elements that let current through one way only are switched off and on until each agrees with its own volts. A chain
/// of diodes settles in as many rounds as it has members; a bus has one in each node, all to the same line.
class Rounds {
 public:
  Rounds(const Circuit& circuit, Node red, Node black) : circuit_(circuit), red_(red), black_(black) {}

  Solved solve(const Values& values) const {
    Values now = values;
    constexpr int most_rounds = 20;
    for (int round = 0;; ++round) {
      const Reach reach(circuit_, now.siemens, red_ == ground_node ? black_ : red_, ground_node);
      if (!reach.meets_pinned()) return round == 0 ? nothing() : floating(values);
      const System system(circuit_, now, reach);
      const Eigen::VectorXd volts = system.volts();
      if (round < most_rounds && !settle(system, volts, values, now)) continue;
      return finish(system, volts, values, now);
    }
  }

 private:
  Solved nothing() const {
    return {0, std::vector<double>(circuit_.elements.size(), 0.0), std::vector<double>(circuit_.elements.size(), 0.0)};
  }

  /// Every way to ground is switched off, so nothing drives the meter; the signs are those with all switched on.
  Solved floating(const Values& values) const {
    const Reach reach(circuit_, values.siemens, red_ == ground_node ? black_ : red_, ground_node);
    const System system(circuit_, values, reach);
    Solved solved = finish(system, system.volts(), values, values);
    solved.volts = 0;
    return solved;
  }

  bool settle(const System& system, const Eigen::VectorXd& volts, const Values& values, Values& now) const {
    bool settled = true;
    for (std::size_t i = 0; i < circuit_.elements.size(); ++i) {
      const Element& element = circuit_.elements[i];
      if (element.way == Way::both) continue;
      const double push = values.volts[i] - system.across(volts, element.a, element.b);
      const bool conducts = element.way == Way::into_a ? push >= 0 : push <= 0;
      const double wanted = conducts ? values.siemens[i] : 0.0;
      settled &= wanted == now.siemens[i];
      now.siemens[i] = wanted;
    }
    return settled;
  }

  Solved finish(const System& system, const Eigen::VectorXd& volts, const Values& values, const Values& now) const {
    Solved solved = nothing();
    solved.volts = system.across(volts, red_, black_);
    const Eigen::VectorXd response = system.response(red_, black_);
    for (std::size_t i = 0; i < circuit_.elements.size(); ++i) {
      const Element& element = circuit_.elements[i];
      const double reached = system.across(response, element.a, element.b);
      solved.with_volts[i] = values.siemens[i] * reached;  // switched off: the way it would move once it is on
      if (now.siemens[i] > 0 || element.way == Way::both) {
        solved.with_siemens[i] = (now.volts[i] - system.across(volts, element.a, element.b)) * reached;
      }
    }
    return solved;
  }

  const Circuit& circuit_;
  Node red_, black_;
};

/// A choice of values and what shows with it.
struct Corner {
  Values values;
  Solved here;
};

/// Climbs (`up` = 1) or descends (-1) to a corner where every sign says that there is no further to go.
class Climb {
 public:
  Climb(const Circuit& circuit, const Rounds& rounds, int up) : circuit_(circuit), rounds_(rounds), up_(up) {}

  /// All values at once as long as that gains, then one after another.
  Corner from(Corner best) const {
    for (Corner next = best; move_all(next);) {
      next.here = rounds_.solve(next.values);
      if (!gains(best, next)) break;
      best = next;
    }
    constexpr int most_single_moves = 40;
    for (int i = 0; i < most_single_moves; ++i) {
      Corner next = best;
      if (!move_one(next)) break;
      next.here = rounds_.solve(next.values);
      if (!gains(best, next)) break;
      best = next;
    }
    return best;
  }

 private:
  bool gains(const Corner& from, const Corner& to) const { return (to.here.volts - from.here.volts) * up_ > 1e-12; }

  double wanted_volts(const Corner& at, std::size_t i) const {
    const double sign = at.here.with_volts[i] * up_;
    return sign == 0 ? at.values.volts[i] : sign > 0 ? circuit_.elements[i].volts.high : circuit_.elements[i].volts.low;
  }

  double wanted_siemens(const Corner& at, std::size_t i) const {
    const double sign = at.here.with_siemens[i] * up_;
    if (sign == 0) return at.values.siemens[i];
    return siemens_of(sign > 0 ? circuit_.elements[i].ohms.low : circuit_.elements[i].ohms.high);
  }

  bool move_all(Corner& corner) const {
    Values wanted = corner.values;
    for (std::size_t i = 0; i < circuit_.elements.size(); ++i) {
      wanted.volts[i] = wanted_volts(corner, i);
      wanted.siemens[i] = wanted_siemens(corner, i);
    }
    const bool moves = wanted.volts != corner.values.volts || wanted.siemens != corner.values.siemens;
    corner.values = std::move(wanted);
    return moves;
  }

  /// The value that promises most by its slope.
  bool move_one(Corner& corner) const {
    double most = 0;
    double* value = nullptr;
    double wanted = 0;
    const auto offer = [&](double& now, double to, double slope) {
      const double promise = std::abs((to - now) * slope);
      if (promise <= most) return;
      most = promise;
      value = &now;
      wanted = to;
    };
    for (std::size_t i = 0; i < circuit_.elements.size(); ++i) {
      offer(corner.values.volts[i], wanted_volts(corner, i), corner.here.with_volts[i]);
      offer(corner.values.siemens[i], wanted_siemens(corner, i), corner.here.with_siemens[i]);
    }
    if (value != nullptr) *value = wanted;
    return value != nullptr;
  }

  const Circuit& circuit_;
  const Rounds& rounds_;
  int up_;
};

}  // namespace

Interval ohms_between(const Circuit& circuit, Node red, Node black) {
  return {ohms_at(circuit, red, black, &Interval::low), ohms_at(circuit, red, black, &Interval::nominal),
          ohms_at(circuit, red, black, &Interval::high)};
}

Interval volts_between(const Circuit& circuit, Node red, Node black, double meter_ohms) {
  if (red == black) return {};
  Circuit metered = circuit;
  metered.resistor(red, black, exactly(meter_ohms));
  const Rounds rounds(metered, red, black);
  const Values nominal = values_at(metered, &Interval::nominal);
  const Corner start{nominal, rounds.solve(nominal)};
  const Corner lowest = Climb(metered, rounds, -1).from(start), highest = Climb(metered, rounds, 1).from(start);
  return {lowest.here.volts, start.here.volts, highest.here.volts};
}

}  // namespace whichwire
