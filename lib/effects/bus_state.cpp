#include "effects/bus_state.hpp"

#include <algorithm>

#include "effects/protocol_rules.hpp"

namespace whichwire {
namespace {

bool opens(const Fault& fault) { return fault.kind == FaultKind::open; }

bool is_pair(Protocol protocol) { return lines_of(protocol) == 2; }

Level worse(Level a, Level b) { return std::max(a, b); }

}  // namespace

std::size_t BusState::edge_of(const Fault& fault) const {
  return fault.part == PartKind::connector_bus_pin ? wiring_.edges.size() - 1 : fault.item;
}

void BusState::set(BusFaults acting, BusFaults firmly) {
  const auto edges = wiring_.edges.size();
  disturbed_.assign(wiring_.points.size(), Level::up);
  missing_.assign(wiring_.terminators.size(), 0);
  whole_high_.assign(edges, 1);
  whole_low_.assign(edges, 1);
  sound_.assign(edges, 1);
  one_line_open_ = resistive_ = false;
  ring_ = noted_ = Level::up;
  for (const auto faults : {acting, firmly}) {
    if (pair_tolerant()) note_line(faults);
    if (bus_.protocol == Protocol::ring) note_ring(faults);
    cut(faults);
  }
  label();
  firm_.clear();
  disturb(acting, false);
  // A pair that bears one broken line may pass where the disturbance does not reach.
  if (!pair_tolerant()) disturb(firmly, true);
  count_terminators();
}

void BusState::cut(BusFaults faults) {
  for (const Fault* fault : faults) {
    if (fault->kind == FaultKind::missing) missing_[fault->item] = 1;
    if (fault->part != PartKind::segment && fault->part != PartKind::connector_bus_pin) continue;
    const auto edge = edge_of(*fault);
    if (opens(*fault)) {
      if (fault->lines != Lines::low) whole_high_[edge] = 0;
      if (fault->lines != Lines::high) whole_low_[edge] = 0;
      one_line_open_ = one_line_open_ || fault->lines != Lines::both;
    }
    if (fault->kind == FaultKind::resistive) {
      sound_[edge] = 0;
      resistive_ = true;
    }
  }
}

void BusState::label() {
  const auto edges = wiring_.edges.size();
  whole_.resize(edges);
  for (std::size_t e = 0; e < edges; ++e) {
    whole_[e] = whole_high_[e] & whole_low_[e];
    sound_[e] &= pair_tolerant() ? static_cast<std::uint8_t>(whole_high_[e] | whole_low_[e]) : whole_[e];
  }
  label_pieces(wiring_, whole_, island_);
  if (one_line_open_) {
    label_pieces(wiring_, whole_high_, high_);
    label_pieces(wiring_, whole_low_, low_);
  } else {
    high_ = low_ = island_;
  }
  if (resistive_) label_pieces(wiring_, sound_, sound_island_);
}

void BusState::disturb_where(const std::vector<PointIndex>& label, PointIndex at, Level level, bool firmly) {
  if (firmly) {
    firm_.emplace_back(at, level);
    return;
  }
  for (std::size_t p = 0; p < label.size(); ++p) {
    if (label[p] == label[at]) disturbed_[p] = worse(disturbed_[p], level);
  }
}

void BusState::disturb_segment(const Fault& fault, bool firmly) {
  const auto edge = edge_of(fault);
  const auto [from, to] = wiring_.edges[edge];
  const std::vector<PointIndex>* label = &island_;
  Level level = Level::up;
  if (fault.kind == FaultKind::short_circuit) {
    const auto which = short_of(fault);
    level = rules_of(bus_.protocol).shorted[static_cast<std::size_t>(which)];
    if (which == Short::high_ground || which == Short::high_supply) label = &high_;
    if (which == Short::low_ground || which == Short::low_supply) label = &low_;
  } else if (opens(fault) && fault.lines != Lines::both && is_pair(bus_.protocol) && !pair_tolerant()) {
    level = Level::unsure;
  }
  if (level == Level::up) return;
  disturb_where(*label, from, level, firmly);
  disturb_where(*label, to, level, firmly);
}

void BusState::disturb(BusFaults faults, bool firmly) {
  for (const Fault* fault : faults) {
    switch (fault->kind) {
      case FaultKind::holds:
      case FaultKind::back_feeds:
        disturb_where(island_, wiring_.point_of(fault->owner), pair_tolerant() ? Level::unsure : Level::down, firmly);
        break;
      case FaultKind::babbles:  // not firmly: a lost supply silences it
        if (!firmly) disturb_where(island_, wiring_.point_of(fault->owner), Level::down, false);
        break;
      case FaultKind::added_device:
        disturb_where(island_, wiring_.added, Level::down, firmly);
        break;
      case FaultKind::extra:
        disturb_where(island_, wiring_.added, Level::unsure, firmly);
        break;
      default:
        if (fault->part == PartKind::segment || fault->part == PartKind::connector_bus_pin)
          disturb_segment(*fault, firmly);
    }
  }
}

void BusState::count_terminators() {
  const bool needs = bus_.protocol == Protocol::can_hs || bus_.protocol == Protocol::flexray;
  if (!needs || wiring_.terminators.size() < 2) return;
  static thread_local std::vector<std::uint8_t> left;
  left.assign(wiring_.points.size(), 0);  // by island label
  for (std::size_t t = 0; t < wiring_.terminators.size(); ++t) {
    if (missing_[t] == 0) ++left[island_[wiring_.terminators[t]]];
  }
  for (std::size_t p = 0; p < wiring_.points.size(); ++p) {
    const auto count = left[island_[p]];
    const bool unsure =
        (count == 1 && bus_.bit_rate > 500'000) || (count == 0 && bus_.bit_rate >= least_bit_rate_to_miss_terminators);
    if (unsure) disturbed_[p] = worse(disturbed_[p], Level::unsure);
  }
}

void BusState::note_ring(BusFaults faults) {
  for (const Fault* fault : faults) {
    if (fault->part != PartKind::segment) continue;
    ring_ = worse(ring_, fault->kind == FaultKind::resistive ? Level::unsure : Level::down);
  }
}

void BusState::note_line(BusFaults faults) {
  for (const Fault* fault : faults) {
    const bool one_line_open = opens(*fault) && fault->lines != Lines::both &&
                               fault->part == PartKind::segment;  // of a tester's pin none knows
    if (one_line_open || fault->kind == FaultKind::short_circuit) noted_ = Level::unsure;
  }
}

bool BusState::joined(PointIndex p, PointIndex q) const {
  if (pair_tolerant()) return high_[p] == high_[q] || low_[p] == low_[q];
  return island_[p] == island_[q];
}

Level BusState::hop(PointIndex p, PointIndex q) const {
  if (bus_.protocol == Protocol::ring) {
    auto worst = worse(ring_, *std::max_element(disturbed_.begin(), disturbed_.end()));
    for (const auto& [at, level] : firm_) worst = worse(worst, level);
    return worst;
  }
  if (!joined(p, q)) return Level::down;
  Level level = worse(disturbed_[p], disturbed_[q]);
  if (resistive_ && sound_island_[p] != sound_island_[q]) level = worse(level, Level::unsure);
  for (const auto& [at, firm] : firm_) {
    if (firm > level && wiring_.between(at, p, q)) level = firm;
  }
  return level;
}

Level BusState::at(PointIndex p) const {
  const Level level = worse(hop(p, p), noted_);
  if (bus_.protocol == Protocol::ring) return level;
  bool others = false;
  for (std::size_t q = 0; q < wiring_.points.size(); ++q) {
    if (q == p || wiring_.points[q].kind != End::Kind::module) continue;
    if (joined(p, static_cast<PointIndex>(q))) return level;
    others = true;
  }
  return others ? Level::down : level;
}

}  // namespace whichwire
