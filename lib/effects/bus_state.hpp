// What a set of faults on one bus does to it: islands, disturbances, terminators left; and from that the level
// of a hop between two of its points. The rules are those of meanings.md, section 1.
#pragma once

#include <span>
#include <vector>
#include <whichwire/prediction.hpp>

#include "effects/wiring.hpp"

namespace whichwire {

/// From this bit rate on a bus without any terminator is unsure (meanings.md).
constexpr int least_bit_rate_to_miss_terminators = 250'000;

/// A fault that acts on a bus. Babbling modules that have no supply are left out by the caller.
using BusFaults = std::span<const Fault* const>;

class BusState {
 public:
  BusState(const Bus& bus, const Wiring& wiring) : bus_(bus), wiring_(wiring) {}

  /// Sets the state to that of exactly these faults. Those that act `firmly` cut, and disturb only what they would
  /// beside any other faults: messages of which every way leads past the place where they disturb. Either such a
  /// message gets there, or it gets nowhere.
  void set(BusFaults acting, BusFaults firmly);

  /// Level of a message from `p` to `q`, both on this bus; `p == q` gives the level of the island of `p`.
  Level hop(PointIndex p, PointIndex q) const;

  /// As `hop(p, p)`, `down` where the only module of a bus with several is left alone, and at least `unsure` where the
  /// modules bear a line that is broken, but note it.
  Level at(PointIndex p) const;

 private:
  void cut(BusFaults faults);
  void disturb(BusFaults faults, bool firmly);
  void disturb_where(const std::vector<PointIndex>& label, PointIndex at, Level level, bool firmly);
  void disturb_segment(const Fault& fault, bool firmly);
  void count_terminators();
  void label();
  void note_ring(BusFaults faults);
  void note_line(BusFaults faults);
  bool joined(PointIndex p, PointIndex q) const;
  bool pair_tolerant() const { return bus_.protocol == Protocol::can_ft; }
  std::size_t edge_of(const Fault& fault) const;

  const Bus& bus_;
  const Wiring& wiring_;
  std::vector<std::uint8_t> whole_high_, whole_low_, whole_, sound_;  ///< by edge
  std::vector<PointIndex> high_, low_, island_, sound_island_;        ///< label by point
  std::vector<Level> disturbed_;                                      ///< by point
  std::vector<std::pair<PointIndex, Level>> firm_;                    ///< disturbances of those that act firmly
  std::vector<std::uint8_t> missing_;                                 ///< by terminator
  Level ring_ = Level::up, noted_ = Level::up;
  bool one_line_open_ = false, resistive_ = false;
};

}  // namespace whichwire
