// What a part is known by besides its id: its role and its place. Two parts with different ids are the same part under
// another name where these agree; how much is asked for at the least stands with each score. Common practice, no
// source. Tests: tests/compare/trims.cpp, tests/compare/edits.cpp.
#pragma once

#include <set>
#include <string>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire {

using Names = std::set<std::string>;

struct Traits {
  std::string kind, name, where;
  Names roles;   ///< of a module, with its J1939 address
  Names hangs;   ///< what hangs from it: users of a feed or ground, members of a bus, segments of a point
  Names feeds;   ///< of a module
  Names beside;  ///< ends next to a module
};

/// Traits in names that both networks share: modules and feeds by their number in A.
class TraitsOf {
 public:
  using Map = std::vector<std::size_t>;
  /// For A the maps are null; for B they lead to A.
  TraitsOf(const Network& network, const Map* modules_to_a, const Map* feeds_to_a)
      : network_(network), modules_to_a_(modules_to_a), feeds_to_a_(feeds_to_a) {}

  Traits module(std::size_t index) const;
  Traits bus(std::size_t index) const;
  Traits point(std::size_t index) const;
  Traits feed(std::size_t index) const;
  Traits ground(std::size_t index) const;
  Traits function(std::size_t index) const;

 private:
  std::string in_a(const Map* to_a, std::size_t index) const;
  template <class Wanted>
  Names pins(Wanted wanted) const;

  const Network& network_;
  const Map *modules_to_a_, *feeds_to_a_;
};

/// How alike; 0: not the same part.
double alike_modules(const Traits& x, const Traits& y);    ///< a role and a place; without any roles all of the place
double alike_buses(const Traits& x, const Traits& y);      ///< one protocol; most members, or name and some members
double alike_points(const Traits& x, const Traits& y);     ///< one kind; most segments, or place and some segments
double alike_supplies(const Traits& x, const Traits& y);   ///< one kind; most users; with no users the place
double alike_functions(const Traits& x, const Traits& y);  ///< the name, or all modules

}  // namespace whichwire
