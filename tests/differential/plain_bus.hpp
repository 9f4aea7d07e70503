// One bus with some faults present: its points, what is joined to what, disturbances, and the level of a hop.
// Page: "Points of a bus" to "Hop level".
#pragma once

#include <functional>
#include <vector>

#include "plain_world.hpp"

namespace whichwire::test {

class PlainBus {
 public:
  PlainBus(const PlainWorld& world, std::size_t bus);

  /// The module's point on this bus, or nowhere.
  std::size_t point_of(std::size_t module) const;
  /// The tester's point, or nowhere where the bus is not wired to the diagnostic connector.
  std::size_t tester() const { return tester_; }

  /// H(bus, p, q).
  Level hop(std::size_t p, std::size_t q) const;

  /// What the question `bus` says of the module.
  Level seen_by(std::size_t module) const;

 private:
  struct Wire {
    std::size_t from, to;
    std::size_t segment, connector;  ///< one of the two; the other is nowhere
  };
  enum class By : std::uint8_t { high, low, both_lines, island };
  struct Disturbance {
    std::vector<std::size_t> at;
    By by;
    Level level;
  };

  std::size_t point(const End& end) const;
  std::size_t add_point(const End& end);
  bool is(const Wire& wire, const Fault& fault) const;
  bool line_open(const Wire& wire, Line line) const;
  bool any_line_open(const Wire& wire) const;
  bool all_lines_open(const Wire& wire) const;
  bool resistive(const Wire& wire) const;

  /// A path leads from p to q over wires that `usable` admits.
  bool path(std::size_t p, std::size_t q, const std::function<bool(const Wire&)>& usable) const;
  bool joined(std::size_t p, std::size_t q, By by) const;
  bool one_island(std::size_t p, std::size_t q) const;
  bool only_over_resistive(std::size_t p, std::size_t q) const;

  std::vector<Disturbance> disturbances() const;
  void add_wiring_disturbances(std::vector<Disturbance>& all, const Fault& fault) const;
  void add_module_disturbances(std::vector<Disturbance>& all, const Fault& fault) const;
  bool reaches(const Disturbance& disturbance, std::size_t p) const;

  Level terminators(std::size_t p) const;
  Level island_level(std::size_t p) const;
  Level pair_hop(std::size_t p, std::size_t q) const;
  Level fault_tolerant_hop(std::size_t p, std::size_t q) const;
  Level commanded_hop(std::size_t p, std::size_t q) const;
  /// The life of `but` does not count.
  Level ring_level(std::size_t but) const;
  bool alone(std::size_t p) const;
  Level borne_but_noted() const;

  const PlainWorld& world_;
  std::size_t index_;
  const Bus& bus_;
  std::vector<End> points_;  ///< the tester's own point, if any, is last and has the end of the connector
  std::vector<Wire> wires_;
  std::size_t tester_ = nowhere;
};

}  // namespace whichwire::test
