#include "plain_bus.hpp"

#include <algorithm>

namespace whichwire::test {

namespace {

bool single_line(Protocol protocol) { return lines_of(protocol) == 1; }

/// The table "Shorts".
Level level_of_short(Protocol protocol, const Fault& fault) {
  if (protocol == Protocol::can_ft) return Level::up;
  if (protocol != Protocol::can_hs || fault.to == ShortTo::other_line) return Level::down;
  if (fault.lines == Lines::high) return fault.to == ShortTo::ground ? Level::down : Level::unsure;
  return fault.to == ShortTo::ground ? Level::unsure : Level::down;
}

Level worse(Level a, Level b) { return std::max(a, b); }

}  // namespace

PlainBus::PlainBus(const PlainWorld& world, std::size_t bus)
    : world_(world), index_(bus), bus_(world.network.buses[bus]) {
  for (std::size_t s = 0; s < bus_.segments.size(); ++s) {
    const std::size_t from = add_point(bus_.segments[s].from);
    const std::size_t to = add_point(bus_.segments[s].to);
    wires_.push_back({from, to, s, nowhere});
  }
  const auto& at_connector = world.network.diagnostic_connector.buses;
  for (std::size_t c = 0; c < at_connector.size(); ++c) {
    if (at_connector[c].bus != index_) continue;
    const std::size_t connector = add_point({End::Kind::diagnostic_connector, nowhere});
    tester_ = points_.size();
    points_.push_back({End::Kind::diagnostic_connector, nowhere});
    wires_.push_back({tester_, connector, nowhere, c});
    break;
  }
}

std::size_t PlainBus::point(const End& end) const {
  for (std::size_t p = 0; p < points_.size(); ++p) {
    if (p != tester_ && points_[p].kind == end.kind &&
        (end.kind == End::Kind::diagnostic_connector || points_[p].index == end.index)) {
      return p;
    }
  }
  return nowhere;
}

std::size_t PlainBus::add_point(const End& end) {
  if (point(end) == nowhere) points_.push_back(end);
  return point(end);
}

std::size_t PlainBus::point_of(std::size_t module) const { return point({End::Kind::module, module}); }

bool PlainBus::is(const Wire& wire, const Fault& fault) const {
  if (fault.bus != index_) return false;
  if (fault.part == PartKind::segment) return fault.item == wire.segment;
  return fault.part == PartKind::connector_bus_pin && fault.item == wire.connector;
}

bool PlainBus::line_open(const Wire& wire, Line line) const {
  const Lines its_own = line == Line::high ? Lines::high : Lines::low;
  for (const Fault& fault : world_.faults) {
    if (fault.kind == FaultKind::open && is(wire, fault) && (fault.lines == Lines::both || fault.lines == its_own)) {
      return true;
    }
  }
  return false;
}

bool PlainBus::any_line_open(const Wire& wire) const {
  return line_open(wire, Line::high) || (!single_line(bus_.protocol) && line_open(wire, Line::low));
}

bool PlainBus::all_lines_open(const Wire& wire) const {
  return line_open(wire, Line::high) && (single_line(bus_.protocol) || line_open(wire, Line::low));
}

bool PlainBus::resistive(const Wire& wire) const {
  for (const Fault& fault : world_.faults) {
    if (fault.kind == FaultKind::resistive && is(wire, fault)) return true;
  }
  return false;
}

bool PlainBus::path(std::size_t p, std::size_t q, const std::function<bool(const Wire&)>& usable) const {
  std::vector<bool> reached(points_.size(), false);
  std::vector<std::size_t> next = {p};
  reached[p] = true;
  while (!next.empty()) {
    const std::size_t here = next.back();
    next.pop_back();
    for (const Wire& wire : wires_) {
      if ((wire.from != here && wire.to != here) || !usable(wire)) continue;
      const std::size_t there = wire.from == here ? wire.to : wire.from;
      if (reached[there]) continue;
      reached[there] = true;
      next.push_back(there);
    }
  }
  return reached[q];
}

bool PlainBus::one_island(std::size_t p, std::size_t q) const {
  if (bus_.protocol == Protocol::can_ft) return joined(p, q, By::high) || joined(p, q, By::low);
  return path(p, q, [this](const Wire& wire) { return !any_line_open(wire); });
}

bool PlainBus::joined(std::size_t p, std::size_t q, By by) const {
  switch (by) {
    case By::high:
      return path(p, q, [this](const Wire& wire) { return !line_open(wire, Line::high); });
    case By::low:
      return path(p, q, [this](const Wire& wire) { return !line_open(wire, Line::low); });
    case By::both_lines:
      return path(p, q, [this](const Wire& wire) { return !any_line_open(wire); });
    case By::island:
      break;
  }
  return one_island(p, q);
}

bool PlainBus::only_over_resistive(std::size_t p, std::size_t q) const {
  const bool tolerant = bus_.protocol == Protocol::can_ft;
  return !path(p, q, [&](const Wire& wire) {
    return !resistive(wire) && !(tolerant ? all_lines_open(wire) : any_line_open(wire));
  });
}

std::vector<PlainBus::Disturbance> PlainBus::disturbances() const {
  const bool tolerant = bus_.protocol == Protocol::can_ft;
  std::vector<Disturbance> all;
  for (const Fault& fault : world_.faults) {
    if (fault.bus != index_) continue;
    add_wiring_disturbances(all, fault);
    add_module_disturbances(all, fault);
    if (fault.kind != FaultKind::added_device && fault.kind != FaultKind::extra) continue;
    const std::size_t at = tester_ != nowhere ? tester_ : wires_.empty() ? nowhere : wires_.front().from;
    if (at == nowhere) continue;
    if (fault.kind == FaultKind::added_device) all.push_back({{at}, By::both_lines, Level::down});
    if (fault.kind == FaultKind::extra) all.push_back({{at}, tolerant ? By::both_lines : By::island, Level::unsure});
  }
  return all;
}

void PlainBus::add_wiring_disturbances(std::vector<Disturbance>& all, const Fault& fault) const {
  const bool pair_that_needs_both = !single_line(bus_.protocol) && bus_.protocol != Protocol::can_ft;
  for (const Wire& wire : wires_) {
    if (!is(wire, fault)) continue;
    const std::vector<std::size_t> ends = {wire.from, wire.to};
    if (fault.kind == FaultKind::short_circuit) {
      By by = fault.lines == Lines::low ? By::low : By::high;
      if (fault.to == ShortTo::other_line) by = By::both_lines;
      all.push_back({ends, by, level_of_short(bus_.protocol, fault)});
    }
    if (fault.kind == FaultKind::open && fault.lines != Lines::both && pair_that_needs_both) {
      all.push_back({ends, By::island, Level::unsure});
    }
  }
}

void PlainBus::add_module_disturbances(std::vector<Disturbance>& all, const Fault& fault) const {
  if (fault.part != PartKind::module || point_of(fault.owner) == nowhere) return;
  const std::vector<std::size_t> at = {point_of(fault.owner)};
  const Level tolerated = bus_.protocol == Protocol::can_ft ? Level::unsure : Level::down;
  if (fault.kind == FaultKind::holds) all.push_back({at, By::both_lines, tolerated});
  if (fault.kind == FaultKind::back_feeds) all.push_back({at, By::both_lines, tolerated});
  if (fault.kind == FaultKind::babbles && world_.supply_of(fault.owner) != Level::down) {
    all.push_back({at, By::both_lines, Level::down});
  }
}

bool PlainBus::reaches(const Disturbance& disturbance, std::size_t p) const {
  for (const std::size_t at : disturbance.at) {
    if (joined(at, p, disturbance.by)) return true;
  }
  return false;
}

Level PlainBus::terminators(std::size_t p) const {
  if (bus_.protocol != Protocol::can_hs && bus_.protocol != Protocol::flexray) return Level::up;
  if (bus_.terminators.size() < 2) return Level::up;
  int left = 0;
  for (std::size_t t = 0; t < bus_.terminators.size(); ++t) {
    const bool missing = world_.has(FaultKind::missing, PartKind::terminator, index_, t);
    if (!missing && one_island(p, point(bus_.terminators[t].at))) ++left;
  }
  if (left == 1 && bus_.bit_rate > 500'000) return Level::unsure;
  if (left == 0 && bus_.bit_rate >= 250'000) return Level::unsure;
  return Level::up;
}

Level PlainBus::island_level(std::size_t p) const {
  Level level = terminators(p);
  for (const Disturbance& disturbance : disturbances()) {
    for (std::size_t other = 0; other < points_.size(); ++other) {
      if (one_island(p, other) && reaches(disturbance, other)) level = worse(level, disturbance.level);
    }
  }
  return level;
}

Level PlainBus::pair_hop(std::size_t p, std::size_t q) const {
  if (!one_island(p, q)) return Level::down;
  return worse(island_level(p), only_over_resistive(p, q) ? Level::unsure : Level::up);
}

Level PlainBus::fault_tolerant_hop(std::size_t p, std::size_t q) const {
  if (!one_island(p, q)) return Level::down;
  Level level = only_over_resistive(p, q) ? Level::unsure : Level::up;
  for (const Disturbance& disturbance : disturbances()) {
    if (reaches(disturbance, p) || reaches(disturbance, q)) level = worse(level, disturbance.level);
  }
  return level;
}

Level PlainBus::commanded_hop(std::size_t p, std::size_t q) const {
  const std::size_t commander = point_of(bus_.commander);
  if (commander == nowhere || world_.port_dead(bus_.commander, index_)) return Level::down;
  return worse(worse(pair_hop(p, q), pair_hop(p, commander)), world_.work_of(bus_.commander));
}

Level PlainBus::ring_level(std::size_t but) const {
  Level level = Level::up;
  for (const Wire& wire : wires_) {
    if (any_line_open(wire)) return Level::down;
    if (resistive(wire)) level = worse(level, Level::unsure);
  }
  for (const Disturbance& disturbance : disturbances()) level = worse(level, disturbance.level);
  for (const End& end : points_) {
    if (end.kind != End::Kind::module || end.index == but) continue;
    if (world_.network.modules[end.index].passes_when_dead) continue;
    level = worse(level, world_.life_of(end.index));
  }
  return level;
}

Level PlainBus::hop(std::size_t p, std::size_t q) const {
  if (p == nowhere || q == nowhere) return Level::down;
  if (bus_.protocol == Protocol::ring) return ring_level(nowhere);
  if (bus_.protocol == Protocol::can_ft) return fault_tolerant_hop(p, q);
  if (bus_.protocol == Protocol::lin && bus_.commander != nowhere) return commanded_hop(p, q);
  return pair_hop(p, q);
}

bool PlainBus::alone(std::size_t p) const {
  bool alone_by_design = true, alone_now = true;
  for (std::size_t other = 0; other < points_.size(); ++other) {
    if (other == p || points_[other].kind != End::Kind::module) continue;
    alone_by_design = false;
    if (one_island(p, other)) alone_now = false;
  }
  return alone_now && !alone_by_design;
}

Level PlainBus::seen_by(std::size_t module) const {
  const std::size_t p = point_of(module);
  if (p == nowhere || world_.port_dead(module, index_)) return Level::down;
  if (bus_.protocol == Protocol::ring) return ring_level(module);
  return alone(p) ? Level::down : worse(hop(p, p), borne_but_noted());
}

Level PlainBus::borne_but_noted() const {
  if (bus_.protocol != Protocol::can_ft) return Level::up;
  for (const Fault& fault : world_.faults) {
    if (fault.bus != index_ || fault.part != PartKind::segment) continue;
    if (fault.kind == FaultKind::short_circuit) return Level::unsure;
    if (fault.kind == FaultKind::open && fault.lines != Lines::both) return Level::unsure;
  }
  return Level::up;
}

}  // namespace whichwire::test
