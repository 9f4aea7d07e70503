// See bus_reading.hpp. Tests: tests/checks/bus_reading.cpp.
#include "checks/bus_reading.hpp"

#include <algorithm>

namespace whichwire {

BusWiring::BusWiring(const Network& network, std::size_t bus)
    : bus_(&network.buses.at(bus)), index_(bus), pair_(lines_of(bus_->protocol) == 2), tester_(nowhere) {
  const auto number = [&](const End& end) {
    const std::size_t at = place_of(end);
    if (at != nowhere) return at;
    ends_.push_back(end);
    return ends_.size() - 1;
  };
  for (const Segment& segment : bus_->segments) {
    const std::size_t from = number(segment.from);
    segments_.push_back({from, number(segment.to)});
  }
  segments_at_.resize(ends_.size());
  for (std::size_t i = 0; i < segments_.size(); ++i) {
    for (const std::size_t point : segments_[i]) segments_at_[point].push_back(i);
  }
  for (const Terminator& terminator : bus_->terminators) terminator_at_.push_back(place_of(terminator.at));
  tester_ = place_of({End::Kind::diagnostic_connector, nowhere});
  if (tester_ == nowhere && !segments_.empty()) tester_ = segments_.front()[0];
  state_.faults = {Fault{}};  // of no bus: not yet a state of this one
}

std::size_t BusWiring::place_of(const End& end) const {
  const auto found = std::find(ends_.begin(), ends_.end(), end);
  return found == ends_.end() ? nowhere : static_cast<std::size_t>(found - ends_.begin());
}

const BusWiring::State& BusWiring::state_of(const std::vector<Fault>& present) const {
  std::vector<Fault> faults;
  std::copy_if(present.begin(), present.end(), std::back_inserter(faults),
               [&](const Fault& fault) { return fault.bus == index_; });
  if (faults == state_.faults) return state_;
  state_ = {
      std::move(faults), Marks(segments_.size()), Marks(segments_.size()), Marks(segments_.size()), false, false, {}};
  for (const Fault& fault : state_.faults) {
    const bool high = fault.lines != Lines::low;
    const bool low = fault.lines != Lines::high;
    if (fault.part == PartKind::segment && fault.kind == FaultKind::open) {
      if (high) state_.high[fault.item] = 1;
      if (low) state_.low[fault.item] = 1;
    }
    if (fault.part == PartKind::segment && fault.kind == FaultKind::resistive) state_.corroded[fault.item] = 1;
    if (fault.part == PartKind::connector_bus_pin) {
      state_.link_high |= high;
      state_.link_low |= low;
    }
  }
  return state_;
}

bool BusWiring::whole(const State& state, std::size_t segment, By by) const {
  if (by != By::low && state.high[segment]) return false;
  if (by != By::high && pair_ && state.low[segment]) return false;
  return by != By::clean || !state.corroded[segment];
}

BusWiring::Labels BusWiring::label(const State& state, By by, std::size_t without) const {
  Labels labels(ends_.size(), 0);
  std::uint16_t next = 0;
  std::vector<std::size_t> todo;
  for (std::size_t first = 0; first < ends_.size(); ++first) {
    if (labels[first] != 0 || first == without) continue;
    labels[first] = ++next;
    todo.push_back(first);
    while (!todo.empty()) {
      const std::size_t point = todo.back();
      todo.pop_back();
      for (const std::size_t i : segments_at_[point]) {
        if (!whole(state, i, by)) continue;
        const std::size_t other = segments_[i][segments_[i][0] == point ? 1 : 0];
        if (labels[other] != 0 || other == without) continue;
        labels[other] = next;
        todo.push_back(other);
      }
    }
  }
  return labels;
}

const BusWiring::Pieces& BusWiring::pieces_of(const State& state, std::size_t without) const {
  for (const Pieces& pieces : state.pieces) {
    if (pieces.without == without) return pieces;
  }
  Pieces pieces{without, {}};
  pieces.labels.fill(label(state, By::both, without));
  const Marks none(segments_.size());
  const auto relabel = [&](By by) { pieces.labels[static_cast<std::size_t>(by)] = label(state, by, without); };
  if (pair_ && state.low != none) relabel(By::high);
  if (state.high != none) relabel(By::low);
  if (state.corroded != none) relabel(By::clean);
  state_.pieces.push_back(std::move(pieces));
  return state_.pieces.back();
}

bool BusWiring::reaches(const Reading& reading, std::size_t point, By by) const {
  const State& state = reading.state;
  const bool link = reading.probe.at.kind == End::Kind::diagnostic_connector;
  if (link && by != By::low && state.link_high) return false;
  if (link && by != By::high && pair_ && state.link_low) return false;
  if (reading.start == nowhere || point == nowhere || point == reading.pieces.without) return false;
  if (reading.probe.only != nowhere && !whole(state, reading.probe.only, by)) return false;
  const Labels& labels = reading.pieces.by(by);
  return labels[point] == labels[reading.start];
}

bool BusWiring::touches(const Reading& reading, std::size_t segment, By by) const {
  if (segment == reading.probe.only) return true;  // the lead is on it
  return reaches(reading, segments_[segment][0], by) || reaches(reading, segments_[segment][1], by);
}

std::size_t BusWiring::count(const Reading& reading, By by) const {
  std::size_t found = 0;
  for (std::size_t i = 0; i < terminator_at_.size(); ++i) {
    const End& at = bus_->terminators[i].at;
    const bool out = at.kind == End::Kind::module && at.index == reading.probe.unplugged;
    const auto missing = [&](const Fault& fault) { return fault.part == PartKind::terminator && fault.item == i; };
    const auto& faults = reading.state.faults;
    if (out || std::any_of(faults.begin(), faults.end(), missing)) continue;
    if (reaches(reading, terminator_at_[i], by)) ++found;
  }
  for (const Fault& fault : reading.state.faults) {
    if (fault.kind == FaultKind::extra && reaches(reading, tester_, by)) ++found;
  }
  return found;
}

void BusWiring::add(BusReading& result, const Fault& fault, const Reading& reading) const {
  if (fault.kind == FaultKind::holds && fault.owner != reading.probe.unplugged) {
    const bool seen = reaches(reading, place_of({End::Kind::module, fault.owner}), By::both);
    (pair_ ? result.together : result.to_ground) |= seen;
  }
  if (fault.kind != FaultKind::short_circuit || fault.part != PartKind::segment) return;
  if (fault.to == ShortTo::other_line) {
    result.together |= touches(reading, fault.item, By::both);
    return;
  }
  const bool seen = (fault.lines != Lines::low && touches(reading, fault.item, By::high)) ||
                    (fault.lines != Lines::high && pair_ && touches(reading, fault.item, By::low));
  (fault.to == ShortTo::ground ? result.to_ground : result.to_supply) |= seen;
}

BusReading BusWiring::read(const BusProbe& probe, const std::vector<Fault>& present) const {
  const State& state = state_of(present);
  std::size_t start = place_of(probe.at);
  const std::size_t without = probe.only == nowhere ? nowhere : start;
  if (probe.only != nowhere) start = segments_[probe.only][segments_[probe.only][0] == start ? 1 : 0];
  const Reading reading{probe, state, pieces_of(state, without), start};
  BusReading result;
  result.terminators = count(reading, By::both);
  result.corroded = count(reading, By::clean) < result.terminators;
  for (const Fault& fault : state.faults) add(result, fault, reading);
  return result;
}

bool BusWiring::joined(const End& a, const End& b, const std::vector<Fault>& present) const {
  const State& state = state_of(present);
  const BusProbe probe{a, nowhere, nowhere};
  const Reading reading{probe, state, pieces_of(state, nowhere), place_of(a)};
  return reaches(reading, place_of(b), By::clean);
}

std::vector<std::size_t> BusWiring::segments_at(const End& end) const {
  const std::size_t at = place_of(end);
  return at == nowhere ? std::vector<std::size_t>{} : segments_at_[at];
}

}  // namespace whichwire
