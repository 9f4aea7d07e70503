// Idea and tests: see ready.hpp; tests/electrical.
#include "electrical/ready.hpp"

#include <algorithm>
#include <string>

#include "electrical/values.hpp"

namespace whichwire {
namespace {

BusPlan plan_of(const Network& network, std::size_t index, const WireTable& wires, const Interval& contact) {
  const Bus& bus = network.buses[index];
  BusPlan plan;
  plan.lines = static_cast<std::size_t>(lines_of(bus.protocol));
  const auto place = [&](const End& end) {
    const std::size_t known = plan.end_of(end);
    if (known != nowhere) return known;
    plan.ends.push_back(end);
    return plan.ends.size() - 1;
  };
  for (const Segment& segment : bus.segments) {
    const std::size_t from = place(segment.from);
    plan.segments.push_back({from, place(segment.to)});
    plan.wire.push_back(wires.bus_wire(segment.length_m, segment.area_mm2) + 2 * contact);
  }
  for (const Terminator& terminator : bus.terminators) place(terminator.at);
  const auto& pins = network.diagnostic_connector.buses;
  const bool at_connector = std::any_of(pins.begin(), pins.end(), [&](const auto& each) { return each.bus == index; });
  if (at_connector) plan.connector = place({End::Kind::diagnostic_connector, nowhere});
  if (!plan.ends.empty()) plan.added = at_connector ? plan.connector : 0;
  return plan;
}

Interval load_of(const ElectricalValues& values, Protocol protocol) {
  const Interval* own = find_value(values, std::string(word_for(protocol)) + ".load");
  return own != nullptr ? *own : value_of(values, "bus.load");
}

}  // namespace

std::size_t BusPlan::end_of(const End& end) const {
  const auto found = std::find(ends.begin(), ends.end(), end);
  return found == ends.end() ? nowhere : static_cast<std::size_t>(found - ends.begin());
}

PartValues::PartValues(const ElectricalValues& values)
    : contact(value_of(values, "contact")),
      terminator_share(value_of(values, "terminator.share")),
      terminator_added(value_of(values, "terminator.added")),
      short_circuit(value_of(values, "short")),
      joint(value_of(values, "joint")),
      holds(value_of(values, "holds")),
      back_feed(value_of(values, "back-feed")),
      added_device(value_of(values, "added-device")),
      bus_dominant(value_of(values, "bus.dominant")),
      battery_volts(value_of(values, "battery.volts")),
      battery_ohms(value_of(values, "battery.ohms")),
      off_rail(value_of(values, "battery.off-rail")),
      strap(value_of(values, "body.strap")),
      ground_point(value_of(values, "ground.point")),
      module_load(value_of(values, "module.load")),
      module_load_asleep(value_of(values, "module.load-asleep")),
      feed{value_of(values, "feed.fuse"), value_of(values, "feed.relay"), value_of(values, "feed.fusible-link"),
           value_of(values, "feed.switch")},
      reference_share(value_of(values, "reference.volts-share")),
      reference_ohms(value_of(values, "reference.ohms")),
      reference_current(value_of(values, "reference.current")),
      reference_load(value_of(values, "reference.load")),
      reference_short(value_of(values, "reference.short")),
      reference_unpowered(value_of(values, "reference.unpowered")),
      meter_ohms(value_of(values, "meter.volts-ohms").nominal),
      lamp_exponent(value_of(values, "lamp.exponent").nominal),
      lamp_volts(value_of(values, "lamp.rated-volts").nominal),
      split_terminators(value_of(values, "terminator.split").nominal > 0) {}

ReadyNetwork::ReadyNetwork(const Network& its, const ElectricalValues& values)
    : network(its),
      parts(values),
      levels(values),
      supply{Supply(its, KeyState::off), Supply(its, KeyState::accessory), Supply(its, KeyState::run),
             Supply(its, KeyState::start)} {
  const WireTable wires(values);
  supply_wire = wires.supply_wire();
  for (std::size_t bus = 0; bus < its.buses.size(); ++bus) {
    buses.push_back(plan_of(its, bus, wires, parts.contact));
    bus_load.push_back(load_of(values, its.buses[bus].protocol));
  }
}

std::vector<PresentFault> acting(const std::vector<PresentFault>& faults, const Situation& situation) {
  std::vector<PresentFault> acting;
  for (const PresentFault& each : faults) {
    if (!each.fault.comes_and_goes) acting.push_back(each);
  }
  for (const std::size_t feed : situation.fuses_out) {
    acting.push_back({{.kind = FaultKind::open, .part = PartKind::feed, .owner = feed}});
  }
  return acting;
}

bool contains(const std::vector<std::size_t>& all, std::size_t one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace whichwire
