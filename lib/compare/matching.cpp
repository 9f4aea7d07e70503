// See matching.hpp. Tests: tests/compare/trims.cpp, tests/compare/edits.cpp.
#include "compare/matching.hpp"

#include <algorithm>

#include "compare/traits.hpp"

namespace whichwire {
namespace {

template <class T>
Map by_id(const std::vector<T>& a, const std::vector<T>& b) {
  Map map;
  map.reserve(a.size());
  for (const T& part : a) map.push_back(index_of(b, part.id));
  return map;
}

/// Pairs free items in the order of A with the first free one of B for which `same(i, j)`.
template <class Same>
void pair_first(Map& map, std::size_t count_b, Same same) {
  std::vector<bool> taken(count_b, false);
  for (const std::size_t j : map) {
    if (j != nowhere) taken[j] = true;
  }
  for (std::size_t i = 0; i < map.size(); ++i) {
    for (std::size_t j = 0; map[i] == nowhere && j < count_b; ++j) {
      if (taken[j] || !same(i, j)) continue;
      map[i] = j;
      taken[j] = true;
    }
  }
}

/// Pairs what is still free on both sides, the most alike first; a score of 0 is never paired.
template <class Of, class Score>
void pair_rest(Map& map, std::size_t count_b, const TraitsOf& a, const TraitsOf& b, Of of, Score score) {
  const auto free_in_b = only_in_b(map, count_b);
  if (free_in_b.empty()) return;
  std::vector<Traits> traits_b;
  traits_b.reserve(free_in_b.size());
  for (const std::size_t j : free_in_b) traits_b.push_back((b.*of)(j));
  struct Pair {
    double score;
    std::size_t i, j;
  };
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < map.size(); ++i) {
    if (map[i] != nowhere) continue;
    const Traits traits = (a.*of)(i);
    for (std::size_t j = 0; j < free_in_b.size(); ++j) {
      if (const double alike = score(traits, traits_b[j]); alike > 0) pairs.push_back({alike, i, free_in_b[j]});
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& x, const Pair& y) { return x.score > y.score; });
  std::vector<bool> taken(count_b, false);
  for (const Pair& pair : pairs) {
    if (map[pair.i] != nowhere || taken[pair.j]) continue;
    map[pair.i] = pair.j;
    taken[pair.j] = true;
  }
}

class Matcher {
 public:
  Matcher(const Network& a, const Network& b) : a_(a), b_(b) {}

  Matching make() {
    match_.modules = by_id(a_.modules, b_.modules);
    match_.buses = by_id(a_.buses, b_.buses);
    match_.points = by_id(a_.points, b_.points);
    match_.feeds = by_id(a_.feeds, b_.feeds);
    match_.grounds = by_id(a_.grounds, b_.grounds);
    match_.functions = by_id(a_.functions, b_.functions);
    pair_renamed();
    for (std::size_t bus = 0; bus < a_.buses.size(); ++bus) add_bus(bus);
    for (std::size_t module = 0; module < a_.modules.size(); ++module) add_module(module);
    add_connector();
    return std::move(match_);
  }

 private:
  /// Modules first, since most hangs from them: each is told by what has been paired before it.
  void pair_renamed() {
    const auto pair = [&](Map& map, std::size_t count_b, auto of, auto score) {
      const Map modules = inverse(match_.modules, b_.modules.size()), feeds = inverse(match_.feeds, b_.feeds.size());
      pair_rest(map, count_b, TraitsOf(a_, nullptr, nullptr), TraitsOf(b_, &modules, &feeds), of, score);
    };
    pair(match_.modules, b_.modules.size(), &TraitsOf::module, alike_modules);
    pair(match_.buses, b_.buses.size(), &TraitsOf::bus, alike_buses);
    pair_centres();
    pair(match_.points, b_.points.size(), &TraitsOf::point, alike_points);
    pair(match_.feeds, b_.feeds.size(), &TraitsOf::feed, alike_supplies);
    pair(match_.grounds, b_.grounds.size(), &TraitsOf::ground, alike_supplies);
    pair(match_.functions, b_.functions.size(), &TraitsOf::function, alike_functions);
  }

  /// The hidden centres of buses whose wiring is not known have no name of their own.
  void pair_centres() {
    const auto centre = [](const Network& network, const Bus& bus) {
      for (const Segment& segment : bus.segments) {
        const End& from = segment.from;
        if (from.kind == End::Kind::point && network.points[from.index].kind == Point::Kind::hidden) return from.index;
      }
      return nowhere;
    };
    for (std::size_t bus = 0; bus < a_.buses.size(); ++bus) {
      if (match_.buses[bus] == nowhere) continue;
      const std::size_t of_a = centre(a_, a_.buses[bus]);
      if (of_a != nowhere) match_.points[of_a] = centre(b_, b_.buses[match_.buses[bus]]);
    }
  }

  bool same(const End& of_a, const End& of_b) const { return match_.in_b(of_a) == of_b; }

