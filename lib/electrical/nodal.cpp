// Idea, source and tests: see nodal.hpp.
#include "electrical/nodal.hpp"

#include <cmath>

#include "electrical/equations.hpp"

namespace whichwire {
namespace {

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
