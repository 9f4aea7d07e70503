// A fault of A as a fault of B. Tests: tests/compare/trims.cpp.
#include "compare/matching.hpp"

namespace whichwire {
namespace {

/// `item` of a list; a part that is not listed stands for itself where B lists none either.
bool take(std::size_t& item, const Map& map, std::size_t count_b) {
  if (item == nowhere) return count_b == 0;
  item = map[item];
  return item != nowhere;
}

}  // namespace

std::optional<Fault> in_b(const Matching& match, const Network& b, const Fault& fault) {
  Fault other = fault;
  other.bus = at(match.buses, fault.bus);
  if (fault.bus != nowhere && other.bus == nowhere) return std::nullopt;
  const auto owner = [&](const Map& map) { return (other.owner = at(map, fault.owner)) != nowhere; };
  bool there = false;
  switch (fault.part) {
    case PartKind::module:
      there = owner(match.modules);
      break;
    case PartKind::power_pin:
      there = owner(match.modules) && take(other.item, match.power[fault.owner], b.modules[other.owner].power.size());
      break;
    case PartKind::ground_pin:
      there = owner(match.modules) && take(other.item, match.ground[fault.owner], b.modules[other.owner].ground.size());
      break;
    case PartKind::reference:
      there = owner(match.modules) && take(other.item, match.references[fault.owner], 0);
      break;
    case PartKind::feed:
      there = owner(match.feeds);
      break;
    case PartKind::ground:
      there = owner(match.grounds);
      break;
    case PartKind::segment:
      there = owner(match.buses) && take(other.item, match.segments[fault.owner], 0);
      break;
    case PartKind::terminator:
      there = owner(match.buses) && take(other.item, match.terminators[fault.owner], 0);
      break;
    case PartKind::bus:
      there = owner(match.buses);
      break;
    case PartKind::connector_bus_pin:
      there = take(other.item, match.connector_buses, 0);
      break;
    case PartKind::connector_power_pin:
      there = take(other.item, match.connector_power, b.diagnostic_connector.power.size());
      break;
    case PartKind::connector_ground_pin:
      there = take(other.item, match.connector_ground, b.diagnostic_connector.ground.size());
      break;
  }
  return there ? std::optional(other) : std::nullopt;
}

}  // namespace whichwire
