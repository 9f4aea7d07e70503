#include "effects/routes.hpp"

#include <algorithm>
#include <boost/pending/disjoint_sets.hpp>

namespace whichwire {
namespace {

/// Of looking for more than one route, which is always found: see `distance_`.
constexpr std::size_t most_steps = 20'000;
constexpr std::size_t tester = nowhere;

Atom life(std::size_t module) { return {Atom::Kind::life, static_cast<std::uint32_t>(module), 0, 0}; }

Atom fitted(std::size_t module) { return {Atom::Kind::fitted, static_cast<std::uint32_t>(module), 0, 0}; }

Atom port(std::size_t module, std::size_t bus) {
  return {Atom::Kind::port, static_cast<std::uint32_t>(module), static_cast<std::uint16_t>(bus), 0};
}

Atom hop(std::size_t bus, PointIndex p, PointIndex q) {
  return {Atom::Kind::hop, static_cast<std::uint32_t>(bus), std::min(p, q), std::max(p, q)};
}

PointIndex point_on(const Wiring& wiring, std::size_t who) {
  return who == tester ? wiring.tester : wiring.point_of(who);
}

/// What a message at a point of a LIN bus needs of the commander, where it has one.
std::vector<Atom> of_commander(const Effects::Compiled& compiled, std::size_t bus, PointIndex at) {
  const Bus& what = compiled.network.buses[bus];
  if (what.protocol != Protocol::lin || what.commander == nowhere) return {};
  return {hop(bus, at, compiled.wiring[bus].point_of(what.commander)), life(what.commander), fitted(what.commander),
          port(what.commander, bus)};
}

bool carries(const Bus& bus, bool between_modules) { return !between_modules || bus.protocol != Protocol::k_line; }

class RouteFinder {
 public:
  RouteFinder(const Effects::Compiled& compiled, AtomTable& atoms, bool between_modules)
      : compiled_(compiled), atoms_(atoms), between_modules_(between_modules) {}

  /// The shortest first: those that cross no gateway, then those that cross one, and so on.
  std::vector<Route> find(std::size_t from, std::size_t to) {
    from_ = from;
    to_ = to;
    measure_distances();
    bus_used_.assign(distance_.size(), false);
    for (bool longer = true; longer && !enough(); ++crossings_) {
      there_are_longer_ = false;
      for (std::size_t bus = 0; bus < bus_used_.size(); ++bus) start_on(bus);
      longer = there_are_longer_;
    }
    return std::move(routes_);
  }

 private:
  PointIndex point(std::size_t who, std::size_t bus) const { return point_on(compiled_.wiring[bus], who); }

  bool carries(std::size_t bus) const { return whichwire::carries(compiled_.network.buses[bus], between_modules_); }

  bool enough() const { return routes_.size() >= most_routes || (steps_ >= most_steps && !routes_.empty()); }

  bool passable(const Gateway& gateway) const { return gateway.module != from_ && gateway.module != to_; }

  bool enters(const Gateway& gateway, std::size_t bus) const {
    return carries(bus) && point(gateway.module, bus) != no_point;
  }

  void measure_distances() {
    distance_.assign(compiled_.network.buses.size(), nowhere);
    std::vector<std::size_t> reached;
    const auto reach = [&](std::size_t bus, std::size_t crossings) {
      distance_[bus] = crossings;
      reached.push_back(bus);
    };
    for (std::size_t bus = 0; bus < distance_.size(); ++bus)
      if (carries(bus) && point(to_, bus) != no_point) reach(bus, 0);
    for (std::size_t i = 0; i < reached.size(); ++i) {
      for (const std::size_t index : compiled_.gateways_at[reached[i]]) {
        const Gateway& gateway = compiled_.network.gateways[index];
        if (!passable(gateway)) continue;
        for (const std::size_t next : gateway.joins)
          if (distance_[next] == nowhere && enters(gateway, next)) reach(next, distance_[reached[i]] + 1);
      }
    }
  }

