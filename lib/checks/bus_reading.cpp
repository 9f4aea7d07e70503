// See bus_reading.hpp. Tests: tests/checks/bus_reading.cpp.
#include "checks/bus_reading.hpp"

#include <algorithm>

namespace whichwire {

BusWiring::BusWiring(const Network& network, std::size_t bus)
    : network_(&network), bus_(&network.buses.at(bus)), index_(bus), pair_(lines_of(bus_->protocol) == 2) {
  const auto number = [&](const End& end) {
    const std::size_t at = place_of(end);
    if (at == ends_.size()) ends_.push_back(end);
    return at;
  };
  for (const Segment& segment : bus_->segments) {
    const std::size_t from = number(segment.from);
    segments_.push_back({from, number(segment.to)});
  }
}

std::size_t BusWiring::place_of(const End& end) const {
  return static_cast<std::size_t>(std::find(ends_.begin(), ends_.end(), end) - ends_.begin());
}

bool BusWiring::on_this_bus(const Fault& fault) const { return fault.bus == index_; }

BusWiring::Breaks BusWiring::breaks_of(const std::vector<Fault>& present) const {
  Breaks breaks{Marks(segments_.size()), Marks(segments_.size()), Marks(segments_.size())};
  for (const Fault& fault : present) {
    if (!on_this_bus(fault)) continue;
    const bool high = fault.lines != Lines::low;
    const bool low = fault.lines != Lines::high;
    if (fault.part == PartKind::segment && fault.kind == FaultKind::open) {
      breaks.high[fault.item] |= static_cast<char>(high);
      breaks.low[fault.item] |= static_cast<char>(low);
    }
    if (fault.part == PartKind::segment && fault.kind == FaultKind::resistive) breaks.corroded[fault.item] = 1;
    if (fault.part == PartKind::connector_bus_pin) {
      breaks.link_high |= high;
      breaks.link_low |= low;
    }
  }
  return breaks;
}

BusWiring::Reach BusWiring::reach(const Probe& probe, const Breaks& breaks, bool high, bool low,
                                  bool stop_at_corrosion) const {
  const auto whole = [&](std::size_t i) {
    return !(high && breaks.high[i]) && !(low && breaks.low[i]) && !(stop_at_corrosion && breaks.corroded[i]);
  };
  Reach reached{Marks(ends_.size()), false};
  const std::size_t start = place_of(probe.at);
  const bool link = probe.at.kind == End::Kind::diagnostic_connector;
  if (start == ends_.size() || (link && ((high && breaks.link_high) || (low && breaks.link_low)))) return reached;
  reached.any = true;
  std::vector<std::size_t> todo;
  const auto visit = [&](std::size_t point) {
    if (reached.points[point] || (probe.only != nowhere && point == start)) return;
    reached.points[point] = 1;
    todo.push_back(point);
  };
  if (probe.only == nowhere) {
    visit(start);
  } else if (whole(probe.only)) {
    const auto [a, b] = segments_[probe.only];
    visit(a == start ? b : a);
  }
  while (!todo.empty()) {
    const std::size_t point = todo.back();
    todo.pop_back();
    for (std::size_t i = 0; i < segments_.size(); ++i) {
      const auto [a, b] = segments_[i];
      if ((a == point || b == point) && whole(i)) visit(a == point ? b : a);
    }
  }
  return reached;
}

bool BusWiring::touches(const Reach& reached, const Probe& probe, std::size_t segment) const {
  if (reached.any && segment == probe.only) return true;
  return reached.points[segments_[segment][0]] || reached.points[segments_[segment][1]];
}

End BusWiring::tester() const {
  const bool at_connector = std::any_of(ends_.begin(), ends_.end(),
                                        [](const End& end) { return end.kind == End::Kind::diagnostic_connector; });
  if (at_connector) return {End::Kind::diagnostic_connector, nowhere};
  return bus_->segments.empty() ? End{} : bus_->segments.front().from;
}

std::size_t BusWiring::count(const Reach& reached, const Probe& probe, const std::vector<Fault>& present) const {
  const auto reaches = [&](const End& end) {
    const std::size_t at = std::find(ends_.begin(), ends_.end(), end) - ends_.begin();
    return at < ends_.size() && reached.points[at];
  };
  std::size_t found = 0;
  for (std::size_t i = 0; i < bus_->terminators.size(); ++i) {
    const End& at = bus_->terminators[i].at;
    const bool missing = std::any_of(present.begin(), present.end(), [&](const Fault& fault) {
      return on_this_bus(fault) && fault.part == PartKind::terminator && fault.item == i;
    });
    const bool out = at.kind == End::Kind::module && at.index == probe.unplugged;
    if (!missing && !out && reaches(at)) ++found;
  }
  const bool extra = std::any_of(present.begin(), present.end(), [&](const Fault& fault) {
    return on_this_bus(fault) && fault.kind == FaultKind::extra;
  });
  return found + (extra && reaches(tester()) ? 1 : 0);
}

void BusWiring::add(BusReading& reading, const Fault& fault, const Probe& probe,
                    const std::array<Reach, 3>& reached) const {
  const auto& [both, high, low] = reached;
  if (fault.kind == FaultKind::holds && fault.owner != probe.unplugged) {
    const std::size_t at = place_of({End::Kind::module, fault.owner});
    if (at == ends_.size() || !both.points[at]) return;
    (pair_ ? reading.together : reading.to_ground) = true;
  }
  if (fault.kind != FaultKind::short_circuit || fault.part != PartKind::segment) return;
  if (fault.to == ShortTo::other_line) {
    reading.together |= touches(both, probe, fault.item);
    return;
  }
  const bool seen = (fault.lines != Lines::low && touches(high, probe, fault.item)) ||
                    (fault.lines != Lines::high && pair_ && touches(low, probe, fault.item));
  (fault.to == ShortTo::ground ? reading.to_ground : reading.to_supply) |= seen;
}

BusReading BusWiring::read(const Probe& probe, const std::vector<Fault>& present) const {
  const Breaks breaks = breaks_of(present);
  const std::array<Reach, 3> reached = {reach(probe, breaks, true, pair_, false),
                                        reach(probe, breaks, true, false, false),
                                        reach(probe, breaks, false, true, false)};
  BusReading reading;
  reading.terminators = count(reached[0], probe, present);
  const Reach clean = reach(probe, breaks, true, pair_, true);
  reading.corroded = count(clean, probe, present) < reading.terminators;
  for (const Fault& fault : present) {
    if (on_this_bus(fault)) add(reading, fault, probe, reached);
  }
  return reading;
}

bool BusWiring::joined(const End& a, const End& b, const std::vector<Fault>& present) const {
  const Breaks breaks = breaks_of(present);
  const std::size_t target = place_of(b);
  if (target == ends_.size()) return false;
  const auto whole_by = [&](bool high, bool low) {
    return reach({a, nowhere, nowhere}, breaks, high, low, true).points[target] != 0;
  };
  return whole_by(true, false) && (!pair_ || whole_by(false, true));
}

std::vector<std::size_t> BusWiring::segments_at(const End& end) const {
  std::vector<std::size_t> found;
  const std::size_t at = place_of(end);
  for (std::size_t i = 0; i < segments_.size(); ++i) {
    if (segments_[i][0] == at || segments_[i][1] == at) found.push_back(i);
  }
  return found;
}

}  // namespace whichwire
