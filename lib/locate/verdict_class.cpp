// The class of a set of faults, fault by fault, by the wiring. Tests: tests/checks/verdict_class.cpp.
#include "locate/verdict_class.hpp"

#include <algorithm>

#include "locate/sides.hpp"

namespace whichwire {
namespace {

/// The class of one fault as if it were present now, and the id that stands for it.
struct Classed {
  VerdictClass verdict_class;
  std::string part;
};

Classed local_to(const Network& network, std::size_t module) {
  return {gateway(network, module) ? VerdictClass::gateway : VerdictClass::module, network.modules.at(module).id};
}

Classed shared(const Network& network, const std::vector<std::size_t>& users, bool connector, const std::string& id) {
  if (users.size() == 1 && !connector) return local_to(network, users[0]);
  if (users.empty() && connector) return {VerdictClass::connector, "DLC"};
  return {VerdictClass::supply, id};
}

Classed of_feed(const Network& network, std::size_t feed) {
  const auto& pins = network.diagnostic_connector.power;
  const bool connector =
      std::any_of(pins.begin(), pins.end(), [&](const PowerPin& pin) { return hangs_from(network, pin.feed, feed); });
  return shared(network, modules_on_feed(network, feed), connector, network.feeds.at(feed).id);
}

Classed of_ground(const Network& network, std::size_t ground) {
  const auto& pins = network.diagnostic_connector.ground;
  const bool connector =
      std::any_of(pins.begin(), pins.end(), [&](const GroundPin& pin) { return pin.ground == ground; });
  return shared(network, modules_on_ground(network, ground), connector, network.grounds.at(ground).id);
}

Classed of_segment(const Network& network, const Fault& fault) {
  const Bus& bus = network.buses.at(fault.owner);
  if (fault.kind == FaultKind::short_circuit) return {VerdictClass::bus, bus.id};
  if (connector_stub(bus, fault.item)) return {VerdictClass::connector, "DLC"};
  const std::size_t owner = stub_owner(network, fault.owner, fault.item);
  if (owner != nowhere) return local_to(network, owner);
  return {VerdictClass::segment, bus.segments.at(fault.item).id};
}

Classed of_module(const Network& network, const Fault& fault) {
  switch (fault.kind) {
    case FaultKind::holds:
    case FaultKind::babbles:
    case FaultKind::back_feeds:
      return {VerdictClass::bus, network.buses.at(fault.bus).id};
    default:
      return local_to(network, fault.owner);
  }
}

Classed classed(const Network& network, const Fault& fault) {
  switch (fault.part) {
    case PartKind::module:
      return of_module(network, fault);
    case PartKind::segment:
      return of_segment(network, fault);
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
      return local_to(network, fault.owner);
    case PartKind::feed:
      return of_feed(network, fault.owner);
    case PartKind::ground:
      return of_ground(network, fault.owner);
    case PartKind::terminator:
    case PartKind::bus:
      return {VerdictClass::bus, network.buses.at(fault.owner).id};
    case PartKind::connector_bus_pin:
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return {VerdictClass::connector, "DLC"};
  }
  return {VerdictClass::none, {}};
}

std::vector<Fault> harmful(const std::vector<Fault>& faults) {
  std::vector<Fault> kept;
  std::copy_if(faults.begin(), faults.end(), std::back_inserter(kept),
               [](const Fault& fault) { return fault.kind != FaultKind::not_fitted; });
  return kept;
}

bool any_pin(const auto& pins, const auto& wanted) { return std::any_of(pins.begin(), pins.end(), wanted); }

}  // namespace

bool hangs_from(const Network& network, std::size_t feed, std::size_t above) {
  for (std::size_t steps = 0; feed != nowhere && steps <= network.feeds.size(); ++steps) {
    if (feed == above) return true;
    feed = network.feeds[feed].from;
  }
  return false;
}

std::vector<std::size_t> modules_on_feed(const Network& network, std::size_t feed) {
  std::vector<std::size_t> users;
  for (std::size_t i = 0; i < network.modules.size(); ++i) {
    const auto fed = [&](const PowerPin& pin) { return hangs_from(network, pin.feed, feed); };
    if (any_pin(network.modules[i].power, fed)) users.push_back(i);
  }
  return users;
}

std::vector<std::size_t> modules_on_ground(const Network& network, std::size_t ground) {
  std::vector<std::size_t> users;
  for (std::size_t i = 0; i < network.modules.size(); ++i) {
    const auto grounded = [&](const GroundPin& pin) { return pin.ground == ground; };
    if (any_pin(network.modules[i].ground, grounded)) users.push_back(i);
  }
  return users;
}

VerdictClass class_of(const Network& network, const std::vector<Fault>& faults) {
  const std::vector<Fault> present = harmful(faults);
  if (present.empty()) return VerdictClass::none;
  if (present.size() > 1) return VerdictClass::several;
  if (present[0].comes_and_goes) return VerdictClass::intermittent;
  return classed(network, present[0]).verdict_class;
}

std::vector<std::string> class_parts_of(const Network& network, const std::vector<Fault>& faults) {
  std::vector<std::string> parts;
  for (const Fault& fault : harmful(faults)) {
    const std::string part = classed(network, fault).part;
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  return parts;
}

}  // namespace whichwire