  /// Whether it can come to the goal with as many crossings as this round has. Those with more are for a later round.
  bool near_enough(std::size_t bus, std::size_t crossed) {
    if (distance_[bus] == nowhere) return false;
    const bool near = crossed + distance_[bus] <= crossings_;
    there_are_longer_ = there_are_longer_ || !near;
    return near;
  }

  void start_on(std::size_t bus) {
    const auto start = point(from_, bus);
    if (start == no_point || !carries(bus) || !near_enough(bus, 0)) return;
    Route route;
    if (from_ != tester) route.push_back(atoms_[port(from_, bus)]);
    follow(bus, start, route);
  }

  void add_hop(Route& route, std::size_t bus, PointIndex p, PointIndex q) {
    route.push_back(atoms_[hop(bus, p, q)]);
    for (const Atom& atom : of_commander(compiled_, bus, p)) route.push_back(atoms_[atom]);
    if (compiled_.network.buses[bus].protocol == Protocol::ring) add_ring_members(route, compiled_.wiring[bus]);
  }

  void add_ring_members(Route& route, const Wiring& wiring) {
    for (const End& end : wiring.points) {
      if (end.kind == End::Kind::module && !compiled_.network.modules[end.index].passes_when_dead) {
        route.push_back(atoms_[life(end.index)]);
      }
    }
  }

  void follow(std::size_t bus, PointIndex at, const Route& so_far) {
    if (enough()) return;
    bus_used_[bus] = true;
    const auto goal = point(to_, bus);
    if (goal != no_point && crossed_.size() == crossings_) {
      Route route = so_far;
      add_hop(route, bus, at, goal);
      if (to_ != tester) route.push_back(atoms_[port(to_, bus)]);
      routes_.push_back(std::move(route));
    }
    for (const auto gateway : compiled_.gateways_at[bus]) cross(gateway, bus, at, so_far);
    bus_used_[bus] = false;
  }

  void cross(std::size_t gateway_index, std::size_t bus, PointIndex at, const Route& so_far) {
    const Gateway& gateway = compiled_.network.gateways[gateway_index];
    const auto module = gateway.module;
    if (!passable(gateway) || std::count(crossed_.begin(), crossed_.end(), module) != 0) return;
    for (const auto next : gateway.joins) {
      ++steps_;
      if (bus_used_[next] || !enters(gateway, next) || !near_enough(next, crossed_.size() + 1)) continue;
      Route route = so_far;
      add_hop(route, bus, at, point(module, bus));
      for (const Atom& atom :
           {port(module, bus), life(module), fitted(module),
            Atom{Atom::Kind::forwards, static_cast<std::uint32_t>(module), 0, 0}, port(module, next)}) {
        route.push_back(atoms_[atom]);
      }
      crossed_.push_back(module);
      follow(next, point(module, next), route);
      crossed_.pop_back();
    }
  }