  bool same_ends(const Segment& x, const Segment& y) const {
    return (same(x.from, y.from) && same(x.to, y.to)) || (same(x.from, y.to) && same(x.to, y.from));
  }

  void add_bus(std::size_t bus) {
    Map segments(a_.buses[bus].segments.size(), nowhere), terminators(a_.buses[bus].terminators.size(), nowhere);
    if (match_.buses[bus] != nowhere) {
      const Bus &x = a_.buses[bus], &y = b_.buses[match_.buses[bus]];
      const auto same_id = [&](auto i, auto j) { return x.segments[i].id == y.segments[j].id; };
      const auto ends = [&](auto i, auto j) { return same_ends(x.segments[i], y.segments[j]); };
      pair_first(segments, y.segments.size(), [&](auto i, auto j) { return same_id(i, j) && ends(i, j); });
      pair_first(segments, y.segments.size(), ends);
      pair_first(segments, y.segments.size(), same_id);
      pair_first(terminators, y.terminators.size(),
                 [&](auto i, auto j) { return same(x.terminators[i].at, y.terminators[j].at); });
    }
    match_.segments.push_back(std::move(segments));
    match_.terminators.push_back(std::move(terminators));
  }

  /// Pins by name and source, then by name, then by source and colour, then by source.
  template <class Pin, class Same>
  static Map pins(const std::vector<Pin>& x, const std::vector<Pin>& y, Same same_source) {
    Map map(x.size(), nowhere);
    const auto source = [&](auto i, auto j) { return same_source(x[i], y[j]); };
    const auto name = [&](auto i, auto j) { return x[i].pin == y[j].pin; };
    const auto wire = [&](auto i, auto j) { return x[i].wire == y[j].wire; };
    pair_first(map, y.size(), [&](auto i, auto j) { return name(i, j) && source(i, j) && wire(i, j); });
    pair_first(map, y.size(), [&](auto i, auto j) { return name(i, j) && source(i, j); });
    pair_first(map, y.size(), [&](auto i, auto j) { return name(i, j) && !x[i].pin.empty(); });
    pair_first(map, y.size(), [&](auto i, auto j) { return source(i, j) && wire(i, j); });
    pair_first(map, y.size(), source);
    pair_first(map, y.size(), [&](auto i, auto j) { return name(i, j) && wire(i, j); });
    return map;
  }

  Map power_pins(const std::vector<PowerPin>& x, const std::vector<PowerPin>& y) const {
    return pins(x, y, [&](const PowerPin& p, const PowerPin& q) { return at(match_.feeds, p.feed) == q.feed; });
  }
  Map ground_pins(const std::vector<GroundPin>& x, const std::vector<GroundPin>& y) const {
    return pins(x, y, [&](const GroundPin& p, const GroundPin& q) { return at(match_.grounds, p.ground) == q.ground; });
  }

  void add_module(std::size_t module) {
    const Module none, &x = a_.modules[module];
    const Module& y = match_.modules[module] == nowhere ? none : b_.modules[match_.modules[module]];
    match_.power.push_back(power_pins(x.power, y.power));
    match_.ground.push_back(ground_pins(x.ground, y.ground));
    Map references = by_id(x.references, y.references);
    pair_first(references, y.references.size(), [&](auto i, auto j) {
      return !x.references[i].pin.empty() && x.references[i].pin == y.references[j].pin;
    });
    match_.references.push_back(std::move(references));
  }

  void add_connector() {
    const DiagnosticConnector &x = a_.diagnostic_connector, &y = b_.diagnostic_connector;
    match_.connector_power = power_pins(x.power, y.power);
    match_.connector_ground = ground_pins(x.ground, y.ground);
    match_.connector_buses.assign(x.buses.size(), nowhere);
    pair_first(match_.connector_buses, y.buses.size(),
               [&](auto i, auto j) { return match_.buses[x.buses[i].bus] == y.buses[j].bus; });
  }

  const Network &a_, &b_;
  Matching match_;
};

}  // namespace

std::size_t at(const Map& map, std::size_t index) { return index == nowhere ? nowhere : map[index]; }

std::vector<std::size_t> only_in_b(const Map& map, std::size_t count_b) {
  std::vector<std::size_t> only;
  const Map back = inverse(map, count_b);
  for (std::size_t j = 0; j < count_b; ++j) {
    if (back[j] == nowhere) only.push_back(j);
  }
  return only;
}

Map inverse(const Map& map, std::size_t count_b) {
  Map back(count_b, nowhere);
  for (std::size_t i = 0; i < map.size(); ++i) {
    if (map[i] != nowhere) back[map[i]] = i;
  }
  return back;
}

std::optional<End> Matching::in_b(const End& end) const {
  if (end.kind == End::Kind::diagnostic_connector) return end;
  const std::size_t index = (end.kind == End::Kind::module ? modules : points)[end.index];
  if (index == nowhere) return std::nullopt;
  return End{end.kind, index};
}

Matching match(const Network& a, const Network& b) { return Matcher(a, b).make(); }

}  // namespace whichwire
