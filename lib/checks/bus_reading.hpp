// What ohms on a quiet bus show from one place, by the plain rules only: how many terminators are reached by both
// wires, whether the wires touch each other, ground or supply within reach, whether corrosion lies on the way.
// Source: Ohm's law; common practice. Tests: tests/checks/bus_reading.cpp.
#pragma once

#include <array>
#include <vector>
#include <whichwire/fault.hpp>

namespace whichwire {

struct BusReading {
  std::size_t terminators = 0;
  bool together = false, to_ground = false, to_supply = false;
  bool corroded = false;  ///< corrosion between here and a terminator
  friend bool operator==(const BusReading&, const BusReading&) = default;
};

/// Where the meter is.
struct Probe {
  End at;
  std::size_t unplugged = nowhere;  ///< this module's own terminator and faults are out of circuit
  std::size_t only = nowhere;       ///< a segment that ends here: the place is parted, look into this segment alone
};

/// The wiring of one bus by numbers, made once for many readings.
class BusWiring {
 public:
  BusWiring(const Network& network, std::size_t bus);

  BusReading read(const Probe& probe, const std::vector<Fault>& present) const;

  /// Whether every line is whole between two ends.
  bool joined(const End& a, const End& b, const std::vector<Fault>& present) const;

  /// The segments that end at `end`.
  std::vector<std::size_t> segments_at(const End& end) const;

  const Bus& bus() const { return *bus_; }
  std::size_t index() const { return index_; }

 private:
  using Marks = std::vector<char>;
  struct Breaks {
    Marks high, low, corroded;  ///< by segment
    bool link_high = false, link_low = false;
  };
  struct Reach {
    Marks points;
    bool any = false;  ///< the meter's lead itself reaches the bus
  };

  std::size_t place_of(const End& end) const;
  bool on_this_bus(const Fault& fault) const;
  Breaks breaks_of(const std::vector<Fault>& present) const;
  Reach reach(const Probe& probe, const Breaks& breaks, bool high, bool low, bool stop_at_corrosion) const;
  bool touches(const Reach& reached, const Probe& probe, std::size_t segment) const;
  std::size_t count(const Reach& reached, const Probe& probe, const std::vector<Fault>& present) const;
  void add(BusReading& reading, const Fault& fault, const Probe& probe, const std::array<Reach, 3>& reached) const;
  End tester() const;

  const Network* network_;
  const Bus* bus_;
  std::size_t index_;
  bool pair_;
  std::vector<End> ends_;
  std::vector<std::array<std::size_t, 2>> segments_;
};

}  // namespace whichwire