  const Effects::Compiled& compiled_;
  AtomTable& atoms_;
  bool between_modules_;
  std::size_t from_ = nowhere, to_ = nowhere;
  /// By bus: gateways between it and the goal, at least. So every step of the first round that finds a route is on one.
  std::vector<std::size_t> distance_;
  std::size_t crossings_ = 0, steps_ = 0;  ///< of a route of this round; of all rounds
  bool there_are_longer_ = false;
  std::vector<bool> bus_used_;
  std::vector<std::size_t> crossed_;  ///< modules of gateways
  std::vector<Route> routes_;
};

Clause one(AtomIndex atom) { return {{{atom}}}; }

std::vector<Clause> hears(const Effects::Compiled& compiled, std::size_t a, std::size_t b, AtomTable& atoms) {
  return {one(atoms[life(a)]), one(atoms[life(b)]), {RouteFinder(compiled, atoms, true).find(b, a)}};
}

std::vector<Clause> bus_at(const Effects::Compiled& compiled, std::size_t module, std::size_t bus, AtomTable& atoms) {
  const Bus& what = compiled.network.buses[bus];
  const auto& wiring = compiled.wiring[bus];
  const auto at = wiring.point_of(module);
  if (at == no_point) return {Clause{}};
  std::vector<Clause> clauses{one(atoms[port(module, bus)]),
                              one(atoms[Atom{Atom::Kind::at, static_cast<std::uint32_t>(bus), at, at}])};
  for (const Atom& atom : of_commander(compiled, bus, at)) clauses.push_back(one(atoms[atom]));
  if (what.protocol == Protocol::ring) {
    for (const End& end : wiring.points) {
      if (end.kind != End::Kind::module || end.index == module) continue;
      if (!compiled.network.modules[end.index].passes_when_dead) clauses.push_back(one(atoms[life(end.index)]));
    }
  }
  return clauses;
}

std::vector<Clause> works(const Effects::Compiled& compiled, const Function& function, AtomTable& atoms) {
  std::vector<Clause> clauses;
  for (const auto module : function.modules) {
    clauses.push_back(one(atoms[life(module)]));
    clauses.push_back(one(atoms[fitted(module)]));
  }
  for (const auto& message : function.messages) {
    auto more = hears(compiled, message.to, message.from, atoms);
    clauses.insert(clauses.end(), more.begin(), more.end());
  }
  return clauses;
}

}  // namespace

std::size_t AtomTable::Hash::operator()(const Atom& atom) const {
  const auto packed = (static_cast<std::uint64_t>(atom.kind) << 60) ^ (static_cast<std::uint64_t>(atom.a) << 32) ^
                      (static_cast<std::uint64_t>(atom.p) << 16) ^ atom.q;
  return static_cast<std::size_t>(packed * 0x9e3779b97f4a7c15ULL >> 7);
}

AtomIndex AtomTable::operator[](const Atom& atom) {
  const auto [at, fresh] = index_.try_emplace(atom, static_cast<AtomIndex>(atoms_.size()));
  if (fresh) atoms_.push_back(atom);
  return at->second;
}

std::vector<Clause> formula_of(const Effects::Compiled& compiled, const Question& question, AtomTable& atoms) {
  switch (question.about) {
    case Question::About::answers:
      return {one(atoms[Atom{Atom::Kind::tester_supply, 0, 0, 0}]),
              one(atoms[life(question.a)]),
              one(atoms[fitted(question.a)]),
              {RouteFinder(compiled, atoms, false).find(tester, question.a)}};
    case Question::About::hears:
      return hears(compiled, question.a, question.b, atoms);
    case Question::About::bus:
      return bus_at(compiled, question.a, question.b, atoms);
    case Question::About::function:
      return works(compiled, compiled.network.functions[question.a], atoms);
    case Question::About::fitted:
      return {one(atoms[fitted(question.a)])};
  }
  return {};
}

std::vector<std::size_t> joined_buses(const Effects::Compiled& compiled, bool between_modules) {
  const Network& network = compiled.network;
  boost::disjoint_sets_with_storage<> sets(network.buses.size());
  for (const Gateway& gateway : network.gateways) {
    std::size_t first = nowhere;
    for (const std::size_t bus : gateway.joins) {
      if (point_on(compiled.wiring[bus], gateway.module) == no_point || !carries(network.buses[bus], between_modules))
        continue;
      if (first == nowhere) first = bus;
      sets.union_set(first, bus);
    }
  }
  std::vector<std::size_t> joined;
  for (std::size_t bus = 0; bus < network.buses.size(); ++bus) joined.push_back(sets.find_set(bus));
  return joined;
}

bool reachable(const Effects::Compiled& compiled, std::size_t from, std::size_t to) {
  const bool between_modules = from != tester;
  const auto& joined = between_modules ? compiled.joined_for_modules : compiled.joined_for_tester;
  for (std::size_t bus = 0; bus < joined.size(); ++bus) {
    if (point_on(compiled.wiring[bus], from) == no_point || !carries(compiled.network.buses[bus], between_modules))
      continue;
    const auto reaches = [&](std::size_t last) { return joined[last] == joined[bus]; };
    if (std::ranges::any_of(compiled.buses_of[to], reaches)) return true;
  }
  return false;
}

}  // namespace whichwire
