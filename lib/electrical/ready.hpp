// A network and the table of values made ready for circuits.
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "effects/supply.hpp"
#include "electrical/levels.hpp"
#include "electrical/wire.hpp"

namespace whichwire {

/// One bus: its ends once each, and the ohms of one conductor of each segment, contacts included.
struct BusPlan {
  std::vector<End> ends;
  std::vector<std::array<std::size_t, 2>> segments;  ///< ends at `from` and `to`
  std::vector<Interval> wire;                        ///< by segment
  std::size_t connector = nowhere;                   ///< end of the diagnostic connector, where the bus is wired to it
  std::size_t added = nowhere;                       ///< end where something unlisted is taken to be
  std::size_t lines = 2;

  std::size_t end_of(const End& end) const;  ///< nowhere: not on this bus
};

/// Ohms and volts of parts that do not depend on the network.
struct PartValues {
  explicit PartValues(const ElectricalValues& values);
  Interval contact, terminator_share, terminator_added, short_circuit, joint, holds, back_feed, added_device;
  Interval bus_dominant, battery_volts, battery_ohms, off_rail, strap, ground_point, module_load, module_load_asleep;
  std::array<Interval, 4> feed;  ///< by Feed::Kind
  Interval reference_share, reference_ohms, reference_current, reference_load, reference_short, reference_unpowered;
  double meter_ohms = 0, lamp_exponent = 0, lamp_volts = 0;
  bool split_terminators = false;
};

struct ReadyNetwork {
  ReadyNetwork(const Network& network, const ElectricalValues& values);

  const Network& network;
  PartValues parts;
  Levels levels;
  Interval supply_wire;
  std::vector<BusPlan> buses;
  std::vector<Interval> bus_load;  ///< by bus
  std::array<Supply, 4> supply;    ///< by KeyState

  Interval battery(const Situation& situation) const {
    return situation.battery_connected ? situation.battery_volts.value_or(parts.battery_volts) : Interval{};
  }
};

/// The faults that are there while the meter is on, fuses that are out among them.
std::vector<PresentFault> acting(const std::vector<PresentFault>& faults, const Situation& situation);

bool contains(const std::vector<std::size_t>& all, std::size_t one);

}  // namespace whichwire
