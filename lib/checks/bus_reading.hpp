// What ohms on a quiet bus show from one place, by the plain rules only: how many terminators are reached by both
// wires, whether the wires touch each other, ground or supply within reach, whether corrosion lies on the way.
// Source: Ohm's law; common practice. Tests: tests/checks/bus_reading.cpp.
#pragma once

#include <array>
#include <cstdint>
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
struct BusProbe {
  End at;
  std::size_t unplugged = nowhere;  ///< this module's own terminator and faults are out of circuit
  std::size_t only = nowhere;       ///< a segment that ends here: the place is parted, look into this segment alone
};

/// The wiring of one bus by numbers, made once for many readings. Not for several threads at once: it remembers what
/// the last set of faults does.
class BusWiring {
 public:
  BusWiring(const Network& network, std::size_t bus);

  BusReading read(const BusProbe& probe, const std::vector<Fault>& present) const;

  /// Whether every line is whole and clean between two ends.
  bool joined(const End& a, const End& b, const std::vector<Fault>& present) const;

  /// The segments that end at `end`.
  std::vector<std::size_t> segments_at(const End& end) const;

  const Bus& bus() const { return *bus_; }
  std::size_t index() const { return index_; }

 private:
  using Marks = std::vector<char>;
  using Labels = std::vector<std::uint16_t>;  ///< by point: points with the same label are joined

  /// Joined by both lines, by one, or by both and without corrosion.
  enum class By : std::uint8_t { both, high, low, clean };

  /// Which points are joined to which, with one point taken out or with none.
  struct Pieces {
    std::size_t without;
    std::array<Labels, 4> labels;
    const Labels& by(By way) const { return labels[static_cast<std::size_t>(way)]; }
  };

  /// What a set of faults does to the wires.
  struct State {
    std::vector<Fault> faults;  ///< those on this bus
    Marks high, low, corroded;  ///< by segment: open or corroded
    bool link_high = false, link_low = false;
    std::vector<Pieces> pieces;
  };

  /// One reading being taken.
  struct Reading {
    const BusProbe& probe;
    const State& state;
    const Pieces& pieces;
    std::size_t start;  ///< the point whose piece is read, or `nowhere`
  };

  std::size_t place_of(const End& end) const;
  const State& state_of(const std::vector<Fault>& present) const;
  const Pieces& pieces_of(const State& state, std::size_t without) const;
  Labels label(const State& state, By by, std::size_t without) const;
  bool whole(const State& state, std::size_t segment, By by) const;
  bool reaches(const Reading& reading, std::size_t point, By by) const;
  bool touches(const Reading& reading, std::size_t segment, By by) const;
  std::size_t count(const Reading& reading, By by) const;
  void add(BusReading& result, const Fault& fault, const Reading& reading) const;

  const Bus* bus_;
  std::size_t index_;
  bool pair_;
  std::vector<End> ends_;
  std::vector<std::array<std::size_t, 2>> segments_;
  std::vector<std::vector<std::size_t>> segments_at_;  ///< by point
  std::vector<std::size_t> terminator_at_;
  std::size_t tester_;
  mutable State state_;
};

}  // namespace whichwire
