// The class of a set of faults, fault by fault, by the wiring. Tests: tests/checks/verdict_class.cpp.
#include "locate/verdict_class.hpp"

#include <algorithm>

#include "locate/sides.hpp"

namespace whichwire {
namespace {

bool harmful(const Fault& fault) { return fault.kind != FaultKind::not_fitted; }

bool any_pin(const auto& pins, const auto& wanted) { return std::any_of(pins.begin(), pins.end(), wanted); }

/// The ring that a module without supply interrupts, or nowhere.
std::size_t ring_of(const Network& network, std::size_t module) {
  if (network.modules.at(module).passes_when_dead) return nowhere;
  const End end{End::Kind::module, module};
  for (std::size_t i = 0; i < network.buses.size(); ++i) {
    if (network.buses[i].protocol != Protocol::ring) continue;
    const auto ends = [&](const Segment& segment) { return segment.from == end || segment.to == end; };
    if (any_pin(network.buses[i].segments, ends)) return i;
  }
  return nowhere;
}

}  // namespace

Classes::Classes(const Network& network) : network_(network) {
  for (const Bus& bus : network.buses) breaks_.emplace_back(bus.segments.size());
}

/// What stays within one module. Within a member of a ring nothing does: the light does not get past it.
Classes::Classed Classes::local_to(std::size_t module) const {
  if (gateway(network_, module)) return {VerdictClass::gateway, network_.modules[module].id};
  const std::size_t ring = ring_of(network_, module);
  if (ring != nowhere) return {VerdictClass::bus, network_.buses[ring].id};
  return {VerdictClass::module, network_.modules.at(module).id};
}

Classes::Classed Classes::shared(const std::vector<std::size_t>& users, bool connector, const std::string& id) const {
  if (users.size() == 1 && !connector) return local_to(users[0]);
  if (users.empty() && connector) return {VerdictClass::connector, "DLC"};
  return {VerdictClass::supply, id};
}

Classes::Classed Classes::of_feed(std::size_t feed) const {
  const auto fed = [&](const PowerPin& pin) { return hangs_from(network_, pin.feed, feed); };
  return shared(modules_on_feed(network_, feed), any_pin(network_.diagnostic_connector.power, fed),
                network_.feeds.at(feed).id);
}

Classes::Classed Classes::of_ground(std::size_t ground) const {
  const auto grounded = [&](const GroundPin& pin) { return pin.ground == ground; };
  return shared(modules_on_ground(network_, ground), any_pin(network_.diagnostic_connector.ground, grounded),
                network_.grounds.at(ground).id);
}

Classes::Classed Classes::of_break(std::size_t bus, std::size_t segment) const {
  const Bus& on = network_.buses.at(bus);
  if (on.protocol == Protocol::ring) return {VerdictClass::bus, on.id};
  if (connector_stub(on, segment)) return {VerdictClass::connector, "DLC"};
  const std::size_t owner = stub_owner(network_, bus, segment);
  if (owner != nowhere) return local_to(owner);
  return {VerdictClass::segment, on.segments.at(segment).id};
}

Classes::Classed Classes::of_module(const Fault& fault) const {
  switch (fault.kind) {
    case FaultKind::holds:
    case FaultKind::babbles:
    case FaultKind::back_feeds:
      return {VerdictClass::bus, network_.buses.at(fault.bus).id};
    default:
      return local_to(fault.owner);
  }
}

Classes::Classed Classes::classed(const Fault& fault) {
  switch (fault.part) {
    case PartKind::module:
      return of_module(fault);
    case PartKind::segment: {
      const Bus& bus = network_.buses.at(fault.owner);
      if (fault.kind == FaultKind::short_circuit) return {VerdictClass::bus, bus.id};
      if (bus.protocol == Protocol::can_ft && fault.kind == FaultKind::open && fault.lines != Lines::both)
        return {VerdictClass::segment, bus.segments.at(fault.item).id};  // no module is silent for it
      std::optional<Classed>& known = breaks_.at(fault.owner).at(fault.item);
      if (!known) known = of_break(fault.owner, fault.item);
      return *known;
    }
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
      return local_to(fault.owner);
    case PartKind::feed:
      return of_feed(fault.owner);
    case PartKind::ground:
      return of_ground(fault.owner);
    case PartKind::terminator:
    case PartKind::bus:
      return {VerdictClass::bus, network_.buses.at(fault.owner).id};
    case PartKind::connector_bus_pin:
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return {VerdictClass::connector, "DLC"};
  }
  return {};
}

VerdictClass Classes::of(const std::vector<Fault>& faults) {
  const auto present = std::count_if(faults.begin(), faults.end(), harmful);
  if (present == 0) return VerdictClass::none;
  if (present > 1) return VerdictClass::several;
  const Fault& fault = *std::find_if(faults.begin(), faults.end(), harmful);
  return fault.comes_and_goes ? VerdictClass::intermittent : classed(fault).verdict_class;
}

std::vector<std::string> Classes::parts_of(const std::vector<Fault>& faults) {
  std::vector<std::string> parts;
  for (const Fault& fault : faults) {
    if (!harmful(fault)) continue;
    const std::string part = classed(fault).part;
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  return parts;
}

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

VerdictClass class_of(const Network& network, const std::vector<Fault>& faults) { return Classes(network).of(faults); }

std::vector<std::string> class_parts_of(const Network& network, const std::vector<Fault>& faults) {
  return Classes(network).parts_of(faults);
}

}  // namespace whichwire
