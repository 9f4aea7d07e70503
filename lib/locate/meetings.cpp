#include "locate/meetings.hpp"

#include <algorithm>
#include <tuple>

#include "effects/protocol_rules.hpp"

namespace whichwire {
namespace {

bool on_bus(const Fault& fault) {
  switch (fault.part) {
    case PartKind::segment:
    case PartKind::terminator:
    case PartKind::bus:
    case PartKind::connector_bus_pin:
      return true;
    case PartKind::module:
      return fault.kind == FaultKind::holds || fault.kind == FaultKind::babbles || fault.kind == FaultKind::back_feeds;
    default:
      return false;
  }
}

bool cuts(const Fault& fault) {
  return fault.kind == FaultKind::open &&
         (fault.part == PartKind::segment || fault.part == PartKind::connector_bus_pin);
}

bool is_ground(const Fault& fault) { return fault.part == PartKind::ground || fault.part == PartKind::ground_pin; }

template <class T>
void sort_unique(std::vector<T>& list) {
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

std::size_t edge_of(const Wiring& wiring, const Fault& fault) {
  return fault.part == PartKind::connector_bus_pin ? wiring.edges.size() - 1 : fault.item;
}

/// How badly it disturbs its bus, where that is a pair that bears no broken line or a single line.
Level level_of_disturbance(const Network& network, const Fault& fault) {
  if (fault.kind == FaultKind::extra) return Level::unsure;
  if (fault.kind != FaultKind::short_circuit) return Level::down;
  return rules_of(network.buses[fault.bus].protocol).shorted[static_cast<std::size_t>(short_of(fault))];
}

/// Where a disturbance sits on its bus: one point, or both ends of a segment.
std::pair<PointIndex, PointIndex> site_of(const Wiring& wiring, const Fault& disturber) {
  if (disturber.part == PartKind::segment || disturber.part == PartKind::connector_bus_pin) {
    return wiring.edges[edge_of(wiring, disturber)];
  }
  const auto at = disturber.part == PartKind::module ? wiring.point_of(disturber.owner) : wiring.added;
  return {at, at};
}

}  // namespace

bool disturbs(const Fault& fault, const Network& network) {
  if (fault.comes_and_goes) return false;
  switch (fault.kind) {
    case FaultKind::holds:
    case FaultKind::babbles:
    case FaultKind::back_feeds:
    case FaultKind::added_device:
    case FaultKind::extra:
      return true;
    case FaultKind::short_circuit:
      return fault.part == PartKind::segment;
    case FaultKind::open: {
      if (!cuts(fault) || fault.lines == Lines::both) return false;
      return network.buses[fault.bus].protocol != Protocol::can_ft;
    }
    default:
      return false;
  }
}

Meetings::Meetings(const Effects::Compiled& compiled, const Supply& supply, const Predictor& predictor)
    : compiled_(compiled), supply_(supply), predictor_(predictor) {
  terminators_from_ = static_cast<std::uint32_t>(compiled.network.buses.size());
  grounds_from_ = 2 * terminators_from_;
  babbling_from_ = grounds_from_ + static_cast<std::uint32_t>(compiled.network.modules.size());
  connector_ = babbling_from_ + static_cast<std::uint32_t>(compiled.network.modules.size());
  routes_ = connector_ + 1;
  for (const Wiring& wiring : compiled.wiring) {
    left_alone_.push_back(wiring.tree ? left_alone(wiring) : std::vector<std::vector<LeftAlone>>());
  }
}

std::vector<std::size_t> Meetings::supplied_by(const Fault& fault) const {
  switch (fault.part) {
    case PartKind::power_pin:
    case PartKind::ground_pin:
      return {fault.owner};
    case PartKind::feed:
      return supply_.users_of_feed(fault.owner);
    case PartKind::ground:
      return supply_.users_of_ground(fault.owner);
    default:
      return {};
  }
}

/// Whether it disturbs all of its bus, or all up to the next break, and parts nothing.
bool Meetings::only_disturbs(const Fault& fault) const {
  const bool like_no_other =
      compiled_.network.buses[fault.bus].protocol == Protocol::can_ft || !compiled_.wiring[fault.bus].tree;
  return !like_no_other && !cuts(fault) && fault.kind != FaultKind::missing && fault.kind != FaultKind::resistive;
}

void Meetings::meet_on_bus(const Fault& fault) {
  const auto bus = static_cast<std::uint32_t>(fault.bus);
  if (only_disturbs(fault)) {
    now_.push_back({bus, 1});
  } else if (compiled_.network.buses[bus].protocol == Protocol::can_ft || !compiled_.wiring[bus].tree) {
    now_.push_back({bus, 0});
  } else if (cuts(fault)) {
    now_.push_back({bus, 0});
    // A break of one line makes its bus unsure on both sides, with terminators or without.
    if (fault.lines == Lines::both) now_.push_back({terminators_from_ + bus, 0});
  } else if (fault.kind == FaultKind::missing) {
    now_.push_back({terminators_from_ + bus, 0});
  }
}

/// What disturbs a bus alike is one side; what else is on the routes may act together with anything.
std::uint32_t Meetings::side_on_routes(const Fault& fault) const {
  if (!on_bus(fault) || !only_disturbs(fault)) return 0;
  return side_of(fault.bus, level_of_disturbance(compiled_.network, fault));
}

std::uint32_t Meetings::side_of(std::size_t bus, Level level) {
  return search::alike_from + static_cast<std::uint32_t>(bus * level_count) + static_cast<std::uint32_t>(level);
}

/// What alone hits no route may do so beside others on its bus, as one line of a pair that bears its loss.
void Meetings::meet_on_routes(const Fault& fault, const std::vector<std::uint32_t>& routed) {
  if (!routed.empty()) {
    now_.push_back({routes_, side_on_routes(fault)});
  } else if (std::any_of(beside_.begin(), beside_.end(),
                         [&](const auto& reached) { return predictor_.has_several_routes(reached.first); })) {
    now_.push_back({routes_, on_bus(fault) ? side_of(fault.bus, Level::up) : 0, true});
  }
}

void Meetings::add_bus(const Fault& fault) {
  meet_on_bus(fault);
  if (fault.kind == FaultKind::babbles) {
    now_.push_back({babbling_from_ + static_cast<std::uint32_t>(fault.owner), 1});
  }
  const Bus& bus = compiled_.network.buses[fault.bus];
  const Wiring& wiring = compiled_.wiring[fault.bus];
  const bool tolerant = bus.protocol == Protocol::can_ft;
  const bool terminated = (bus.protocol == Protocol::can_hs || bus.protocol == Protocol::flexray) &&
                          wiring.terminators.size() > 1 && bus.bit_rate >= least_bit_rate_to_miss_terminators;
  const bool parts =
      cuts(fault) || fault.kind == FaultKind::missing || (fault.kind == FaultKind::resistive && !wiring.tree);
  if (!parts) return;
  if (wiring.tree && cuts(fault)) add_left_alone(fault);
  if (!tolerant && !terminated && wiring.tree) return;
  if (!wiring.tree || !cuts(fault)) {
    const auto all = predictor_.questions_over(fault.bus, [](PointIndex, PointIndex) { return true; });
    return add_reach(all, tolerant || !wiring.tree ? Level::down : Level::unsure);
  }
  std::vector<std::uint8_t> whole(wiring.edges.size(), 1);
  whole[edge_of(wiring, fault)] = 0;
  std::vector<PointIndex> label;
  label_pieces(wiring, whole, label);
  if (tolerant) {
    // The other line open elsewhere on the way parts what each alone does not.
    const auto past = [&](PointIndex p, PointIndex q) { return label[p] != label[q]; };
    return add_reach(predictor_.questions_over(fault.bus, past), Level::down);
  }
  // A break helps to leave a side without terminators only where one stands on the other side.
  const auto beside = [&](PointIndex p, PointIndex q) {
    return label[p] == label[q] && std::any_of(wiring.terminators.begin(), wiring.terminators.end(),
                                               [&](PointIndex terminator) { return label[terminator] != label[p]; });
  };
  add_reach(predictor_.questions_over(fault.bus, beside), Level::unsure);
}

/// What a module says of its bus, as breaks together may leave it alone there.
void Meetings::add_left_alone(const Fault& fault) {
  const bool line_left = compiled_.network.buses[fault.bus].protocol == Protocol::can_ft && fault.lines != Lines::both;
  for (const LeftAlone& left : left_alone_[fault.bus][edge_of(compiled_.wiring[fault.bus], fault)]) {
    const auto there = [&](PointIndex p, PointIndex q) { return p == left.module && q == left.module; };
    const auto questions = predictor_.questions_over(fault.bus, there);
    for (const auto question : questions) beside_[question] = Level::down;
    if (left.nearest && (!left.by_one || line_left)) add_reach(questions, Level::down);
  }
}

void Meetings::add_reach(const std::vector<std::uint32_t>& observations, Level most) {
  for (const auto observation : observations) {
    for (auto* reach : {&free_, &beside_}) (*reach)[observation] = std::max((*reach)[observation], most);
  }
}

void Meetings::add_grounds(const std::vector<std::size_t>& modules) {
  for (const auto module : modules) {
    if (compiled_.network.modules[module].ground.size() > 1) {
      now_.push_back({grounds_from_ + static_cast<std::uint32_t>(module), 0});
    }
  }
}

void Meetings::add_supply(const Fault& fault, const std::vector<Raised>& raised) {
  const auto modules = supplied_by(fault);
  for (const auto module : modules) now_.push_back({babbling_from_ + static_cast<std::uint32_t>(module), 2});
  const auto before = now_.size();
  if (is_ground(fault)) add_grounds(modules);
  const bool connector = fault.part == PartKind::connector_ground_pin ||
                         (fault.part == PartKind::ground && supply_.tester_uses_ground(fault.owner));
  if (connector && compiled_.network.diagnostic_connector.ground.size() > 1) now_.push_back({connector_, 0});
  if (now_.size() == before) return;
  for (const Raised& one : raised) free_[one.question] = beside_[one.question] = Level::down;
}

void Meetings::add(const Fault& fault, const std::vector<Raised>& raised, const std::vector<std::uint32_t>& routed) {
  now_.clear();
  free_.clear();
  beside_.clear();
  if (!fault.comes_and_goes) {
    if (on_bus(fault)) add_bus(fault);
    add_supply(fault, raised);
    meet_on_routes(fault, routed);
    add_reach(routed, Level::down);
  }
  meetings_.push_back(now_);
  disturbs_.push_back(disturbs(fault, compiled_.network) ? 1 : 0);
  if (beside_.empty()) {
    jointly_.push_back(search::nothing_jointly);
    return;
  }
  search::JointReach reach;
  for (const auto& [observation, level] : free_) reach.free.push_back({observation, level});
  for (const auto& [observation, level] : beside_) reach.beside.push_back({observation, level});
  const auto [at, fresh] = reach_index_.try_emplace(std::move(reach), static_cast<std::uint32_t>(reaches_.size()));
  if (fresh) reaches_.push_back(at->first);
  jointly_.push_back(at->second);
}

void Meetings::finish(search::Problem& problem) {
  for (const auto& own : meetings_) {
    for (const auto& meeting : own) problem.sides = std::max(problem.sides, meeting.side + 1);
  }
  problem.meetings = std::move(meetings_);
  problem.disturbs = std::move(disturbs_);
  problem.jointly = std::move(jointly_);
  problem.joint_reaches = std::move(reaches_);
}

bool still_parts(const Effects::Compiled& compiled, const Predictor& predictor, const Fault& fault,
                 std::span<const Fault* const> chosen) {
  if (!on_bus(fault)) return true;
  const Wiring& wiring = compiled.wiring[fault.bus];
  const bool tolerant = compiled.network.buses[fault.bus].protocol == Protocol::can_ft;
  std::vector<std::uint8_t> whole(wiring.edges.size(), 1);
  bool any = false;
  for (const Fault* one : chosen) {
    if (!cuts(*one) || one->bus != fault.bus) continue;
    if (tolerant && one->lines != Lines::both) continue;
    whole[edge_of(wiring, *one)] = 0;
    any = true;
  }
  if (!any) return true;
  std::vector<PointIndex> label;
  label_pieces(wiring, whole, label);
  std::vector<PointIndex> own;
  if (fault.part == PartKind::terminator) {
    own.push_back(label[wiring.terminators[fault.item]]);
  } else if (fault.part == PartKind::segment || fault.part == PartKind::connector_bus_pin) {
    const auto [from, to] = wiring.edges[edge_of(wiring, fault)];
    own = {label[from], label[to]};
  } else {
    return true;
  }
  const auto hops = predictor.hops_on(fault.bus);
  return std::any_of(hops.begin(), hops.end(), [&](const auto& hop) {
    return label[hop.first] == label[hop.second] && std::count(own.begin(), own.end(), label[hop.first]) != 0;
  });
}

Undoing::Undoing(const Effects::Compiled& compiled, const Supply& supply, const Predictor& predictor)
    : compiled_(compiled), supply_(supply), sides_(compiled.wiring.size()) {
  std::vector<std::uint8_t> whole;
  for (std::size_t bus = 0; bus < sides_.size(); ++bus) {
    const Wiring& wiring = compiled.wiring[bus];
    const auto hops = predictor.hops_on(bus);
    if (hops.empty() || !wiring.tree) continue;
    sides_[bus].resize(wiring.edges.size());
    whole.assign(wiring.edges.size(), 1);
    for (std::size_t edge = 0; edge < wiring.edges.size(); ++edge) {
      auto& sides = sides_[bus][edge];
      whole[edge] = 0;
      label_pieces(wiring, whole, sides.label);
      whole[edge] = 1;
      for (const auto& [p, q] : hops) {
        if (sides.label[p] == sides.label[q]) sides.asked.push_back(sides.label[p]);
      }
      sort_unique(sides.asked);
    }
  }
}

search::Undo Undoing::of(const Fault& cut, const Fault& disturber) const {
  using search::Undo;
  if (!cuts(cut) || !on_bus(cut) || cut.bus != disturber.bus) {
    if (disturber.kind != FaultKind::babbles) return Undo::never;
    switch (cut.part) {
      case PartKind::power_pin:
      case PartKind::ground_pin:
        return cut.owner == disturber.owner ? Undo::wholly : Undo::never;
      case PartKind::feed:
      case PartKind::ground: {
        const auto& users =
            cut.part == PartKind::feed ? supply_.users_of_feed(cut.owner) : supply_.users_of_ground(cut.owner);
        return std::binary_search(users.begin(), users.end(), disturber.owner) ? Undo::wholly : Undo::never;
      }
      default:
        return Undo::never;
    }
  }
  const Wiring& wiring = compiled_.wiring[cut.bus];
  if (!wiring.tree) return Undo::jointly;
  if (sides_[cut.bus].empty()) return Undo::never;  // nobody asks about this bus
  const auto edge = edge_of(wiring, cut);
  const bool segment = disturber.part == PartKind::segment || disturber.part == PartKind::connector_bus_pin;
  if (segment && edge_of(wiring, disturber) == edge) return Undo::never;  // it stands on both sides of the break
  // Both ends of another segment lie on one side.
  const auto& sides = sides_[cut.bus][edge];
  const auto own = sides.label[site_of(wiring, disturber).first];
  return std::any_of(sides.asked.begin(), sides.asked.end(), [&](PointIndex side) { return side != own; })
             ? Undo::alone
             : Undo::never;
}

// A break of one line lets a disturbance of the other line pass.
bool parts_bus(const Fault& fault) { return cuts(fault) && !fault.comes_and_goes && fault.lines == Lines::both; }

Pieces::Pieces(const Effects::Compiled& compiled, std::span<const Fault* const> breaks)
    : compiled_(compiled), label_(compiled.wiring.size()) {
  std::vector<std::vector<std::uint8_t>> whole(compiled.wiring.size());
  for (const Fault* one : breaks) {
    if (!parts_bus(*one)) continue;
    const Wiring& wiring = compiled.wiring[one->bus];
    if (whole[one->bus].empty()) whole[one->bus].assign(wiring.edges.size(), 1);
    whole[one->bus][edge_of(wiring, *one)] = 0;
  }
  for (std::size_t bus = 0; bus < whole.size(); ++bus) {
    if (!whole[bus].empty()) label_pieces(compiled.wiring[bus], whole[bus], label_[bus]);
  }
}

bool Pieces::parted(const Fault& cut, const Fault& disturber) const {
  if (!cuts(cut) || cut.bus != disturber.bus || label_[cut.bus].empty()) return false;
  const Wiring& wiring = compiled_.wiring[cut.bus];
  const auto& label = label_[cut.bus];
  const auto ends = wiring.edges[edge_of(wiring, cut)];
  const auto site = site_of(wiring, disturber);
  const auto apart = [&](PointIndex at) { return label[ends.first] != label[at] && label[ends.second] != label[at]; };
  return apart(site.first) && apart(site.second);
}

}  // namespace whichwire
