// See sight.hpp. Tests: tests/checks/supply_checks.cpp.
#include "checks/sight.hpp"

#include <algorithm>

#include "checks/build.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {

bool is_open(const Fault& fault, PartKind part, std::size_t owner, std::size_t item) {
  return fault.kind == FaultKind::open && fault.part == part && fault.owner == owner && fault.item == item;
}

bool opens_above(const Network& network, const Fault& fault, std::size_t feed) {
  return fault.kind == FaultKind::open && fault.part == PartKind::feed && hangs_from(network, feed, fault.owner);
}

bool of_module(const Fault& fault, FaultKind kind, std::size_t module) {
  return fault.part == PartKind::module && fault.kind == kind && fault.owner == module;
}

bool unpowers(const Network& network, const Fault& fault, std::size_t module) {
  if (fault.kind != FaultKind::open) return false;
  const Module& owner = network.modules.at(module);
  if (fault.part == PartKind::power_pin) return fault.owner == module;
  if (fault.part == PartKind::ground_pin) return fault.owner == module && owner.ground.size() <= 1;
  if (fault.part == PartKind::feed) {
    return std::any_of(owner.power.begin(), owner.power.end(),
                       [&](const PowerPin& pin) { return hangs_from(network, pin.feed, fault.owner); });
  }
  return fault.part == PartKind::ground && !owner.ground.empty() &&
         std::all_of(owner.ground.begin(), owner.ground.end(),
                     [&](const GroundPin& pin) { return pin.ground == fault.owner; });
}

bool of_segment_at(const Network& network, const Fault& fault, const End& end) {
  if (fault.part != PartKind::segment) return false;
  const Segment& segment = network.buses.at(fault.owner).segments.at(fault.item);
  return segment.from == end || segment.to == end;
}

bool out_of_bounds(const Module& module) {
  return std::any_of(module.place.hazards.begin(), module.place.hazards.end(), refused);
}

}  // namespace whichwire
