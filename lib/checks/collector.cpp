// See collector.hpp. Tests: tests/checks/plan.cpp.
#include "checks/collector.hpp"

#include <algorithm>

#include "checks/look_checks.hpp"
#include "checks/sight.hpp"
#include "checks/supply_checks.hpp"

namespace whichwire {

const Wiring& Collector::wiring(std::size_t bus) {
  Wiring& made = wirings_[bus];
  if (!made) made = std::make_shared<const BusWiring>(job_.network, bus);
  return made;
}

/// All that can be done at the plug of a suspected module but for its bus.
void Collector::add_plug(std::size_t module) {
  const Module& owner = job_.network.modules[module];
  if (!first("plug " + owner.id)) return;
  add(plug_check(job_, module));
  if (owner.power.empty()) add(feed_pin_check(job_, module, nowhere));
  for (std::size_t i = 0; i < owner.power.size(); ++i) add(feed_pin_check(job_, module, i));
  if (owner.ground.empty()) add(ground_pin_check(job_, module, nowhere));
  for (std::size_t i = 0; i < owner.ground.size(); ++i) add(ground_pin_check(job_, module, i));
  for (std::size_t i = 0; i < owner.references.size(); ++i) add(reference_check(job_, module, i));
}

void Collector::add_module(const Fault& fault) {
  const std::string& id = job_.network.modules[fault.owner].id;
  if (fault.kind == FaultKind::not_fitted) {
    if (first("fitted " + id)) add(fitted_check(job_, fault.owner));
    return;
  }
  if (of_configuration(fault) && first("configured " + id)) {
    add(configured_check(job_, fault.owner));
    add(set_up_check(job_, fault.owner));
  }
  add_plug(fault.owner);
  if (fault.bus == nowhere) return;
  add_bus_at(fault.bus, {End::Kind::module, fault.owner});
  add_bus(fault.bus);
  const bool disturbs = fault.kind != FaultKind::port_dead;
  if (disturbs && first("unplug " + id + job_.network.buses[fault.bus].id))
    add(unplug_check(job_, fault.owner, fault.bus));
}

void Collector::add_connector() {
  if (!first("connector")) return;
  const DiagnosticConnector& connector = job_.network.diagnostic_connector;
  add(connector_look_check(job_));
  if (connector.power.empty()) add(connector_feed_check(job_, nowhere));
  for (std::size_t i = 0; i < connector.power.size(); ++i) add(connector_feed_check(job_, i));
  if (connector.ground.empty()) add(connector_ground_check(job_, nowhere));
  for (std::size_t i = 0; i < connector.ground.size(); ++i) add(connector_ground_check(job_, i));
}

/// What ohms say at one end of a bus.
void Collector::add_bus_at(std::size_t bus, const End& end) {
  if (!first("bus " + job_.network.buses[bus].id + "@" + id_of(job_.network, end))) return;
  const Wiring& wires = wiring(bus);
  if (end.kind == End::Kind::diagnostic_connector) {
    add_connector();
  }
  if (end.kind == End::Kind::point) {
    const Point& point = job_.network.points[end.index];
    if (point.kind == Point::Kind::hidden) return;
    add(point_check(job_, end.index));
    const bool parts = point.kind == Point::Kind::inline_connector || point.kind == Point::Kind::star;
    if (parts && wires->bus().protocol != Protocol::ring) add(split_check(job_, wires, end.index));
    return;
  }
  if (auto pair = pair_check(job_, wires, end)) add(std::move(*pair));
  if (end.kind == End::Kind::module) {
    add_plug(end.index);
    add_continuity(bus, end.index);
  }
}

/// The diagnostic connector, else the leading or the joining module, else whoever is there.
End Collector::easiest_place(std::size_t bus, const End& but) const {
  const Bus& on = job_.network.buses[bus];
  std::vector<End> ends;
  for (const Segment& segment : on.segments) {
    ends.push_back(segment.from);
    ends.push_back(segment.to);
  }
  const auto worth = [&](const End& end) {
    if (end == but || end.kind == End::Kind::point) return 1e9;
    if (end.kind == End::Kind::diagnostic_connector) return 0.0;
    const Module& module = job_.network.modules[end.index];
    if (out_of_bounds(module)) return 1e9;
    return 1 + module.place.minutes.value_or(knowledge().check("line-shorts").reach);
  };
  const auto best =
      std::min_element(ends.begin(), ends.end(), [&](const End& a, const End& b) { return worth(a) < worth(b); });
  return best == ends.end() || worth(*best) > 1e8 ? End{} : *best;
}

/// Wires from plug to plug: where no terminators tell.
void Collector::add_continuity(std::size_t bus, std::size_t module) {
  const Bus& on = job_.network.buses[bus];
  if (has_pair_rule(on) || on.protocol == Protocol::ring) return;
  const End other = easiest_place(bus, {End::Kind::module, module});
  if (other == End{}) return;
  add(continuity_check(job_, wiring(bus), module, other));
}

/// What is worth doing about a bus as a whole.
void Collector::add_bus(std::size_t bus) {
  const Bus& on = job_.network.buses[bus];
  if (!first("bus " + on.id) || on.protocol == Protocol::ring) return;
  const End place = easiest_place(bus, {});
  if (place == End{}) return;
  if (on.protocol != Protocol::ethernet_t1) add(line_shorts_check(job_, wiring(bus), place));
  add_bus_at(bus, place);
  for (const Segment& segment : on.segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind == End::Kind::point) add_bus_at(bus, end);
    }
  }
}

void Collector::add_segment(std::size_t bus, std::size_t segment) {
  const Bus& on = job_.network.buses[bus];
  if (!first("segment " + on.id + " " + on.segments[segment].id)) return;
  if (on.protocol == Protocol::ring) add(ring_link_check(job_, wiring(bus), segment));
  add_bus_at(bus, on.segments[segment].from);
  add_bus_at(bus, on.segments[segment].to);
  add_bus(bus);
}

void Collector::add_for(const Fault& fault) {
  switch (fault.part) {
    case PartKind::module:
      return add_module(fault);
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
      return add_plug(fault.owner);
    case PartKind::segment:
      return add_segment(fault.owner, fault.item);
    case PartKind::feed:
      if (first("feed " + job_.network.feeds[fault.owner].id)) add(feed_check(job_, fault.owner));
      return;
    case PartKind::ground:
      if (first("ground " + job_.network.grounds[fault.owner].id)) add(ground_point_check(job_, fault.owner));
      return;
    case PartKind::terminator:
      if (first("terminator " + job_.network.buses[fault.bus].id + std::to_string(fault.item))) {
        add(terminator_check(job_, wiring(fault.bus), fault.item));
      }
      return add_bus(fault.bus);
    case PartKind::bus:
      if (first("added")) add(added_check(job_));
      return add_bus(fault.bus);
    case PartKind::connector_bus_pin:
      add_bus_at(fault.bus, {End::Kind::diagnostic_connector, nowhere});
      [[fallthrough]];
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return add_connector();
  }
}

/// Clearing and scanning again tells what comes and goes, and what is past, from what is there.
void Collector::add_general(const Hypotheses& hypotheses) {
  const auto harmless = [](const Hypothesis& set) {
    return std::all_of(set.present.begin(), set.present.end(),
                       [](const Fault& fault) { return fault.kind == FaultKind::not_fitted; });
  };
  double past = 0;
  for (const Hypothesis& set : hypotheses.sets) past += harmless(set) ? set.weight : 0;
  if (past > knowledge().limit("least-suspicion") * hypotheses.listed()) add(rescan_check(job_));
}

}  // namespace whichwire
