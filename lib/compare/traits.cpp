#include "compare/traits.hpp"

#include <algorithm>

namespace whichwire {
namespace {

constexpr double mostly = 0.5;  // more than half is the same

double count_common(const Names& x, const Names& y) {
  return static_cast<double>(std::count_if(x.begin(), x.end(), [&](const auto& one) { return y.count(one) != 0; }));
}

/// Common members by all members; 0 where there are none.
double common(const Names& x, const Names& y) {
  const double both = count_common(x, y);
  const double all = static_cast<double>(x.size() + y.size()) - both;
  return all > 0 ? both / all : 0;
}

double any(const Names& x, const Names& y) { return count_common(x, y) > 0 ? 1 : 0; }
double same(const std::string& x, const std::string& y) { return !x.empty() && x == y ? 1 : 0; }

}  // namespace

std::string TraitsOf::in_a(const Map* to_a, std::size_t index) const {
  if (to_a == nullptr) return std::to_string(index);
  const std::size_t of_a = (*to_a)[index];
  return of_a == nowhere ? "only in B " + std::to_string(index) : std::to_string(of_a);
}

/// `module/pin` of every pin that is wanted.
template <class Wanted>
Names TraitsOf::pins(Wanted wanted) const {
  Names all;
  const auto add = [&](const std::string& owner, const auto& list) {
    for (const auto& pin : list) {
      if (wanted(pin)) all.insert(owner + "/" + pin.pin);
    }
  };
  for (std::size_t m = 0; m < network_.modules.size(); ++m) {
    add(in_a(modules_to_a_, m), network_.modules[m].power);
    add(in_a(modules_to_a_, m), network_.modules[m].ground);
  }
  add("DLC", network_.diagnostic_connector.power);
  add("DLC", network_.diagnostic_connector.ground);
  return all;
}

Traits TraitsOf::module(std::size_t index) const {
  const Module& module = network_.modules[index];
  Traits traits{"", module.name, module.place.where, {module.roles.begin(), module.roles.end()}, {}, {}, {}};
  if (module.address) traits.roles.insert("address " + std::to_string(*module.address));
  for (const PowerPin& pin : module.power) {
    if (pin.feed != nowhere) traits.feeds.insert(in_a(feeds_to_a_, pin.feed));
  }
  const End here{End::Kind::module, index};
  for (const Bus& bus : network_.buses) {
    for (const Segment& segment : bus.segments) {
      if (segment.from == here) traits.beside.insert(id_of(network_, segment.to));
      if (segment.to == here) traits.beside.insert(id_of(network_, segment.from));
    }
  }
  return traits;
}

Traits TraitsOf::bus(std::size_t index) const {
  const Bus& bus = network_.buses[index];
  Traits traits{std::string(word_for(bus.protocol)), bus.name, "", {}, {}, {}, {}};
  for (const Segment& segment : bus.segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind == End::Kind::module) traits.hangs.insert(in_a(modules_to_a_, end.index));
    }
  }
  return traits;
}

Traits TraitsOf::point(std::size_t index) const {
  const Point& point = network_.points[index];
  Traits traits{std::string(word_for(point.kind)), "", point.place.where, {}, {}, {}, {}};
  const End here{End::Kind::point, index};
  for (const Bus& bus : network_.buses) {
    for (const Segment& segment : bus.segments) {
      if (segment.from == here || segment.to == here) traits.hangs.insert(segment.id);
    }
  }
  return traits;
}

Traits TraitsOf::feed(std::size_t index) const {
  const Feed& feed = network_.feeds[index];
  Traits traits{std::string(word_for(feed.kind)), "", feed.place.where, {}, {}, {}, {}};
  traits.hangs = pins([&](const auto& pin) {
    if constexpr (requires { pin.feed; }) return pin.feed == index;
    return false;
  });
  for (std::size_t f = 0; f < network_.feeds.size(); ++f) {
    if (network_.feeds[f].from == index) traits.hangs.insert("feed " + in_a(feeds_to_a_, f));
  }
  return traits;
}

Traits TraitsOf::ground(std::size_t index) const {
  Traits traits{"", "", network_.grounds[index].place.where, {}, {}, {}, {}};
  traits.hangs = pins([&](const auto& pin) {
    if constexpr (requires { pin.ground; }) return pin.ground == index;
    return false;
  });
  return traits;
}

Traits TraitsOf::function(std::size_t index) const {
  const Function& function = network_.functions[index];
  Traits traits{"", function.name, "", {}, {}, {}, {}};
  for (const std::size_t module : function.modules) traits.hangs.insert(in_a(modules_to_a_, module));
  return traits;
}

double alike_modules(const Traits& x, const Traits& y) {
  const double role = 2 * any(x.roles, y.roles) + same(x.name, y.name);
  const double place = same(x.where, y.where) + any(x.feeds, y.feeds) + any(x.beside, y.beside);
  const bool roles_known = !x.roles.empty() || !y.roles.empty();
  if (place == 0 || (role == 0 && (roles_known || place < 3))) return 0;
  return role + place;
}

double alike_buses(const Traits& x, const Traits& y) {
  const double members = common(x.hangs, y.hangs), name = same(x.name, y.name);
  const bool alike = members > mostly || (name > 0 && members > 0);
  return x.kind == y.kind && alike ? members + name : 0;
}

double alike_points(const Traits& x, const Traits& y) {
  const double segments = common(x.hangs, y.hangs), place = same(x.where, y.where);
  const bool alike = segments > mostly || (place > 0 && segments > 0);
  return x.kind == y.kind && alike ? segments + place : 0;
}

double alike_supplies(const Traits& x, const Traits& y) {
  const double users = common(x.hangs, y.hangs), place = same(x.where, y.where);
  const bool alike = users > mostly || (x.hangs.empty() && y.hangs.empty() && place > 0);
  return x.kind == y.kind && alike ? users + place : 0;
}

double alike_functions(const Traits& x, const Traits& y) {
  return 2 * same(x.name, y.name) + (common(x.hangs, y.hangs) == 1 ? 1 : 0);
}

}  // namespace whichwire
